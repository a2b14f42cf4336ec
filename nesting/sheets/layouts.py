"""Layouts: which pieces lie where on one sheet; and the pool of all that were found."""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from nesting.packing import Placement, Placer, Preference, is_feasible

from .pieces import PieceKind
from .stock import Stock


@dataclass(frozen=True, eq=False)
class Layout:
    """Pieces on one sheet, each with its place."""

    stock: Stock
    laid: tuple[tuple[PieceKind, Placement], ...]

    @cached_property
    def counts(self) -> Counter[PieceKind]:
        """How many of each piece kind lie on it."""
        return Counter(kind for kind, _ in self.laid)

    @cached_property
    def area(self) -> float:
        """Area of all pieces on it."""
        return sum(kind.area for kind, _ in self.laid)

    def only(self, wanted: Counter[PieceKind]) -> "Layout":
        """Return the layout with no more of each piece kind than wanted, and take those off ``wanted``."""
        kept = []
        for kind, placement in self.laid:
            if wanted[kind] > 0:
                wanted[kind] -= 1
                kept.append((kind, placement))
        return Layout(self.stock, tuple(kept))


def lay(
    stock: Stock, kinds: Sequence[PieceKind], placer: Placer, preference: Preference, gap: float, angles: int
) -> Layout:
    """Lay as many pieces, in their order, on one sheet as find a place, and verify it by exact geometry."""
    items = [replace(kind.item, angles=kind.angles_on(stock)[:angles]) for kind in kinds]
    placements = placer.fill(stock.container, items, preference)
    if not is_feasible(stock.container, items, placements, gap):
        raise AssertionError("the packing routine returned a layout that is not feasible")
    return Layout(stock, tuple((kinds[placement.item], placement) for placement in placements))


class Pool:
    """All layouts found, each once."""

    def __init__(self) -> None:
        self._layouts: dict[tuple[int, frozenset[tuple[PieceKind, int]]], Layout] = {}

    def add(self, layouts: Iterable[Layout]) -> None:
        """Take in layouts; of those with the same pieces on the same sheet the first is kept."""
        for layout in layouts:
            if layout.laid:
                self._layouts.setdefault((layout.stock.index, frozenset(layout.counts.items())), layout)

    def __len__(self) -> int:
        return len(self._layouts)

    @property
    def layouts(self) -> list[Layout]:
        """All layouts, in the order in which they were found."""
        return list(self._layouts.values())
