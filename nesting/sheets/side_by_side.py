"""Several chains side by side, on as many workers as there are: after each round they share what they found."""

import pickle
from collections.abc import Iterator, Sequence
from concurrent.futures import BrokenExecutor, Executor, Future
from contextlib import suppress
from dataclasses import dataclass

from nesting.effort import Budget, Effort, in_rounds
from nesting.packing import Placer, wait_until_compiled

from .chain import Chain, engine_is_ready
from .told import ToldSelection

#: Work units of a chain in a round: news come soon at first; later a chain is seldom sent from one process to another,
#: which takes as long as some hundred units.
FIRST_ROUND, LATER_ROUND = 500, 8000

#: Seconds of a round for each unit, where there is a limit in seconds.
SECONDS_A_UNIT = 0.00075


@dataclass(frozen=True)
class Sent:
    """A chain with all that it has prepared, and what others have told since it was last at work."""

    chain: bytes
    heard: tuple[tuple[ToldSelection, ...], ...]


@dataclass(frozen=True)
class Reached:
    """A chain after a round, and what it tells the others."""

    chain: bytes
    told: tuple[ToldSelection, ...]


def side_by_side(
    chain: Chain, effort: Effort, placer: Placer, seed: int, chains: int, executor: Executor | None
) -> Iterator[None]:
    """Go on with so many chains from what one has found, and come back after each round: that one hears of all.

    With work units alone, the same seed and number of chains come to the same whatever the executor.
    """
    yield from _begun(chain, effort, placer, chains, executor)
    start = pickle.dumps(chain)
    states = [Sent(start, ())] * chains
    for reached in in_rounds(_advanced, _merged, states, effort, seed, executor, _work):
        for one in reached:
            chain.exchange.hear(one.told)
        yield


def _begun(chain: Chain, effort: Effort, placer: Placer, chains: int, executor: Executor | None) -> Iterator[None]:
    """Make the first steps here, until workers are there where time may count, and come back after each."""
    called: list[Future[None]] = []
    while not effort.over and not (chain.has_begun and engine_is_ready(effort) and _are_there(called, effort)):
        if executor is not None and not called and engine_is_ready(effort):  # what is compiled here they find
            called = _called(executor, chains)
        chain.step(effort, placer)
        yield


def _called(executor: Executor, chains: int) -> list[Future[None]]:
    """Have workers begin, which takes seconds; if they are lost nobody waits for them."""
    with suppress(BrokenExecutor):
        return [executor.submit(wait_until_compiled) for _ in range(chains)]
    return []


def _are_there(called: Sequence[Future[None]], effort: Effort) -> bool:
    """Whether workers are ready; where the outcome may not depend on time, they are waited for later."""
    return effort.budget.seconds is None or all(future.done() for future in called)


def _work(number: int) -> int:
    """Return the work of a round: each is twice as long as the one before until they are long enough."""
    return min(FIRST_ROUND << number, LATER_ROUND)


def _advanced(sent: Sent, share: float, work: int, effort: Effort, seed: int) -> Reached:
    """Return what a chain comes to with so much work."""
    del share
    chain: Chain = pickle.loads(sent.chain)
    chain.draw_from(seed)
    for several in sent.heard:
        chain.exchange.hear(several)
    part = effort.part(_budget(work, effort))
    placer = Placer(chain.gap, part)
    while not part.over:
        chain.step(part, placer)
    return Reached(pickle.dumps(chain), chain.exchange.tell())


def _budget(work: int, effort: Effort) -> Budget:
    """Return what a chain may spend in a round: where time counts all end at once, so that none waits for another."""
    return Budget(work=work) if effort.budget.seconds is None else Budget(seconds=work * SECONDS_A_UNIT)


def _merged(reached: Sequence[Reached], share: float) -> list[Sent]:
    """Return the chains for the next round: each hears what the others told, in their order."""
    del share
    return [Sent(one.chain, tuple(other.told for other in reached if other is not one)) for one in reached]
