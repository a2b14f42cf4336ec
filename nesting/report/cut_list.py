"""Every piece: where it lies, how large it is, and which of its ends are bevelled."""

from collections.abc import Collection, Iterator

from nesting.drawing import (
    JointEnd,
    extents,
    joint_ends,
    own_size,
    panel_pieces,
    piece_codes,
    strip_pieces,
)
from nesting.model import PanelPiece, Plan, StripPiece, UsedLength, UsedSheet

from .table import Cell, Column, Table, as_csv

COLUMNS = (
    Column("order", "Order"),
    Column("sheet", "Sheet or length"),
    Column("code", "Code"),
    Column("part", "Part"),
    Column("copy", "Copy"),
    Column("hand", "Hand"),
    Column("piece", "Piece"),
    Column("of", "of"),
    Column("length", "Length, mm"),
    Column("width", "Width, mm"),
    Column("from_left", "From left, mm"),
    Column("from_bottom", "From bottom, mm"),
    Column("angle", "Turned, degrees"),
    Column("joint_ends", "Joint ends"),
)


def cut_list(plan: Plan) -> str:
    """Return all pieces as CSV: sheet by sheet from the bottom up, then length by length from the left end."""
    return as_csv(Table(caption="Cut list", columns=COLUMNS, rows=tuple(_rows(plan, [used.id for used in plan.used]))))


def cut_table(plan: Plan, *used_ids: str) -> Table:
    """Return the pieces on some sheets or lengths, in the order that they have in the whole list."""
    return Table(caption=f"Cut list of {', '.join(used_ids)}", columns=COLUMNS, rows=tuple(_rows(plan, used_ids)))


def _rows(plan: Plan, used_ids: Collection[str]) -> Iterator[tuple[Cell, ...]]:
    codes, ends = piece_codes(plan), joint_ends(plan)
    for order, (used, piece) in enumerate(_pieces(plan), 1):
        if used.id not in used_ids:
            continue
        share = piece.index, piece.of
        measured = _on_length(piece, plan) if isinstance(piece, StripPiece) else _on_sheet(piece, used)
        hand = piece.hand if isinstance(piece, PanelPiece) else ""
        bevels = "; ".join(_bevel(end) for end in ends[piece.id])
        yield (order, piece.on, codes[piece.id], piece.part, piece.copy_number, hand, *share, *measured, bevels)


def _pieces(plan: Plan) -> Iterator[tuple[UsedSheet | UsedLength, PanelPiece | StripPiece]]:
    for used in plan.used:
        on: tuple[PanelPiece | StripPiece, ...] = (*panel_pieces(plan, used.id), *strip_pieces(plan, used.id))
        for piece in on:
            yield used, piece


def _on_sheet(piece: PanelPiece, used: UsedSheet | UsedLength) -> tuple[Cell, ...]:
    """Return size in the panel's own frame, and distances from the sheet's datum corner."""
    if not isinstance(used, UsedSheet):
        raise ValueError(f"piece {piece.id} of a panel can't lie on {used.id}, which is no sheet")
    length, width = own_size(piece)
    place = extents(piece.outline, used)
    return (
        round(length, 1),
        round(width, 1),
        round(place.left, 1),
        round(place.bottom, 1),
        round(piece.angle % 360, 3),
    )


def _on_length(piece: StripPiece, plan: Plan) -> tuple[Cell, ...]:
    return (round(piece.end - piece.start, 1), plan.job.strip(piece.part).section[0], round(piece.start, 1), None, None)


def _bevel(end: JointEnd) -> str:
    which = "high" if end.high_end else "low"
    return f"{which} end {end.code} bevel on {end.bevel_face}"
