"""What more or cheaper stock, more kits and dearer joints do to what is chosen over a fixed pool of layouts."""

from dataclasses import replace
from decimal import Decimal
from random import Random

from hypothesis import given, settings
from hypothesis import strategies as st

from nesting.effort import Budget, Effort
from nesting.model import Job, JointCost
from nesting.packing import Placer
from nesting.sheets.choosing import choose
from nesting.sheets.filling import fill_sheets, plain_manner
from nesting.sheets.layouts import Layout, Pool
from nesting.sheets.master import best_selection
from nesting.sheets.selecting import selection, wanted
from nesting.sheets.stock import Stock
from nesting.sheets.tasks import Task, tasks_of
from tests.jobs import PLY, job, panel

SMALL = {**PLY, "name": "half", "size": [1220, 1220], "price": "45.00", "available": 2}
#: Cents that nothing here costs.
DEAR = 10**7

Sizes = list[tuple[int, int, int]]

sizes = st.lists(st.tuples(st.integers(200, 1190), st.integers(150, 1100), st.integers(1, 3)), min_size=1, max_size=3)


def pooled(asked: Job) -> tuple[Task, list[Layout]]:
    """Return a job worked out, and layouts of a few passes over all its sheets as if there were enough of each."""
    task = tasks_of(asked)[0]
    variants = choose(task.parts, task.variants, task.clashing, task.stocks, None)
    assert variants is not None
    pool = Pool()
    manner = replace(plain_manner(), offered=lambda stocks, _: stocks)
    for stock in task.stocks:
        enough = replace(stock, sheet=stock.sheet.model_copy(update={"available": None}))
        placer = Placer(3, Effort(Budget()))
        done = fill_sheets(wanted(task.parts, variants), [enough], placer, manner, 3, Random(0))
        pool.add(Layout(stock, layout.laid) for layout in done.tried)
    return task, pool.layouts


def optimum(task: Task, layouts: list[Layout]) -> int:
    """Return the least cost in cents over a pool, which can make everything."""
    variants = tuple(several[0] for several in task.variants)
    nothing = replace(selection(task.parts, variants, layouts), cost=DEAR)
    cost = best_selection(task.parts, task.variants, task.clashing, layouts, nothing).cost
    assert cost < DEAR
    return cost


def with_sheet(layouts: list[Layout], index: int, **changes: object) -> list[Layout]:
    """Return the same layouts on a kind of sheet that differs in price or number."""
    known: dict[Stock, Stock] = {}
    for layout in layouts:
        stock = layout.stock
        if stock.index == index and stock not in known:
            known[stock] = replace(stock, sheet=stock.sheet.model_copy(update=changes))
    return [Layout(known.get(layout.stock, layout.stock), layout.laid) for layout in layouts]


def job_of(parts: Sizes, times: int = 1) -> Job:
    """Return a job of these parts, whole, so many times over."""
    panels = [panel(f"p{k}", length, width, quantity=times * count) for k, (length, width, count) in enumerate(parts)]
    return job(*panels, sheets=(PLY, SMALL))


@settings(max_examples=10)
@given(sizes, st.integers(1, 44))
def test_a_cheaper_sheet_never_raises_the_cost_over_a_pool(parts: Sizes, less: int) -> None:
    """Two of that kind are there, so it saves twice what each is cheaper at the most."""
    task, layouts = pooled(job_of(parts))
    before, after = optimum(task, layouts), optimum(task, with_sheet(layouts, 1, price=Decimal(45 - less)))
    assert before - 2 * 100 * less <= after <= before


@settings(max_examples=10)
@given(sizes)
def test_more_sheets_never_raise_the_cost_over_a_pool(parts: Sizes) -> None:
    """Two, three or any number of the small sheet."""
    task, layouts = pooled(job_of(parts))
    costs = [optimum(task, with_sheet(layouts, 1, available=count)) for count in (2, 3, None)]
    assert costs == sorted(costs, reverse=True)


@settings(max_examples=10)
@given(sizes, st.randoms(use_true_random=False))
def test_the_order_of_layouts_changes_no_cost_over_a_pool(parts: Sizes, chance: Random) -> None:
    """Nor does it change anything to know a layout twice."""
    task, layouts = pooled(job_of(parts))
    shuffled = [*layouts, layouts[0]]
    chance.shuffle(shuffled)
    assert optimum(task, shuffled) == optimum(task, layouts)


@settings(max_examples=10)
@given(sizes, st.integers(2, 20))
def test_identical_kits_take_as_many_times_the_pieces_of_one(parts: Sizes, kits: int) -> None:
    """Counts are those of one kit, times the kits."""
    one, all_of_them = (tasks_of(job_of(parts, times))[0] for times in (1, kits))
    counts = [
        sorted((kind.panel, n) for kind, n in wanted(t.parts, [v[0] for v in t.variants]).items())
        for t in (one, all_of_them)
    ]
    assert counts[1] == [(place, kits * count) for place, count in counts[0]]


def test_one_scarf_of_a_blank_is_dearer_than_two_joints_and_cheaper_than_three() -> None:
    """By hand: each 4 and 12 a metre; a blank 1200 wide costs 18.40, a joint 250 wide 7.00."""
    cost = JointCost(each=Decimal(4), per_m=Decimal(12))
    assert (cost.of(1200), cost.of(250)) == (Decimal("18.40"), Decimal("7.00"))
    assert 2 * cost.of(250) < cost.of(1200) < 3 * cost.of(250)


def test_how_dear_joints_must_be_for_a_second_large_sheet_to_pay() -> None:
    """By hand: two of 104 and a scarf 1510 wide, or 104 + 58 and joints of 38.94; even at 2.73 times the joints."""
    scarf = JointCost(each=Decimal(4), per_m=Decimal(12)).of(1510)
    assert 208 + scarf == Decimal("230.12")
    assert round((208 - 162) / (Decimal("38.94") - scarf), 2) == Decimal("2.73")
