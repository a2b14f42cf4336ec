"""Tiny random jobs against a search that tries everything: proofs and refusals must be true."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from timber_jobs import cheapest, job, length, planned, strip

from nesting.effort import Budget, Effort
from nesting.model import NoPlanError

#: Work for one tiny job; where it is too little for a proof, bound and plan still have to enclose the least cost.
WORK = 2_000

#: Share of the tiny jobs with joints that so much work proves at least; what is left has joints that keep a shift.
PROVEN = 0.95

UNLIMITED = st.none()
KEPT_FROM = st.sampled_from([100, 200, 400])
GRADES = st.sampled_from([None, "common", "clear"])


@st.composite
def stock(draw, index, least):
    """A kind of length, named by its index so that two may be equally long."""
    available = draw(st.one_of(UNLIMITED, st.integers(1, 2)))
    price, grade, size = draw(st.integers(0, 9)) * 10, draw(GRADES), draw(st.integers(least, 10))
    place = draw(st.integers(1, size - 2))
    faults = draw(st.sampled_from([[], [], [[place * 100, (place + 1) * 100]]]))
    rules = {
        "available": available,
        "grade": grade,
        "faults": faults,
        "offcut_value": draw(worth_of_a_metre(size, price)),
    }
    return length(size, price, name=f"stock {index}", **rules)


def worth_of_a_metre(units, price):
    """What a metre of an offcut is worth: nothing, or up to what a metre of the length costs, in whole cents."""
    return st.sampled_from([0, 0, 0, 0.5, 0.8, 1]).map(lambda share: int(share * price * 1000 / units) / 100)


@st.composite
def plain_jobs(draw):
    """Up to six strips without joints."""
    lengths = [draw(stock(index, 4)) for index in range(draw(st.integers(1, 3)))]
    sizes = draw(st.lists(st.tuples(st.integers(1, 7), st.integers(1, 2), GRADES), min_size=1, max_size=3))
    strips = [strip(size, count, name=f"strip {i}", grade=grade) for i, (size, count, grade) in enumerate(sizes)]
    return job(lengths, strips, kerf=draw(st.integers(0, 1)), keep_length_from=draw(KEPT_FROM))


@st.composite
def joined_jobs(draw):
    """One or two kinds of strips that may be joined, at most three copies in all."""
    lengths = [draw(stock(index, 6)) for index in range(draw(st.integers(0, 2)))]
    size, price = draw(st.integers(7, 10)), draw(st.integers(1, 9)) * 10
    lengths.append(length(size, price, grade="clear", offcut_value=draw(worth_of_a_metre(size, price))))
    strips = []
    copies = draw(st.sampled_from([(1,), (2,), (1, 1), (3,), (2, 1)]))
    longest = {1: 15, 2: 13, 3: 10}[sum(copies)]  # many joints in one copy, few in each of three
    for index, quantity in enumerate(copies):
        start = draw(st.integers(0, 12))
        zones = draw(st.sampled_from([[], [(start, start + draw(st.integers(1, 5)))]]))
        joint = draw(st.sampled_from(["scarf", "scarf", "scarf", None]))
        size, grade = draw(st.integers(3, 7 if joint is None else longest)), draw(GRADES)
        rules = draw(st.sampled_from([{}, {}, {"most_joints": 1}, {"least_piece": 400}, {"scarf_across": "width"}]))
        strips.append(strip(size, quantity, joint, zones, name=f"strip {index}", grade=grade, **rules))
    limits = {**draw(st.sampled_from([{}, {}, {"longest_piece": 700}])), "keep_length_from": draw(KEPT_FROM)}
    least = draw(st.integers(3, 5))
    cost, kerf = draw(st.sampled_from([0, 3, 20])), draw(st.integers(0, 1))
    return job(lengths, strips, kerf, 2, least, cost, draw(shifts(strips)), **limits)


@st.composite
def shifts(draw, strips):
    """None, or one between the first strip and the last, which may be the same if there are two of it."""
    one, other = strips[0], strips[-1]
    if not draw(st.booleans()) or (one is other and one["quantity"] == 1):
        return []
    return [(one["name"], other["name"], draw(st.integers(1, 4)))]


def agrees_with_trying_everything(a_job):
    """Whether plan, bound and refusal agree with the least cost there is; return whether it was proven."""
    least = cheapest(a_job)
    if least is None:
        with pytest.raises(NoPlanError):
            planned(a_job)
        return True
    cost, _, bound = planned(a_job, Effort(Budget(work=WORK)))
    assert bound.amount <= least <= cost
    return bound.amount == cost


@settings(max_examples=300, deadline=None)
@given(plain_jobs())
def test_plain_cutting_is_proven_and_equals_trying_everything(a_job):
    """Without joints so small a job is always proven, and the proof is true."""
    assert agrees_with_trying_everything(a_job)


def test_no_bound_is_above_the_cheapest_joined_plan_and_no_plan_below_it():
    """With joints, zones, grades, limits and shifts the bound and the plan enclose the least cost; most are proven."""
    proven = []

    @settings(max_examples=200, deadline=None)
    @given(joined_jobs())
    def enclosed(a_job):
        proven.append(agrees_with_trying_everything(a_job))

    enclosed()
    assert len(proven) >= 200
    assert sum(proven) >= len(proven) * PROVEN
