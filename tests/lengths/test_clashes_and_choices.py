"""What keeps joints of several groups too near is told once for all groups like them; many strips are planned too."""

from collections import Counter
from itertools import product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from timber_jobs import job, length, planned, strip

from nesting.compiling import interpreted
from nesting.effort import Budget, Effort
from nesting.lengths.clashing import Clash, clash_of
from nesting.lengths.cutting import hanging_together, measured
from nesting.lengths.every_cut import Refuting
from nesting.lengths.filling import fill_table, fill_with_each
from nesting.lengths.forbidding import rows_against
from nesting.lengths.groups import Group
from nesting.lengths.net_length import most_joints
from nesting.lengths.task import task_of


def two_gunwales(shift, more=()):
    """Worked example 10 as a task: strips of 12 from lengths of 8, whose joints start at 4 to 6."""
    gunwale = strip(12, 2, joint="scarf", most_joints=1)
    a_job = job([length(8, 80)], [gunwale, *more], lap=2, least=3, cost=5, shifts=[("strip 12", "strip 12", shift)])
    (cutting,) = hanging_together(measured(a_job)[0])
    return task_of(cutting)


def test_what_clashes_is_told_without_the_strips_that_do_not_matter():
    """Both gunwales alone clash; so does each pair of groups that make one beside other strips."""
    task = two_gunwales(3, [strip(1, 2)])
    groups = [Group((1, 1), (2,), 1), Group((1, 0), (2,), 1)]
    refuting = Refuting(task, 1)
    assert refuting.groups(groups, None)
    clash = clash_of(groups, refuting, Effort(Budget()))
    assert clash.cores == (Group((1, 0), (2,), 1), Group((1, 0), (2,), 1))
    roomier = Group((1, 0), (3,), 1)
    assert dict(clash.holders(task, [*groups, roomier])) == {frozenset({0, 1}): 2}


def test_what_can_be_laid_out_together_is_not_refuted():
    """With a shift of 2 both gunwales fit."""
    groups = [Group((1,), (2,), 1)] * 2
    assert not Refuting(two_gunwales(2), 1).cores(groups, None)


@given(
    st.lists(st.sampled_from([Group((1,), (k,), j) for k in (2, 3) for j in (1, 2)]), min_size=1, max_size=3),
    st.lists(st.integers(0, 2), min_size=4, max_size=4),
)
def test_rows_keep_out_just_the_choices_that_hold_a_clash(cores, taken):
    """A choice holds one iff different groups of it can be told for all cores: tried one by one."""
    task, clash = two_gunwales(2), Clash(tuple(cores))
    groups = [Group((1,), (k,), j) for k in (2, 3) for j in (1, 2)]
    uses = [group for group, count in zip(groups, taken, strict=True) for _ in range(count)]
    if len(uses) > int(task.demand.sum()):
        return  # each holds a gunwale
    rows = rows_against(task, groups, [2] * 4, [], [clash])
    kept = any(
        all(sum(c * [*taken, *ones][k] for k, c in entries) <= top for entries, top in rows.rows)
        for ones in product((0, 1), repeat=rows.indicators)
    )
    assert kept == (not _told(uses, cores))


def _told(uses, cores):
    if not cores:
        return True
    return any(
        use.openings <= cores[0].openings
        and use.joints <= cores[0].joints
        and _told([*uses[:place], *uses[place + 1 :]], cores[1:])
        for place, use in enumerate(uses)
    )


def test_joints_are_limited_by_what_they_cost():
    """Three strips of 6 from lengths of 10 at 100 with joints of 7: 214 pay for two lengths and two joints."""
    a_job = job([length(10, 100)], [strip(6, 3, joint="scarf")], lap=1, least=2, cost=7)
    (cutting,) = hanging_together(measured(a_job)[0])
    assert [most_joints(cutting, cents) for cents in (19999, 20700, 21400)] == [0, 1, 2]


@pytest.mark.parametrize("form", [fill_with_each, interpreted(fill_with_each)], ids=["compiled", "python"])
@settings(max_examples=25)
@given(
    st.lists(st.tuples(st.integers(1, 6), st.integers(1, 9), st.integers(1, 2)), min_size=1, max_size=4),
    st.lists(st.tuples(st.integers(1, 12), st.integers(0, 9)), min_size=1, max_size=3),
)
def test_each_kind_is_filled_round(form, kinds, rooms):
    """The kind is among the strips, they fit, and what is beside it is the best that fits there."""
    sizes, values, copies = (np.array(each, dtype=np.int64) for each in zip(*kinds, strict=True))
    spaces, prices = (np.array(each, dtype=np.int64) for each in zip(*rooms, strict=True))
    best, taken = fill_table(values, sizes, copies, int(spaces.max()))
    places, strips = form(values, sizes, copies, best, taken, spaces, prices)
    for kind, place in enumerate(places):
        gains = [best[room - sizes[kind]] - price for room, price in rooms if room >= sizes[kind]]
        if place < 0:
            assert not gains or taken[kind, spaces - sizes[kind]].max() >= copies[kind]
            continue
        assert strips[kind, kind] >= 1
        assert (strips[kind] <= copies).all()
        assert strips[kind] @ sizes <= spaces[place]
        assert strips[kind] @ values - values[kind] - prices[place] == max(gains)


def test_scores_of_different_strips_are_planned_near_their_bound():
    """156 strips of 52 kinds: the plan keeps all rules and costs at most 1.5 % more than is proven."""
    lengths = [length(36, 100), length(48, 140), length(30, 80, available=20)]
    strips = [strip(8 + k, 3, joint="scarf" if k > 20 else None, name=f"strip {k}") for k in range(52)]
    cost, share, bound = planned(job(lengths, strips, lap=2, least=5, cost=3), Effort(Budget(work=4000)))
    assert Counter(piece.part for piece in share.pieces if piece.index == 1) == {s["name"]: 3 for s in strips}
    assert bound.amount <= cost <= bound.amount * 1015 / 1000
