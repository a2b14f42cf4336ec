"""Limited planks that may be ripped for one section or for another: how many serve which."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import islice, product
from math import inf

from nesting.model import Job

from .cutting import Cutting
from .outcome import Outcome
from .proven import Proven

#: Ways of sharing out that are looked at, the likeliest first.
MOST_WAYS = 60

#: Ways of sharing out one length that are put in order.
MOST_SORTED = 20_000

Planning = Callable[[Cutting], Outcome]
Shares = Mapping[int, int]


@dataclass(frozen=True)
class Pool:
    """A limited length that strips want in several forms: the stock that each of these is, and how many there are."""

    stocks: tuple[int, ...]
    available: int


def pools_of(job: Job, whole: Cutting) -> tuple[Pool, ...]:
    """Return the limited lengths that would serve strips of several sections, whole or ripped."""
    wanted = frozenset[int]().union(*(member.stocks for member in whole.members))
    found = []
    for index, length in enumerate(job.lengths):
        forms = tuple(sorted(stock for stock in wanted if stock % len(job.lengths) == index))
        if length.available is not None and len(forms) > 1:
            found.append(Pool(forms, length.available))
    return tuple(found)


def within(pools: Sequence[Pool], outcomes: Sequence[Outcome]) -> bool:
    """Whether layouts together take no more of any length than there is."""
    return all(sum(_taken(outcomes, stock) for stock in pool.stocks) <= pool.available for pool in pools)


def shared_out(cuttings: Sequence[Cutting], pools: Sequence[Pool], planned: Planning) -> tuple[Outcome, ...]:
    """Plan cuttings that may want the same lengths, each with its share of them.

    First as if each had them all: what is proven of that holds whatever they share. If they take too many, they are
    planned anew for every way of sharing out, and the cheapest is taken; if these were all ways, no plan costs less
    than the least that is proven of one of them.
    """
    loose = tuple(planned(cutting) for cutting in cuttings)
    over = [pool for pool in pools if not within([pool], loose)]
    if not over or any(outcome.layout is None for outcome in loose):
        return loose
    tried = _Tried(cuttings, planned)
    ways = list(islice(_ways(over, loose), MOST_WAYS + 1))
    plans = [tried.plan(way) for way in ways[:MOST_WAYS]]
    least = min(map(_least, plans)) if len(ways) <= MOST_WAYS else 0
    whole = [plan for plan in plans if within(pools, plan) and all(each.layout is not None for each in plan)]
    if not whole:
        return tuple(Outcome(None, replace(each.proven, impossible=least == inf)) for each in loose)
    best = min(whole, key=lambda plan: _cost(cuttings, plan))
    return _told(best, loose, least)


@dataclass
class _Tried:
    cuttings: Sequence[Cutting]
    planned: Planning

    def __post_init__(self) -> None:
        self._found: dict[tuple[int, tuple[tuple[int, int], ...]], Outcome] = {}

    def plan(self, shares: Shares) -> tuple[Outcome, ...]:
        """Plan every cutting with its shares, each once."""
        return tuple(self._one(number, cutting, shares) for number, cutting in enumerate(self.cuttings))

    def _one(self, number: int, cutting: Cutting, shares: Shares) -> Outcome:
        own = tuple((stock, shares[stock]) for stock in cutting.stocks if stock in shares)
        if (number, own) not in self._found:
            limited = {stock: replace(cutting.stocks[stock], available=count) for stock, count in own}
            stocks = {stock: limited.get(stock, known) for stock, known in cutting.stocks.items()}
            self._found[number, own] = self.planned(replace(cutting, stocks=stocks))
        return self._found[number, own]


def _ways(pools: Sequence[Pool], loose: Sequence[Outcome]) -> Iterator[Shares]:
    """Yield ways of sharing out, those first that take least from what each cutting would like."""
    for chosen in product(*(_likeliest_first(pool, loose) for pool in pools)):
        yield dict(
            pair for pool, shares in zip(pools, chosen, strict=True) for pair in zip(pool.stocks, shares, strict=True)
        )


def _likeliest_first(pool: Pool, loose: Sequence[Outcome]) -> list[tuple[int, ...]]:
    liked = [_taken(loose, stock) for stock in pool.stocks]

    def missing(shares: tuple[int, ...]) -> int:
        return sum(max(0, like - share) ** 2 for like, share in zip(liked, shares, strict=True))

    return sorted(islice(_splits(pool.available, len(pool.stocks)), MOST_SORTED), key=missing)


def _splits(count: int, shares: int) -> Iterator[tuple[int, ...]]:
    if shares == 1:
        yield (count,)
        return
    for first in range(count + 1):
        yield from ((first, *rest) for rest in _splits(count - first, shares - 1))


def _taken(outcomes: Sequence[Outcome], stock: int) -> int:
    return sum(outcome.layout.bars.count(stock) for outcome in outcomes if outcome.layout is not None)


def _least(plan: Sequence[Outcome]) -> float:
    """Return what is proven of all cuttings together; endless where there is no plan."""
    return inf if any(outcome.proven.impossible for outcome in plan) else sum(o.proven.cents for o in plan)


def _cost(cuttings: Sequence[Cutting], plan: Sequence[Outcome]) -> tuple[int, int]:
    prices = [o.layout.price(c) for c, o in zip(cuttings, plan, strict=True) if o.layout is not None]
    return sum(cents for cents, _ in prices), sum(joints for _, joints in prices)


def _told(best: Sequence[Outcome], loose: Sequence[Outcome], least: float) -> tuple[Outcome, ...]:
    """Return the layouts of the best, with what is proven of all together: the first is told what sharing adds."""
    proven = [outcome.proven for outcome in loose]
    more = int(least) - sum(each.cents for each in proven) if least < inf else 0
    if more > 0:
        reason = f"{proven[0].reason}, every way of sharing out limited planks gone through"
        proven[0] = Proven(proven[0].cents + more, reason)
    return tuple(Outcome(outcome.layout, each) for outcome, each in zip(best, proven, strict=True))
