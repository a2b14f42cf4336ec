"""Makes selections better until the budget is spent, and gathers the pieces of the last."""

from collections.abc import Callable, Iterator
from concurrent.futures import Executor
from itertools import chain as chained
from random import Random

from nesting.effort import Effort
from nesting.packing import Placer

from .chain import Chain, engine_is_ready
from .gathering import gathered
from .layouts import Pool
from .outcomes import Outcomes, ways_told

#: Share of the budget in which the pieces on each sheet are gathered in the end.
GATHERING = 0.05

#: Takes a chain, an effort and a placer; goes on until the effort is spent, and comes back whenever it may be asked.
GoingOn = Callable[[Chain, Effort, Placer], Iterator[None]]


def bettered(
    outcomes: Outcomes,
    pool: Pool,
    chance: Random,
    effort: Effort,
    enough: Callable[[], bool],
    go_on: GoingOn,
) -> Iterator[Outcomes]:
    """Yield better selections, starting from the first of each way, until the budget is spent or it is enough.

    The last has the pieces on each sheet gathered.
    """
    chain, told = Chain(outcomes, pool, chance), ways_told(outcomes)
    for _ in _searched(chain, effort.share_of_rest(1 - GATHERING), enough, go_on):
        told = ways_told(outcomes)
        yield outcomes
    if not effort.stopped and engine_is_ready(effort):
        job, seed = outcomes.tasks[0].job, chance.randrange(2**31)
        outcomes.settle(gathered(job, outcomes.best, chain.workshop, effort, seed))
        yield outcomes
    elif ways_told(outcomes) != told:
        yield outcomes


def in_chains(chains: int, seed: int, executor: Executor | None) -> GoingOn:
    """Return how to go on with one chain, here, or with several, wherever the executor has them run."""
    if chains == 1:
        return _in_one_chain

    def in_several(chain: Chain, effort: Effort, placer: Placer) -> Iterator[None]:
        from .side_by_side import side_by_side  # only now: few need it

        return side_by_side(chain, effort, placer, seed, chains, executor)

    return in_several


def _in_one_chain(chain: Chain, effort: Effort, placer: Placer) -> Iterator[None]:
    while not effort.over:
        chain.step(effort, placer)
        yield


def _searched(chain: Chain, effort: Effort, enough: Callable[[], bool], go_on: GoingOn) -> Iterator[Outcomes]:
    """Yield the outcomes whenever there is a better one of all."""
    outcomes, placer = chain.outcomes, Placer(chain.gap, effort)
    rank = outcomes.best.rank
    if enough():
        return
    chain.begin(effort, placer)
    for _ in chained([None], go_on(chain, effort, placer)):
        if outcomes.best.rank < rank:
            rank = outcomes.best.rank
            yield outcomes
        if enough():
            return
