"""Pieces by the sheet, blank or length that they lie on."""

from collections import defaultdict
from collections.abc import Callable, Iterable
from typing import Any, TypeVar

from nesting.model import PanelPiece, StrapPiece, StripPiece

Piece = TypeVar("Piece", PanelPiece | StrapPiece, StripPiece)


def by_what_they_lie_on(pieces: Iterable[Piece], order: Callable[[Piece], Any]) -> dict[str, tuple[Piece, ...]]:
    """Return the pieces on each sheet, blank or length by its id, in an order of theirs."""
    found: dict[str, list[Piece]] = defaultdict(list)
    for piece in pieces:
        found[piece.on].append(piece)
    return {name: tuple(sorted(there, key=order)) for name, there in found.items()}
