"""Makes selections better until the budget is spent, and gathers the pieces of the last."""

from collections.abc import Callable, Iterator
from random import Random

from nesting.effort import Effort
from nesting.packing import Placer

from .chain import Chain, engine_is_ready
from .gathering import gathered
from .layouts import Pool
from .outcomes import Outcomes, ways_told

#: Share of the budget in which the pieces on each sheet are gathered in the end.
GATHERING = 0.05


def bettered(
    outcomes: Outcomes, pool: Pool, chance: Random, effort: Effort, enough: Callable[[], bool]
) -> Iterator[Outcomes]:
    """Yield better selections, starting from the first of each way, until the budget is spent or it is enough.

    The last has the pieces on each sheet gathered.
    """
    chain, told = Chain(outcomes, pool, chance), ways_told(outcomes)
    for _ in _searched(chain, effort.share_of_rest(1 - GATHERING), enough):
        told = ways_told(outcomes)
        yield outcomes
    if engine_is_ready(effort) and not effort.stopped:
        job, seed = outcomes.tasks[0].job, chance.randrange(2**31)
        outcomes.settle(gathered(job, outcomes.best, chain.workshop, effort, seed))
        yield outcomes
    elif ways_told(outcomes) != told:
        yield outcomes


def _searched(chain: Chain, effort: Effort, enough: Callable[[], bool]) -> Iterator[Outcomes]:
    """Yield the outcomes whenever there is a better one of all."""
    outcomes, placer = chain.outcomes, Placer(chain.outcomes.tasks[0].job.workshop.gap, effort)
    rank = outcomes.best.rank
    if not enough():
        chain.begin(effort, placer)
    while True:
        if outcomes.best.rank < rank:
            rank = outcomes.best.rank
            yield outcomes
        if effort.over or enough():
            return
        chain.step(effort, placer)
