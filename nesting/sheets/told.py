"""What searches on several workers tell one another: selections and layouts as plain figures.

Stocks, variants and pieces are compared by identity, so whoever hears of them takes those of its own that are alike.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from nesting.packing import Placement

from .known import Known
from .layouts import Layout
from .pieces import PieceKind
from .selecting import Selection
from .tasks import Task
from .variants import Variant


@dataclass(frozen=True)
class ToldVariant:
    """A way to make one panel: joined, from a blank, or not."""

    panel: int
    stations: tuple[float, ...]
    joined: bool


@dataclass(frozen=True)
class ToldLayout:
    """The index of a stock, and what lies there: the panel, the number of the piece in its variant, and its place."""

    stock: int
    laid: tuple[tuple[int, int, Placement], ...]


@dataclass(frozen=True)
class ToldSelection:
    """A selection, and other layouts of the same pieces; ``way`` is the number of its task."""

    way: int
    variants: tuple[ToldVariant, ...]
    layouts: tuple[ToldLayout, ...]
    others: tuple[ToldLayout, ...]
    cost: int
    joints: int


def told(way: int, selection: Selection, others: Iterable[Layout]) -> ToldSelection:
    """Return a selection, and other layouts of pieces of its variants, to be told to other searches."""
    numbers = {kind: (v.panel, n) for v in selection.variants for n, kind in enumerate(v.pieces)}
    return ToldSelection(
        way,
        tuple(ToldVariant(v.panel, v.stations, v.way == "joined") for v in selection.variants),
        tuple(_told(layout, numbers) for layout in selection.layouts),
        tuple(_told(layout, numbers) for layout in others),
        selection.cost,
        selection.joints,
    )


def _told(layout: Layout, numbers: dict[PieceKind, tuple[int, int]]) -> ToldLayout:
    return ToldLayout(layout.stock.index, tuple((*numbers[kind], place) for kind, place in layout.laid))


def heard(told: ToldSelection, task: Task, known: Known) -> tuple[Selection, tuple[Layout, ...]]:
    """Return what was told as it is here: the selection, and the other layouts."""
    variants = [_variant(one, known) for one in told.variants]
    layouts = _layouts(told.layouts, task, variants)
    return Selection(tuple(variants), layouts, told.cost, told.joints), _layouts(told.others, task, variants)


def _variant(one: ToldVariant, known: Known) -> Variant:
    variant = (known.joined if one.joined else known.divided)(one.panel, one.stations)
    if variant is None:
        raise AssertionError(f"panel {one.panel} can't be made as another search has made it")
    return variant


def _layouts(told: Sequence[ToldLayout], task: Task, variants: Sequence[Variant]) -> tuple[Layout, ...]:
    stocks = {stock.index: stock for stock in task.stocks}
    pieces = {variant.panel: variant.pieces for variant in variants}
    return tuple(
        Layout(stocks[one.stock], tuple((pieces[panel][number], place) for panel, number, place in one.laid))
        for one in told
    )
