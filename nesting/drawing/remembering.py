"""What follows from a whole plan is worked out once, however many of its sheets ask for it."""

import functools
import weakref
from collections.abc import Callable
from typing import TypeVar

from nesting.model import PanelPiece, Plan, StrapPiece

Found = TypeVar("Found")


def once_for_a_plan(find: Callable[[Plan], Found]) -> Callable[[Plan], Found]:
    """Keep what a function found for the last plan it was asked about, as long as that plan is there.

    Plans are frozen, so the very same plan gives the same; whoever gets what was kept must not change it.
    """
    last: list[tuple[weakref.ref[Plan], Found]] = []

    @functools.wraps(find)
    def kept(plan: Plan) -> Found:
        if last and last[0][0]() is plan:
            return last[0][1]
        found = find(plan)
        last[:] = [(weakref.ref(plan), found)]
        return found

    return kept


def once_for_a_piece(find: Callable[[PanelPiece | StrapPiece], Found]) -> Callable[[PanelPiece | StrapPiece], Found]:
    """Keep what a function found for each piece, as long as that piece is there.

    Kept by which piece it is, not by what it says: to compare long outlines takes longer than to work it out again.
    """
    found: dict[int, tuple[weakref.ref[PanelPiece | StrapPiece], Found]] = {}

    @functools.wraps(find)
    def kept(piece: PanelPiece | StrapPiece) -> Found:
        key = id(piece)
        if key in found and found[key][0]() is piece:
            return found[key][1]
        made = find(piece)
        found[key] = (weakref.ref(piece, lambda _: found.pop(key, None)), made)
        return made

    return kept
