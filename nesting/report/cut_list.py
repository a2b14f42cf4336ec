"""Every piece: where it lies, how large it is, and which of its ends are bevelled."""

from collections.abc import Collection, Iterator
from dataclasses import dataclass

from nesting.drawing import (
    Container,
    Crossing,
    JointEnd,
    SheetPiece,
    Tape,
    container,
    containers,
    crossings,
    extents,
    joint_ends,
    once_for_a_plan,
    own_size,
    piece_codes,
    sheet_pieces,
    strip_pieces,
    tape_in,
)
from nesting.model import Plan, StrapPiece, StripPiece, UsedLength

from .table import Cell, Column, LengthColumn, Table, as_csv, on_tape

COLUMNS = (
    Column("order", "Order"),
    Column("sheet", "Blank, sheet or length"),
    Column("code", "Code"),
    Column("part", "Part"),
    Column("copy", "Copy"),
    Column("hand", "Hand"),
    Column("piece", "Piece"),
    Column("of", "of"),
    LengthColumn("length", "Length"),
    LengthColumn("width", "Width"),
    LengthColumn("from_left", "From left"),
    LengthColumn("from_bottom", "From bottom"),
    Column("angle", "Turned, degrees"),
    Column("joint_ends", "Joints"),
    Column("note", "Note"),
)


#: How a strap lies and how it is glued: it was turned over against its panel.
STRAP_NOTE = "lies good face up; glued with that face inwards"


@dataclass(frozen=True)
class Cut:
    """One piece to cut, from what, and its row in the list."""

    piece: str
    on: str
    row: tuple[Cell, ...]


def cut_list(plan: Plan) -> str:
    """Return all pieces as CSV: blank by blank, sheet by sheet from the bottom up, then each length from its left."""
    rows = tuple(cut.row for cut in all_cuts(plan))
    return as_csv(on_tape(Table(caption="Cut list", columns=COLUMNS, rows=rows), tape_in(plan)))


def cut_table(plan: Plan, *names: str) -> Table:
    """Return the pieces on some blanks, sheets or lengths, in the order that they have in the whole list."""
    rows = tuple(cut.row for cut in _cuts_on(plan, names))
    return on_tape(Table(caption=f"Cut list of {', '.join(names)}", columns=COLUMNS, rows=rows), tape_in(plan))


def cut_pieces(plan: Plan, *names: str) -> tuple[str, ...]:
    """Return the ids of the pieces in the rows of such a table."""
    return tuple(cut.piece for cut in _cuts_on(plan, names))


@once_for_a_plan
def all_cuts(plan: Plan) -> tuple[Cut, ...]:
    """Return all pieces in the order of the list."""
    codes, joints = piece_codes(plan), _joints(plan)
    return tuple(
        Cut(
            piece.id,
            piece.on,
            (
                order,
                piece.on,
                codes[piece.id],
                piece.part,
                piece.copy_number,
                *_which(piece),
                *_measured(piece, plan),
                joints[piece.id],
                _note(piece),
            ),
        )
        for order, piece in enumerate(_pieces(plan), 1)
    )


def _cuts_on(plan: Plan, names: Collection[str]) -> Iterator[Cut]:
    return (cut for cut in all_cuts(plan) if cut.on in names)


def _all(plan: Plan) -> list[str]:
    """Return the ids of what pieces are cut from."""
    lengths = [used.id for used in plan.used if isinstance(used, UsedLength)]
    return [on.id for on in containers(plan)] + lengths + [s.id for plank in plan.long_planks for s in plank.sticks]


def _pieces(plan: Plan) -> Iterator[SheetPiece | StripPiece]:
    for name in _all(plan):
        yield from sheet_pieces(plan, name)
        yield from strip_pieces(plan, name)


def _which(piece: SheetPiece | StripPiece) -> tuple[Cell, ...]:
    """Return its hand, and which piece of how many of its part it is."""
    if isinstance(piece, StrapPiece):
        return piece.hand, "strap", None
    return "" if isinstance(piece, StripPiece) else piece.hand, piece.index, piece.of


def _measured(piece: SheetPiece | StripPiece, plan: Plan) -> tuple[Cell, ...]:
    if isinstance(piece, StripPiece):
        return _on_length(piece, plan)
    return _on_sheet(piece, container(plan, piece.on))


def _on_sheet(piece: SheetPiece, on: Container) -> tuple[Cell, ...]:
    """Return size in the panel's own frame, and distances from the datum corner."""
    place = extents(piece.outline, on)
    lengths = (*own_size(piece), place.left, place.bottom)
    return (*lengths, round(piece.angle % 360, 3))


def _on_length(piece: StripPiece, plan: Plan) -> tuple[Cell, ...]:
    return (piece.end - piece.start, plan.job.strip(piece.part).section[0], piece.start, None, None)


def _joints(plan: Plan) -> dict[str, str]:
    """Return the joints of each piece by its id, in words."""
    ends, across, tape = joint_ends(plan), crossings(plan), tape_in(plan)
    said = {name: [*map(_end, ends[name]), *(_crossing(line, tape) for line in across[name])] for name in ends}
    return {name: "; ".join(words) for name, words in said.items()}


def _end(end: JointEnd) -> str:
    which = "high" if end.high_end else "low"
    made = "square, strap behind" if end.joint.kind == "butt" else f"bevel on {end.bevel_face}"
    return f"{which} end {end.code} {made}"


def _crossing(crossing: Crossing, tape: Tape) -> str:
    return f"{crossing.code} across at {tape.figure(crossing.joint.station)} (scarf {crossing.scarf.id})"


def _note(piece: SheetPiece | StripPiece) -> str:
    return STRAP_NOTE if isinstance(piece, StrapPiece) else ""
