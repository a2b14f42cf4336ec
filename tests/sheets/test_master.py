"""Which sheets to buy over the layouts found."""

from dataclasses import replace
from random import Random

from hypothesis import given, settings
from hypothesis import strategies as st

from nesting.effort import Budget, Effort
from nesting.model import Job
from nesting.packing import Placer
from nesting.sheets.choosing import altered, choose
from nesting.sheets.filling import fill_sheets, plain_manner
from nesting.sheets.layouts import Pool
from nesting.sheets.master import best_selection
from nesting.sheets.selecting import Selection, selection, wanted
from nesting.sheets.tasks import Task, tasks_of
from tests.jobs import PLY, SCARF, job, panel

CHEAP_SMALL = {**PLY, "name": "half", "size": [1220, 1220], "price": "45.00"}


def filled(asked: Job) -> tuple[Task, Pool, Selection]:
    """Return a job worked out, a pool with one pass in it, and the selection of that pass."""
    task = tasks_of(asked)[0]
    variants = choose(task.parts, task.variants, task.clashing, task.stocks, None)
    assert variants is not None
    every_kind = replace(plain_manner(), offered=lambda stocks, _: stocks)
    done = fill_sheets(wanted(task.parts, variants), task.stocks, Placer(3, Effort(Budget())), every_kind, 3, Random(0))
    pool = Pool()
    pool.add(done.tried)
    return task, pool, selection(task.parts, variants, done.used)


def test_the_master_recombines_layouts_at_less_cost() -> None:
    """One part on a whole sheet is dearer than on the half sheet that another pass has found."""
    task, pool, first = filled(job(panel("shelf", 1100, 1100), sheets=(PLY, CHEAP_SMALL)))
    whole = next(layout for layout in pool.layouts if layout.stock.index == 0)
    dear = selection(task.parts, first.variants, [whole])
    best = best_selection(task.parts, task.variants, task.clashing, pool.layouts, dear)
    assert (dear.cost, best.cost) == (8400, 4500)


def test_limited_stock_is_respected() -> None:
    """One half sheet is there, so the second part goes on a whole one."""
    asked = job(panel("shelf", 1100, 1100, quantity=2), sheets=(PLY, {**CHEAP_SMALL, "available": 1}))
    task, pool, first = filled(asked)
    best = best_selection(task.parts, task.variants, task.clashing, pool.layouts, first)
    assert sum(layout.stock.index == 1 for layout in best.layouts) <= 1
    assert best.cost <= first.cost


@settings(max_examples=15)
@given(st.lists(st.tuples(st.integers(200, 2300), st.integers(100, 1100), st.integers(1, 3)), min_size=1, max_size=4))
def test_a_selection_makes_exactly_what_is_asked(sizes: list[tuple[int, int, int]]) -> None:
    """No more and no fewer pieces, whatever the layouts hold beyond."""
    panels = [panel(f"p{k}", length, width, quantity=count) for k, (length, width, count) in enumerate(sizes)]
    task, pool, first = filled(job(*panels, sheets=(PLY, CHEAP_SMALL)))
    best = best_selection(task.parts, task.variants, task.clashing, pool.layouts, first)
    needed = wanted(task.parts, best.variants)
    for layout in best.layouts:
        needed.subtract(layout.counts)
    assert set(needed.values()) == {0}
    assert best.rank <= first.rank


def test_more_layouts_never_raise_the_cost_over_a_pool() -> None:
    """The master may leave aside what is of no use (JOINTS: adding a layout never worsens the optimum)."""
    task, pool, first = filled(job(panel("shelf", 1100, 500, quantity=5), sheets=(PLY, CHEAP_SMALL)))
    costs = [
        best_selection(task.parts, task.variants, task.clashing, pool.layouts[:count], first).cost
        for count in range(1, len(pool.layouts) + 1)
    ]
    assert costs == sorted(costs, reverse=True)


def test_neighbours_are_divided_apart() -> None:
    """Two equal panels that are neighbours get stations at least their shift apart, also after an alteration."""
    asked = job(
        panel("bilge", 3600, 300, joint="scarf"),
        panel("sheer", 3600, 300, joint="scarf"),
        neighbours=[{"between": ["bilge", "sheer"], "shift": 250}],
        joints={"scarf": SCARF},
    )
    task = tasks_of(asked)[0]
    choice = choose(task.parts, task.variants, task.clashing, task.stocks, None)
    assert choice is not None
    for seed in range(20):
        choice = altered(choice, task.variants, task.clashing, Random(seed))
        one, other = (variant.stations for variant in choice)
        assert all(abs(a - b) >= 250 for a in one for b in other)
