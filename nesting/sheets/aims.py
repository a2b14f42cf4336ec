"""What is to be brought about: variants drawn by chance, and the sheets that leave them the most room for less money.

The roomiest sheets below a limit are the likeliest to hold everything. The cheapest would be the fullest: attempts at
those are in vain for the most part.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from random import Random

from ortools.sat.python import cp_model

from nesting.solving import minimize

from .choosing import counted
from .moving_joints import joint_costs
from .one_of_each import one_of_each, variants_taken
from .rebates import rebates
from .stock import Stock
from .tasks import Task
from .variants import Variant

#: Hundredths of the sheets' area that pieces are reckoned to take at the most.
FILLED = 95

#: Deterministic solver time for one choice, and by what share it may be off the best: that is disturbed anyhow.
EFFORT, NEAR = 0.15, 0.01

#: So many variants of each panel are drawn, of which one is chosen.
SOME = 5

#: Cents by which the cost of a variant is disturbed, beyond what its joints cost.
DISTURBANCE = 500

#: Cents by which each way to make a panel is disturbed besides: one of few variants is drawn as well as one of many.
DISTURBANCE_OF_WAYS = 1000

#: By what share the worth of a sheet's area is disturbed, so that different sheets are chosen.
WORTH = 0.1


@dataclass(frozen=True)
class Aim:
    """What is to be brought about: one variant of each panel, and the sheets and blanks from which to cut all."""

    variants: tuple[Variant, ...]
    stocks: tuple[Stock, ...]


def aim_below(task: Task, cost: int, chance: Random) -> Aim | None:
    """Return variants and sheets that cost less than ``cost`` cents, with room by area, or None if none were found.

    Parameters
    ----------
    chance : Random
        Draws a few kinds of sheets and a few variants of each panel, among which a solver chooses, and disturbs what
        the sheets are worth.
    """
    drawn = _kinds_drawn(task.stocks, chance)
    there = {stock.index for stock in drawn}
    fitting = [[v for v in several if v.fits(there)] for several in task.variants]
    if not all(fitting):
        return None
    return _roomiest(task, [_some(several, task, chance) for several in fitting], drawn, cost, chance)


def _kinds_drawn(stocks: Sequence[Stock], chance: Random) -> list[Stock]:
    """Draw a few kinds of sheets, and of the blanks that they make: else nearly all choices would be alike."""
    sheets = set(_some_of_each([stock for stock in stocks if stock.blank is None], chance))
    there = [stock for stock in stocks if sheets.issuperset(stock.members)]
    blanks = set(_some_of_each([stock for stock in there if stock.blank is not None], chance))
    return [stock for stock in there if stock.blank is None or stock in blanks]


def _some_of_each(stocks: Sequence[Stock], chance: Random) -> Iterator[Stock]:
    """Draw one or more of each material and thickness."""
    for goods in dict.fromkeys((stock.sheet.material, stock.sheet.thickness) for stock in stocks):
        kinds = [stock for stock in stocks if (stock.sheet.material, stock.sheet.thickness) == goods]
        yield from chance.sample(kinds, chance.randint(1, len(kinds)))


def _some(several: Sequence[Variant], task: Task, chance: Random) -> tuple[Variant, ...]:
    """Draw a few variants of a panel, those with cheap joints sooner."""
    ways = {way: chance.randrange(DISTURBANCE_OF_WAYS) for way in dict.fromkeys(v.way for v in several)}
    costs = [joint_costs(task, (v,)) for v in several]
    seeming = [c + ways[v.way] + chance.randrange(1 + c + DISTURBANCE) for v, c in zip(several, costs, strict=True)]
    return tuple(several[k] for k in sorted(range(len(several)), key=seeming.__getitem__)[:SOME])


def _roomiest(
    task: Task, variants: Sequence[Sequence[Variant]], stocks: Sequence[Stock], cost: int, chance: Random
) -> Aim | None:
    """Return the choice of variants and sheets below a cost with the most area for its joints."""
    model = cp_model.CpModel()
    chosen = one_of_each(model, variants, task.clashing)
    counts = counted(model, task.parts, chosen, stocks, FILLED)
    numbers = [counts[stock.index] for stock in stocks]
    joints = sum(joint_costs(task, (v,)) * taken for v, taken in chosen.items())
    sheets = cp_model.LinearExpr.weighted_sum(numbers, [stock.price for stock in stocks])
    model.add(joints + sheets - rebates(model, stocks, numbers) < cost)
    model.minimize(joints - cp_model.LinearExpr.weighted_sum(numbers, _worths(stocks, chance)))
    answer = minimize(model, effort=EFFORT, near=NEAR)
    if not answer.found:
        return None
    taken = tuple(stock for stock in stocks for _ in range(answer.values[f"n{stock.index}"]))
    return Aim(variants_taken(variants, answer.values), taken)


def _worths(stocks: Sequence[Stock], chance: Random) -> list[int]:
    """Return what the area of each is worth in cents, disturbed, where all are worth the same for their area."""
    rate = sum(stock.price for stock in stocks) / sum(stock.area for stock in stocks)
    return [round(rate * stock.area * chance.uniform(1 - WORTH, 1 + WORTH)) for stock in stocks]
