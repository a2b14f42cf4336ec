"""A first choice of variants without a solver: for each panel in turn the one that seems cheapest."""

from collections.abc import Mapping, Sequence

from .tasks import Task
from .variants import Variant

#: Share of a sheet that is reckoned to be filled.
FILLED = 0.72


def plain_choice(task: Task) -> tuple[Variant, ...] | None:
    """Return one variant of each panel that clashes with none before it; None if a panel is left without one.

    A variant seems to cost its joints, and for each piece what its area costs where that is cheapest: how sheets are
    filled and how many there are is not looked at.
    """
    price = {stock.index: stock.price / (FILLED * stock.area) for stock in task.stocks}
    taken: list[Variant] = []
    for several in task.variants:
        free = [variant for variant in several if _made(variant, price) and not _clashes(variant, taken, task)]
        if not free:
            return None
        taken.append(min(free, key=lambda variant: _seeming_cost(variant, task, price)))
    return tuple(taken)


def _made(variant: Variant, price: Mapping[int, float]) -> bool:
    """Whether each of its pieces may be cut from some stock."""
    return not any(kind.stocks.isdisjoint(price) for kind in variant.pieces)


def _clashes(variant: Variant, taken: Sequence[Variant], task: Task) -> bool:
    return any((variant, other) in task.clashing or (other, variant) in task.clashing for other in taken)


def _seeming_cost(variant: Variant, task: Task, price: Mapping[int, float]) -> float:
    part = task.parts[variant.panel]
    pieces = sum(
        part.hands[kind.hand] * kind.area * min(price[index] for index in kind.stocks if index in price)
        for kind in variant.pieces
    )
    return part.panel.quantity * variant.joint_cost + pieces
