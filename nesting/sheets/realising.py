"""Lays all pieces that are wanted on given sheets and blanks, all at once."""

from collections import Counter, defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, replace

from nesting.effort import Effort
from nesting.packing import Arrangement, Item, Placement, Places, Workshop, arrange_together

from .layouts import Layout
from .pieces import PieceKind
from .stock import Stock


@dataclass(frozen=True)
class Attempt:
    """Pieces as they lie on sheets and blanks, apart from one another or not yet."""

    stocks: tuple[Stock, ...]
    kinds: tuple[PieceKind, ...]
    arrangement: Arrangement

    @property
    def filled(self) -> float:
        """Share of the sheets' area that the pieces take."""
        return sum(kind.area for kind in self.kinds) / sum(stock.area for stock in self.stocks)

    @property
    def layouts(self) -> tuple[Layout, ...]:
        """What lies on each sheet that is used; only of pieces that are apart."""
        laid: list[list[tuple[PieceKind, Placement]]] = [[] for _ in self.stocks]
        for number, place in self.arrangement.places:
            laid[number].append((self.kinds[place.item], place))
        return tuple(Layout(stock, tuple(pieces)) for stock, pieces in zip(self.stocks, laid, strict=True) if pieces)


def attempted(
    wanted: Counter[PieceKind],
    stocks: Sequence[Stock],
    workshop: Workshop,
    effort: Effort,
    seed: int,
    start: Attempt | None = None,
) -> Attempt | None:
    """Return how the pieces may lie on these sheets with the least overlap found; None if one fits nowhere.

    Parameters
    ----------
    start : Attempt or None
        On the same sheets; pieces begin where it has them, or others of the same panels that stand for them.
    """
    kinds = tuple(sorted(wanted.elements(), key=_role))
    with_blanks = any(stock.blank is not None for stock in stocks)
    items = [_item(kind, with_blanks) for kind in kinds]
    allowed = [frozenset(k for k, stock in enumerate(stocks) if stock.index in kind.stocks) for kind in kinds]
    if not all(allowed):
        return None
    containers = [stock.container for stock in stocks]
    begun = () if start is None else _begun(kinds, start)
    found = arrange_together(workshop, containers, items, effort, seed=seed, allowed=allowed, start=begun)
    return None if found is None else Attempt(tuple(stocks), kinds, found)


def realised(
    wanted: Counter[PieceKind],
    stocks: Sequence[Stock],
    workshop: Workshop,
    effort: Effort,
    seed: int,
) -> tuple[Layout, ...] | None:
    """Return layouts on these sheets that hold all pieces, or None if none were found, which proves nothing."""
    attempt = attempted(wanted, stocks, workshop, effort, seed)
    return attempt.layouts if attempt is not None and attempt.arrangement.apart else None


def _role(kind: PieceKind) -> tuple[int, str, int, int, bool]:
    """Return what a piece is to its panel, wherever the panel's joints lie."""
    return kind.panel, kind.hand, kind.index, kind.of, kind.is_strap


def _begun(kinds: Sequence[PieceKind], start: Attempt) -> Places:
    """Return where pieces begin: each in the place of one with the same role."""
    there = defaultdict(list)
    for number, place in start.arrangement.places:
        there[_role(start.kinds[place.item])].append((number, place))
    return tuple(
        (number, replace(place, item=item))
        for item, kind in enumerate(kinds)
        if there[_role(kind)]
        for number, place in [there[_role(kind)].pop(0)]
    )


def _item(kind: PieceKind, with_blanks: bool) -> Item:
    """Return a piece as it is tried: where a blank is among the sheets, it lies true on all of them."""
    if not with_blanks:
        return kind.item
    true = tuple(angle for angle in kind.item.angles if angle % 90 == 0)
    return replace(kind.item, angles=true) if true else kind.item
