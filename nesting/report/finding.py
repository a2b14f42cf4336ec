"""Where each piece is: on which sheet, and on which screen."""

from nesting.drawing import SheetPiece, piece_codes
from nesting.model import Plan, StrapPiece, StripPiece

from .cutting_screens import screen_keys
from .screen import Whereabouts


def whereabouts(plan: Plan) -> tuple[Whereabouts, ...]:
    """Return all pieces part by part in the order of the job, with where they are."""
    codes, keys = piece_codes(plan), screen_keys(plan)
    parts = [*(panel.name for panel in plan.job.panels), *(strip.name for strip in plan.job.strips)]
    order = {part: number for number, part in enumerate(parts)}
    pieces = sorted(plan.pieces, key=lambda piece: (order[piece.part], piece.copy_number))
    return tuple(
        Whereabouts(
            piece=piece.id,
            code=codes[piece.id],
            part=piece.part,
            which=which_piece(piece),
            hand="" if isinstance(piece, StripPiece) else piece.hand,
            on=piece.on,
            screen=keys[piece.on],
        )
        for piece in pieces
    )


def which_piece(piece: SheetPiece | StripPiece) -> str:
    """Return which copy of its part a piece is of, and which piece of it."""
    if isinstance(piece, StrapPiece):
        return f"copy {piece.copy_number}, strap"
    return (
        f"copy {piece.copy_number}, piece {piece.index} of {piece.of}" if piece.of > 1 else f"copy {piece.copy_number}"
    )
