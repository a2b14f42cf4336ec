"""The list of pieces below the drawing of a sheet or blank."""

from collections.abc import Sequence

from nesting.model import PanelPiece, Plan

from .canvas import Canvas
from .codes import piece_codes
from .datum import Container, SheetPiece, extents, sheet_pieces
from .joint_ends import crossings, joint_ends
from .legend import Column, draw_list
from .lettering import width_of
from .placement import own_size
from .sheet_frame import SheetFrame
from .styles import SMALL
from .tape import figure, figure_room, figures

#: Width on paper of the first two columns together, of which codes take what they need.
CODE_AND_PART, LEAST_CODE, MOST_CODE = 50.0, 10.0, 24.0

#: Width on paper of sizes in millimetres; those in inches take a share of the figures' longer room from the part.
SIZE, SHARE = 31.0, 1.6

COLUMNS = (
    Column("hand", 22.0),
    Column("piece", 16.0),
    Column("size", SIZE),
    Column("from left", 21.0),
    Column("from bottom", 25.0),
    Column("joints", 17.0),
)


def draw_piece_list(canvas: Canvas, plan: Plan, frame: SheetFrame, on: Container) -> None:
    """Draw one row for each piece or strap, if there are any: what, how large, where, and which joints it has."""
    codes, pieces = piece_codes(plan), sheet_pieces(plan, on.id)
    if not pieces:
        return
    joints = _joints(plan, [piece.id for piece in pieces])
    rows = [_row(piece, codes[piece.id], joints[piece.id], on) for piece in pieces]
    wider = SHARE * figure_room()
    sized = (Column(c.heading, c.width + wider) if c.heading == "size" else c for c in COLUMNS)
    columns = (*_code_and_part([row[0] for row in rows], CODE_AND_PART - wider), *sized)
    draw_list(canvas, frame.legend_corner, columns, rows)


def _code_and_part(codes: Sequence[str], room: float) -> tuple[Column, Column]:
    widest = max((width_of(code, SMALL) + 1.5 for code in codes), default=LEAST_CODE)
    width = min(max(LEAST_CODE, widest), MOST_CODE)
    return Column("code", width), Column("part", room - width)


def _joints(plan: Plan, names: Sequence[str]) -> dict[str, str]:
    """Return the codes of the joints of some pieces by their ids."""
    ends, across = joint_ends(plan), crossings(plan)
    codes = {name: [end.code for end in ends[name]] + [line.code for line in across[name]] for name in names}
    return {name: ", ".join(named) for name, named in codes.items()}


def _row(piece: SheetPiece, code: str, joints: str, on: Container) -> tuple[str, ...]:
    place = extents(piece.outline, on)
    return (
        code,
        piece.part,
        piece.hand,
        f"{piece.index} of {piece.of}" if isinstance(piece, PanelPiece) else "strap",
        figures(*own_size(piece)),
        figure(place.left),
        figure(place.bottom),
        joints,
    )
