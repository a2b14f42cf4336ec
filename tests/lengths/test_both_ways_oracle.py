"""Tiny jobs with planks, against a search through all ways of dividing, bundling and laying out their strips.

What is searched: each strip scarfed by itself from sticks, or ripped from a long plank together with others, straight
or turned, begun at the end from which its stations count; with one joint at most. Sizes are whole units, without kerf.
"""

import random
from fractions import Fraction
from itertools import combinations, pairwise

import pytest
from test_long_planks import job, plank
from timber_jobs import strip

from nesting.auditing import audit
from nesting.effort import Budget, Effort
from nesting.model import NoPlanError
from nesting.planner import plan

LAP, LEAST, PLANK = 2, 3, 10

#: Jobs in all, and how many of them at least must end proven: as cheap as what the search finds.
JOBS, PROVEN = 40, 30


def divisions(total, zones):
    """Yield stations of a strip (or long plank) of so many units, with the pieces between them."""
    free = [s for s in range(LEAST, total - LEAST + 1) if all(s + 1 <= a or s - 1 >= b for a, b in zones)]
    for count in range(2):
        for stations in combinations(free, count):
            if any(after - before < LEAST for before, after in pairwise(stations)):
                continue
            places = [0, *stations, total]
            sizes = [b - a + (1 if a else 0) + (1 if b < total else 0) for a, b in pairwise(places)]
            if max(sizes) <= PLANK:
                yield stations, tuple(sorted(sizes, reverse=True))


def bins(sizes):
    """Return the fewest stretches of a plank's length that hold all sizes."""
    best = len(sizes)

    def place(left, rooms):
        nonlocal best
        if len(rooms) >= best:
            return
        if not left:
            best = len(rooms)
            return
        for k, room in enumerate(rooms):
            if room >= left[0] and room not in rooms[:k]:
                place(left[1:], (*rooms[:k], room - left[0], *rooms[k + 1 :]))
        place(left[1:], (*rooms, PLANK - left[0]))

    if sizes:
        place(tuple(sorted(sizes, reverse=True)), ())
    return best


def partitions(items, most):
    """Yield all ways of putting items into groups, each of at most so many."""
    if not items:
        yield ()
        return
    first, rest = items[0], items[1:]
    for groups in partitions(rest, most):
        yield ((first,), *groups)
        for k, group in enumerate(groups):
            if len(group) < most:
                yield (*groups[:k], (first, *group), *groups[k + 1 :])


def stations_in(strip_length, plank_length, turned, scarfs, zones):
    """Return the stations of a strip from a long plank; None if they break its rules."""
    own = sorted(plank_length - s if turned else s for s in scarfs)
    own = [s for s in own if s - 1 < strip_length]
    if any(s + 1 > strip_length or s > strip_length - LEAST or s < LEAST for s in own):
        return None
    if any(s + 1 > a and s - 1 < b for s in own for a, b in zones):
        return None
    return tuple(own)


def apart(shift, named):
    """Whether the joints of copies of "a" and "b" keep their shift."""
    return not shift or all(
        abs(x - y) >= shift for m, xs in named for n, ys in named if (m, n) == ("a", "b") for x in xs for y in ys
    )


def cheapest(copies, sticks, price, each, shift):
    """Return the least cost in cents over everything; ``copies`` are (name, length, zones)."""
    best = None
    for groups in partitions(tuple(range(len(copies))), sticks):
        for cost in _of_groups(copies, groups, sticks, price, each, shift, best):
            best = cost if best is None else min(best, cost)
    return best


def _of_groups(copies, groups, sticks, price, each, shift, best):
    """Yield costs of making each group from one long plank, and those of one also by itself."""

    def go(k, named, narrow, wide, joints):
        least = joints * each
        if best is not None and least >= best:
            return
        if k == len(groups):
            if apart(shift, named):
                yield price * (-(-bins(narrow) // sticks) + bins(wide)) + joints * each
            return
        group = groups[k]
        if len(group) == 1:
            name, total, zones = copies[group[0]]
            for stations, sizes in divisions(total, zones):
                yield from go(k + 1, (*named, (name, stations)), narrow + sizes, wide, joints + len(stations))
        for named_too, sizes, scarfs in _long_planks(copies, group):
            if scarfs:
                yield from go(k + 1, named + named_too, narrow, wide + sizes, joints + scarfs)

    yield from go(0, (), (), (), 0)


def _long_planks(copies, group):
    total = max(copies[k][1] for k in group)
    for scarfs, sizes in divisions(total, ()):
        for ways in range(2 ** len(group)):
            made = []
            for bit, k in enumerate(group):
                name, length, zones = copies[k]
                own = stations_in(length, total, bool(ways >> bit & 1), scarfs, zones)
                if own is None:
                    break
                made.append((name, own))
            else:
                yield tuple(made), sizes, len(scarfs)


def random_job(rng):
    """Return a tiny job with planks, and what the search takes of it."""
    sticks = rng.choice([2, 2, 3])
    price, each = rng.choice([20, 50, 100]), rng.choice([1, 5, 12])
    shift = rng.choice([0, 0, 2, 3])
    asked, copies = [], []
    for name in "ab":
        total, count = rng.choice([7, 11, 12, 13, 14, 15, 16]), rng.choice([1, 1, 2])
        zones = [(4, 6)] if rng.random() < 0.3 else []
        asked.append(strip(total, count, "scarf", zones, name=name, most_joints=1))
        copies += [(name, total, zones)] * count
    a_job = job([plank(sticks, price=price)], asked, cost=each, shifts=[("a", "b", shift * 100)] if shift else [])
    return a_job, copies, (sticks, price * 100, each * 100, shift)


@pytest.fixture(scope="module")
def compared():
    """Plan all jobs, and search each; yield plan and least cost."""
    rng, found = random.Random(1205), []
    for _ in range(JOBS):
        a_job, copies, rest = random_job(rng)
        least = cheapest(copies, *rest)
        if least is None:
            with pytest.raises(NoPlanError):
                plan(a_job, effort=Effort(Budget(work=6000)))
            continue
        made = plan(a_job, effort=Effort(Budget(work=6000)))
        assert audit(made, a_job) == ()
        found.append((made, Fraction(least, 100)))
    return found


def test_no_bound_is_above_what_a_search_through_everything_finds(compared):
    """Whatever is said to be proven covers both ways."""
    assert not [(made.totals.bound, least) for made, least in compared if made.totals.bound > least]


def test_most_plans_are_proven_and_so_as_cheap_as_any(compared):
    """A proven plan costs no more than the cheapest that was found."""
    proven = [(made.totals.objective, least) for made, least in compared if made.totals.proven]
    assert all(objective <= least for objective, least in proven)
    assert len(proven) >= PROVEN


def test_both_ways_are_taken(compared):
    """The jobs ask for the one and for the other."""
    ways = {bool(made.long_planks) for made, _ in compared}
    assert ways == {False, True}
