"""Branching on what is bought, and patterns near the bound, against trying everything."""

from collections import Counter
from fractions import Fraction
from functools import cache
from itertools import product

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from timber_jobs import job, length, strip

from nesting.compiling import interpreted
from nesting.effort import Budget, Effort
from nesting.lengths import cheapest_cutting
from nesting.lengths.cheapest_room import cheapest_room, most_room
from nesting.lengths.covering import covered
from nesting.lengths.cutting import hanging_together, measured
from nesting.lengths.diving import Dived
from nesting.lengths.generating import EXACT_SEARCH, completed, generated, money_step
from nesting.lengths.master import Master
from nesting.lengths.patterns import Listing
from nesting.lengths.plain import BRANCHED
from nesting.lengths.pricing import Pricing, unions
from nesting.lengths.proven import Proven
from nesting.lengths.purchases import Box, Boxes
from nesting.lengths.task import task_of
from nesting.solving import Status

#: A stock's length, price, and how many there are; a strip's length and how many are asked for.
stocks = st.lists(
    st.tuples(st.integers(5, 12), st.integers(0, 12), st.one_of(st.none(), st.integers(1, 2))), min_size=1, max_size=3
)
strips = st.lists(st.tuples(st.integers(2, 8), st.integers(1, 3)), min_size=1, max_size=3, unique_by=lambda s: s[0])


def task_with(kinds, asked, kerf=0):
    """Return the task of such stock and strips, and of one long, dear length that there are enough of."""
    lengths = [
        length(units, price, name=f"s{k}", **({} if count is None else {"available": count}))
        for k, (units, price, count) in enumerate(kinds)
    ]
    lengths.append(length(13, 14, name="long"))
    a_job = job(lengths, [strip(units, count) for units, count in asked], kerf=kerf)
    (cutting,) = hanging_together(measured(a_job)[0])
    return task_of(cutting)


def fillings(task, kind, copies):
    """Return everything that can be cut from an opening, of so many copies."""
    opening = task.openings[kind]
    most = [n if place in opening.members else 0 for place, n in enumerate(copies)]
    every = product(*(range(n + 1) for n in most))
    return [counts for counts in every if np.dot(counts, task.sizes) <= opening.room]


def cheapest_of(task, most):
    """Return what a cheapest plan of at most so many lengths costs, by trying every filling of every length."""

    @cache
    def cheapest(copies, lengths):
        if not any(copies):
            return 0
        costs = [np.inf]
        for s, count in enumerate(lengths):
            for cut in fillings(task, task.stretch_kinds[s][0], copies) if count != 0 else ():
                if any(cut):
                    left = tuple(a - b for a, b in zip(copies, cut, strict=True))
                    rest = tuple(n - 1 if k == s and n is not None else n for k, n in enumerate(lengths))
                    costs.append(int(task.cents[s]) + cheapest(left, rest))
        return min(costs)

    return cheapest(tuple(task.demand.tolist()), tuple(most))


@given(stocks, strips, st.integers(0, 1))
def test_boxes_come_to_the_cheapest_purchases_and_never_leave_them_out(kinds, asked, kerf):
    """What is still open never costs more than a cheapest plan, until that is found."""
    task = task_with(kinds, asked, kerf)
    cheapest = cheapest_of(task, task.available)
    pricing, master, step = Pricing(task, unions(task, 1)), Master(task), money_step(task)
    boxes = Boxes(master, pricing, step, Effort(Budget()))
    best = int(task.cents.max()) * int(task.demand.sum()) + step
    boxes.begin(best)
    while (box := boxes.next_whole(best)) is not None:
        assert min(boxes.least(best), box.cents) <= cheapest
        best = min(best, cheapest_of(task, box.counts))
        boxes.go_beyond(box, best, settled=True)
        assert min(boxes.least(best), best) <= cheapest
    assert best == cheapest == boxes.least(best)


@given(stocks, strips)
def test_purchases_that_are_not_settled_hold_the_bound_down(kinds, asked):
    """If it is not clear whether some purchases do, nothing above their cost is proven."""
    task = task_with(kinds, asked)
    boxes = Boxes(Master(task), Pricing(task, unions(task, 1)), money_step(task), Effort(Budget()))
    best = int(task.cents.max()) * int(task.demand.sum()) + money_step(task)
    boxes.begin(best)
    box = boxes.next_whole(best)
    boxes.go_beyond(box, best, settled=False)
    assert boxes.least(best) <= max(box.cents, cheapest_of(task, task.available))
    assert boxes.least(best) <= cheapest_of(task, task.available)


counts = st.lists(st.tuples(st.integers(0, 2), st.integers(0, 3), st.floats(0, 3)), min_size=1, max_size=3)


@given(counts)
def test_parts_of_a_box_hold_each_of_its_purchases_once(limits):
    """Halves hold all; what lies beyond some counts, all but those of at most so many."""
    least = tuple(low for low, _, _ in limits)
    most = tuple(low + more for low, more, _ in limits)
    wanted = tuple(min(low + part, high) for low, high, (_, _, part) in zip(least, most, limits, strict=True))
    box, every = Box(Fraction(0), 0, least, most, wanted), set(product(*map(_between, least, most)))
    if not box.whole:
        assert _in(box.halves()) == sorted(every)
    within = {one for one in every if all(a <= b for a, b in zip(one, box.counts, strict=True))}
    assert _in(box.beyond(box.counts)) == sorted(every - within)


def _between(low, high):
    return range(low, high + 1)


def _in(parts):
    """Return all purchases in boxes, those in several of them several times."""
    return sorted(one for least, most in parts for one in product(*map(_between, least, most)))


