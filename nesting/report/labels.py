"""What is written on the label of each piece."""

from collections.abc import Iterator, Sequence

from nesting.drawing import FORWARD, JointEnd, SheetPiece, joint_ends, piece_codes
from nesting.model import PanelPiece, Plan, StrapPiece, StripPiece

from .finding import which_piece
from .screen import Label


def labels(plan: Plan) -> tuple[Label, ...]:
    """Return a label for each piece, sheet by sheet as they are cut."""
    codes, ends = piece_codes(plan), joint_ends(plan)
    return tuple(
        Label(
            code=codes[piece.id],
            arrow=_arrow(plan, piece),
            part=piece.part,
            which=", ".join(filter(None, (_hand(piece), which_piece(piece)))),
            ends=tuple(_ends(ends[piece.id])),
            on=piece.on,
        )
        for piece in plan.pieces
    )


def _arrow(plan: Plan, piece: SheetPiece | StripPiece) -> str:
    """Return an arrow as the drawing has it: to the bow where that is known, else to the rising stations."""
    if isinstance(piece, StrapPiece):
        return ""
    is_known = isinstance(piece, PanelPiece) and plan.job.panel(piece.part).forward is not None
    return f"⟶ {FORWARD}" if is_known else "⟶"


def _hand(piece: SheetPiece | StripPiece) -> str:
    return "" if isinstance(piece, StripPiece) else piece.hand


def _ends(ends: Sequence[JointEnd]) -> Iterator[str]:
    for end in ends:
        made = "square" if end.joint.kind == "butt" else f"bevel on {end.bevel_face}"
        yield f"{'high' if end.high_end else 'low'} end {end.code}: {made}"
