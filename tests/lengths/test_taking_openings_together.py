"""Ways of taking openings together are all counts there are, each once, and may be too many."""

from itertools import product

from hypothesis import given
from hypothesis import strategies as st
from timber_jobs import job, length, strip

from nesting.lengths import pricing
from nesting.lengths.cutting import hanging_together, measured
from nesting.lengths.task import openings_there, task_of

available = st.lists(st.one_of(st.none(), st.integers(1, 3)), min_size=1, max_size=4)


def task_with(counts):
    """Return the task of lengths of which there are so many, and one strip that each of them serves."""
    stock = [length(6 + k, name=f"s{k}", **({} if n is None else {"available": n})) for k, n in enumerate(counts)]
    (cutting,) = hanging_together(measured(job(stock, [strip(5, 9, "scarf")], lap=1))[0])
    return task_of(cutting)


@given(available, st.integers(1, 5))
def test_they_are_all_counts_within_the_limits_and_small_sums_come_first(counts, most):
    """Of equal sums, those with most of the first kinds."""
    task = task_with(counts)
    there = [openings_there(task, kind) for kind in range(len(task.openings))]
    every = product(*(range(min(most, most if n is None else n) + 1) for n in there))
    wanted = sorted((row for row in every if 1 <= sum(row) <= most), key=lambda row: (sum(row), [-n for n in row]))
    found = pricing.unions(task, most)
    assert [tuple(row) for row in found.counts.tolist()] == wanted
    for row, room in zip(wanted, found.room, strict=True):
        own = sum(opening.room * n for opening, n in zip(task.openings, row, strict=True))
        assert room == own - (sum(row) - 1) * task.lap


def test_too_many_are_none():
    """Rather than a list that takes long to price."""
    assert pricing.unions(task_with([None] * 4), 40) is None
