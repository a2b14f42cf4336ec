"""Planks both ways, the cheaper taken: ripped first and strips scarfed one by one, or scarfed once and ripped then."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from nesting.effort import Effort
from nesting.model import Job, PlankWay

from .cutting import Cutting
from .long_planks import Planning, Scarfed, scarfed_once
from .outcome import Outcome
from .plank_uses import PlankUse, plank_uses
from .proven import Proven
from .shared_scarfs import Bounding, bound_both_ways, pays
from .sharing_out import Pool

#: Share of the effort that goes into planks ripped first, where scarfing them once may cost less.
RIPPED_FIRST = 0.6


@dataclass(frozen=True)
class Chosen:
    """What is chosen for strips that are planned together: as outcomes of cuttings, and from long planks if any.

    Attributes
    ----------
    cutting : Cutting
    ripped : Outcome
        The best found with planks ripped first.
    scarfed : Scarfed or None
        The best found with planks scarfed once, if any was.
    proven : Proven
        What no plan of either way is below.
    compared : bool
        Whether there was anything to compare: strips longer than planks that could be scarfed for them.
    """

    cutting: Cutting
    ripped: Outcome
    scarfed: Scarfed | None
    proven: Proven
    compared: bool

    @property
    def long_planks(self) -> Scarfed | None:
        """The strips from long planks, if that costs less."""
        if self.scarfed is None or self.ripped.layout is None:
            return self.scarfed
        return self.scarfed if self.scarfed.cents < self.ripped.layout.price(self.cutting)[0] else None

    @property
    def found(self) -> bool:
        """Whether there is any plan."""
        return self.ripped.layout is not None or self.scarfed is not None

    @property
    def plain(self) -> tuple[tuple[Cutting, Outcome], ...]:
        """What is cut and scarfed strip by strip."""
        return ((self.cutting, self.ripped),) if self.long_planks is None else self.long_planks.rest


def ripped_first(cutting: Cutting, outcome: Outcome) -> Chosen:
    """Return a plan with planks ripped first, compared with nothing."""
    return Chosen(cutting, outcome, None, outcome.proven, False)


def effort_for_ripping_first(job: Job, whole: Cutting, cuttings: Sequence[Cutting], effort: Effort) -> Effort:
    """Return what may be spent on planks that are ripped first: a share of all, if more may be gained after that."""
    gains = any(pays(cutting, plank_uses(job, whole, cutting)) for cutting in cuttings)
    return effort.share_of_rest(RIPPED_FIRST) if gains else effort


def best_ways(
    job: Job,
    whole: Cutting,
    found: Sequence[tuple[Cutting, Outcome]],
    pools: Sequence[Pool],
    planned: Planning,
    bounded: Bounding,
    effort: Effort,
) -> tuple[Chosen, ...]:
    """Return what is best for all strips, from what was found with planks ripped first.

    Limited planks that strips of several sections want stay shared out as they are. What sharing out proved holds for
    planks ripped first; where a scarf could serve several strips for less, each cutting has a bound of its own instead.
    """
    ways = len(job.lengths)
    uses = [plank_uses(job, _own_share(whole, pools, outcome, ways), cutting) for cutting, outcome in found]
    alone = bool(pools) and any(pays(cutting, own) for (cutting, _), own in zip(found, uses, strict=True))
    chosen = []
    for number, ((cutting, outcome), own) in enumerate(zip(found, uses, strict=True)):
        part = effort.share_of_rest(1 / (len(found) - number))
        proven = bounded(cutting, part) if alone and not outcome.proven.impossible else outcome.proven
        best = None if proven.impossible else _scarfed_once(cutting, own, planned, part)
        proven = bound_both_ways(cutting, own, proven, bounded, part)
        chosen.append(Chosen(cutting, outcome, best, proven, any(use.too_long(cutting) for use in own)))
    taken = _taken(chosen, ways)
    fits = all(taken[pool.stocks[0] % ways] <= pool.available for pool in pools)
    return tuple(chosen) if fits else tuple(replace(each, scarfed=None) for each in chosen)


def _own_share(whole: Cutting, pools: Sequence[Pool], outcome: Outcome, ways: int) -> Cutting:
    """Return the cutting of all stock with no more of shared planks than were taken."""
    bars = Counter(outcome.layout.bars if outcome.layout else ())
    stocks = dict(whole.stocks)
    for pool in pools:
        bought = pool.stocks[0] % ways
        stocks[bought] = replace(stocks[bought], available=sum(bars[stock] for stock in pool.stocks))
    return replace(whole, stocks=stocks)


def _scarfed_once(cutting: Cutting, uses: Sequence[PlankUse], planned: Planning, effort: Effort) -> Scarfed | None:
    found = [scarfed_once(cutting, use, planned, effort.share_of_rest(0.5)) for use in uses]
    return min((each for each in found if each is not None), key=lambda each: each.cents, default=None)


def ways_told(job: Job, chosen: Sequence[Chosen]) -> Iterator[PlankWay]:
    """Yield what each way comes to, for strips of which there was anything to compare."""
    for each in chosen:
        if each.compared:
            strips = tuple(job.strips[member.index].name for member in each.cutting.members)
            yield _ripped(strips, each)
            yield _scarfed(strips, each)


def _taken(chosen: Sequence[Chosen], ways: int) -> Counter[int]:
    """Return how many of each length are taken in all, in whatever form."""
    taken: Counter[int] = Counter()
    for each in chosen:
        layouts = [outcome.layout for _, outcome in each.plain]
        layouts += [each.long_planks.layout] if each.long_planks else []
        taken.update(bar % ways for layout in layouts if layout for bar in layout.bars)
    return taken


def _ripped(strips: tuple[str, ...], chosen: Chosen) -> PlankWay:
    layout = chosen.ripped.layout
    if layout is None:
        return PlankWay(strips=strips, way="ripped", objective=None, told="no way was found")
    price, joints = layout.price(chosen.cutting)
    told = f"{_counted(joints, 'joint')}, each of one strip"
    return PlankWay(strips=strips, way="ripped", objective=Decimal(price).scaleb(-2), told=told)


def _scarfed(strips: tuple[str, ...], chosen: Chosen) -> PlankWay:
    scarfed = chosen.scarfed
    if scarfed is None:
        return PlankWay(strips=strips, way="scarfed", objective=None, told="no way was found")
    planks = sum(member.quantity for member in scarfed.wide.members)
    told = f"{_counted(scarfed.scarfs, 'scarf')} across {_counted(planks, 'long plank')}"
    return PlankWay(strips=strips, way="scarfed", objective=Decimal(scarfed.cents).scaleb(-2), told=told)


def _counted(count: int, what: str) -> str:
    return f"{count} {what}" if count == 1 else f"{count} {what}s"