kinds_of_room = st.lists(
    st.tuples(st.integers(0, 6), st.integers(0, 7), st.integers(0, 2), st.integers(0, 3)), min_size=1, max_size=4
)


@pytest.mark.parametrize("how", [lambda kernel: kernel, interpreted])
@given(kinds=kinds_of_room, need=st.integers(0, 40), below=st.integers(1, 40))
def test_the_cheapest_room_is_what_trying_everything_finds(how, kinds, need, below):
    """With limits either way, prices and rooms of nought, and a limit to the price."""
    prices, rooms, least, more = (np.array(column, dtype=np.int64) for column in zip(*kinds, strict=True))
    tables = how(most_room)(prices, rooms, least + more, below)
    price, found, proven = how(cheapest_room)(prices, rooms, least, least + more, tables, need, below, 100_000)
    every = product(*map(_between, least, least + more))
    cheapest = min((int(prices @ np.array(one)) for one in every if rooms @ np.array(one) >= need), default=below)
    assert proven
    assert price == min(cheapest, below)
    if price < below:
        assert prices @ found == price
        assert rooms @ found >= need


@given(stocks, strips, st.integers(0, 3))
def test_patterns_near_the_bound_are_those_that_prices_leave(kinds, asked, above):
    """Every filling whose reduced cost is no more than a plan's whole cost is above the bound, and no other."""
    task = task_with(kinds, asked)
    pricing, master, effort = Pricing(task, unions(task, 1)), Master(task), Effort(Budget())
    found = completed(master, pricing, effort, generated(master, pricing, effort))
    cents = int(-(-found.cents // 1)) + above
    near = Listing(task, found).within(cents, 1000)
    listed = {(int(k), tuple(row)) for k, row in zip(near.patterns.kinds, near.patterns.strips.tolist(), strict=True)}
    assert len(listed) == len(near.patterns)
    limit = found.most_reduced(cents)
    for kind in range(len(task.openings)):
        for cut in fillings(task, kind, task.demand.tolist()):
            reduced = int(found.openings[kind]) - int(np.dot(found.strips, cut))
            assert ((kind, cut) in listed) == (any(cut) and reduced <= limit)


@given(stocks, strips, st.integers(0, 1))
def test_the_choice_of_patterns_is_a_cheapest_plan_or_says_that_there_is_none(kinds, asked, short):
    """Up to what a cheapest plan costs, or one step less than that."""
    task = task_with(kinds, asked)
    pricing, master, step, effort = Pricing(task, unions(task, 1)), Master(task), money_step(task), Effort(Budget())
    found = completed(master, pricing, effort, generated(master, pricing, effort))
    cheapest = int(cheapest_of(task, task.available))
    near = Listing(task, found).within(cheapest - short * step, 10_000)
    choice = covered(task, near, 0, step, effort)
    if short:
        assert choice.status is Status.IMPOSSIBLE
        assert choice.cents == cheapest
        return
    assert choice.status is Status.OPTIMAL
    made = sum(np.array(group.strips) * count for group, count in choice.groups.items())
    assert made.tolist() == task.demand.tolist()
    assert choice.cents == cheapest


@given(stocks, strips)
def test_a_completed_bound_is_no_lower_and_no_higher_than_a_plan(kinds, asked):
    """It is brought near to the master's cost, which a cheapest plan is not below."""
    task = task_with(kinds, asked)
    pricing, master, effort = Pricing(task, unions(task, 1)), Master(task), Effort(Budget())
    found = generated(master, pricing, effort)
    whole = completed(master, pricing, effort, found)
    assert found.cents <= whole.cents <= cheapest_of(task, task.available)
    assert float(whole.cents) >= master.objective - 1e-3


@given(stocks, strips, st.integers(0, 1))
def test_plans_of_several_stocks_are_proven_cheapest(kinds, asked, kerf):
    """Whatever proves them: prices, what is bought, or a search among patterns."""
    task = task_with(kinds, asked, kerf)
    outcome = cheapest_cutting(task.cutting, Effort(Budget()))
    cheapest = cheapest_of(task, task.available)
    assert outcome.layout.price(task.cutting)[0] == cheapest == outcome.proven.cents


def cutting_with(kinds, asked):
    """Return a cutting of such stock, all that is needed of it, and strips."""
    lengths = [length(units, price, name=f"s{k}") for k, (units, price) in enumerate(kinds)]
    (cutting,) = hanging_together(measured(job(lengths, [strip(units, count) for units, count in asked]))[0])
    return cutting


def test_what_boxes_prove_is_told():
    """The reason names it: no solver in floats had a say."""
    cutting = cutting_with([(20, 6), (22, 16)], [(11, 4), (6, 3), (7, 4), (10, 3)])
    outcome = cheapest_cutting(cutting, Effort(Budget()))
    assert outcome.proven == Proven(cheapest_of(task_of(cutting), (None, None)), BRANCHED)


def test_what_a_solver_settles_is_not_said_to_be_proven_by_prices(monkeypatch):
    """If no dive finds a plan, the solver that chooses among patterns settles what a purchase makes."""
    cutting = cutting_with([(21, 10), (23, 19)], [(4, 2), (6, 1), (9, 3), (10, 4)])
    monkeypatch.setattr("nesting.lengths.plain.dived", lambda master, *_: Dived(Counter(), master.task.demand))
    outcome = cheapest_cutting(cutting, Effort(Budget()))
    assert outcome.proven == Proven(cheapest_of(task_of(cutting), (None, None)), EXACT_SEARCH)
