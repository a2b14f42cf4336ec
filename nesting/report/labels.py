"""What is written on the label of each piece."""

from collections.abc import Iterator, Sequence

from nesting.drawing import JointEnd, SheetPiece, joint_ends, piece_codes
from nesting.model import Plan, StripPiece

from .finding import which_piece
from .screen import Label


def labels(plan: Plan) -> tuple[Label, ...]:
    """Return a label for each piece, sheet by sheet as they are cut."""
    codes, ends = piece_codes(plan), joint_ends(plan)
    return tuple(
        Label(
            code=codes[piece.id],
            part=piece.part,
            which=", ".join(filter(None, (_hand(piece), which_piece(piece)))),
            ends=tuple(_ends(ends[piece.id])),
            on=piece.on,
        )
        for piece in plan.pieces
    )


def _hand(piece: SheetPiece | StripPiece) -> str:
    return "" if isinstance(piece, StripPiece) else piece.hand


def _ends(ends: Sequence[JointEnd]) -> Iterator[str]:
    for end in ends:
        made = "square" if end.joint.kind == "butt" else f"bevel on {end.bevel_face}"
        yield f"{'high' if end.high_end else 'low'} end {end.code}: {made}"
