"""Lays all pieces that are wanted on given sheets and blanks, all at once."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from nesting.effort import Effort
from nesting.packing import Item, Placement, Workshop, pack_together

from .layouts import Layout
from .pieces import PieceKind
from .stock import Stock


def realised(
    wanted: Counter[PieceKind],
    stocks: Sequence[Stock],
    workshop: Workshop,
    effort: Effort,
    seed: int,
) -> tuple[Layout, ...] | None:
    """Return layouts on these sheets that hold all pieces, or None if none were found, which proves nothing."""
    kinds = sorted(wanted.elements(), key=lambda kind: (kind.panel, kind.hand, kind.index, kind.is_strap))
    with_blanks = any(stock.blank is not None for stock in stocks)
    items = [_item(kind, with_blanks) for kind in kinds]
    allowed = [frozenset(k for k, stock in enumerate(stocks) if stock.index in kind.stocks) for kind in kinds]
    places = pack_together(workshop, [stock.container for stock in stocks], items, effort, seed=seed, allowed=allowed)
    if places is None:
        return None
    laid: list[list[tuple[PieceKind, Placement]]] = [[] for _ in stocks]
    for number, place in places:
        laid[number].append((kinds[place.item], place))
    return tuple(Layout(stock, tuple(pieces)) for stock, pieces in zip(stocks, laid, strict=True) if pieces)


def _item(kind: PieceKind, with_blanks: bool) -> Item:
    """Return a piece as it is tried: where a blank is among the sheets, it lies true on all of them."""
    if not with_blanks:
        return kind.item
    true = tuple(angle for angle in kind.item.angles if angle % 90 == 0)
    return replace(kind.item, angles=true) if true else kind.item
