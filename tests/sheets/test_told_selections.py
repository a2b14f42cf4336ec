"""What searches tell one another, and how it arrives."""

import pickle
from dataclasses import fields
from random import Random
from typing import Any

from hypothesis import assume, given

from nesting.effort import Budget, Effort
from nesting.model import Job, NoPlanError
from nesting.packing import Placement, Placer
from nesting.planner import resolved
from nesting.sheets.chain import Chain
from nesting.sheets.first_plans import first_of_each
from nesting.sheets.known import Known
from nesting.sheets.layouts import Layout, Pool
from nesting.sheets.outcomes import Outcomes
from nesting.sheets.pieces import PieceKind
from nesting.sheets.selecting import Selection, selection
from nesting.sheets.tasks import tasks_of
from nesting.sheets.told import heard, told
from tests.jobs import job, panel
from tests.planner.random_jobs import Table, job_of, jobs


def begun(asked: Job) -> Chain:
    """Return a chain with the first plan of each way."""
    outcomes, pool, chance = Outcomes(tasks_of(resolved(asked))), Pool(), Random(1)
    for _ in first_of_each(outcomes, pool, chance, Effort(Budget(work=2000))):
        pass
    return Chain(outcomes, pool, chance)


def gone_on(chain: Chain, work: int) -> None:
    """Go on with a chain."""
    effort = Effort(Budget(work=work))
    placer = Placer(chain.gap, effort)
    while not effort.over:
        chain.step(effort, placer)


def elsewhere(chain: Chain) -> Chain:
    """Return a chain as it arrives in another process."""
    copy: Chain = pickle.loads(pickle.dumps(chain))
    return copy


def figures(layouts: tuple[Layout, ...]) -> list[Any]:
    """Return all there is to layouts but whose object is whose."""
    return [(one.stock.index, [(_figures_of(kind), place) for kind, place in one.laid]) for one in layouts]


def _figures_of(kind: PieceKind) -> list[Any]:
    return [getattr(kind, field.name) for field in fields(kind)]


def told_as(one: Selection) -> list[Any]:
    """Return the same of a selection."""
    return [[(v.panel, v.stations, v.way) for v in one.variants], figures(one.layouts), one.cost, one.joints]


@given(jobs(timber=False))
def test_selections_arrive_as_they_were_told(table: Table) -> None:
    """Of every way, in a process that knows only the job; what is worked out anew there comes to the same."""
    try:
        chain = begun(job_of(table))
    except NoPlanError:
        assume(False)
    gone_on(chain, 300)
    there = tasks_of(resolved(job_of(table)))
    for way, task in enumerate(chain.outcomes.tasks):
        if chain.outcomes.has(task):
            best = chain.outcomes.of(task)
            message = pickle.loads(pickle.dumps(told(way, best, best.layouts)))
            arrived, others = heard(message, there[way], Known(there[way]))
            assert told_as(arrived) == told_as(best)
            assert figures(others) == figures(best.layouts)
            assert selection(there[way].parts, arrived.variants, arrived.layouts).cost == best.cost


def divisible() -> Job:
    """Panels with joints that may lie in many places, on sheets of two sizes."""
    small = {"name": "small", "material": "gaboon", "thickness": 6, "size": [2100, 900], "price": 53}
    large = {**small, "name": "large", "size": [2440, 1220], "price": 84}
    return job(
        panel("side", 3100, 460, quantity=2, handed=True, joint="scarf"),
        panel("bottom", 2800, 640, joint="scarf"),
        panel("frame", 960, 330, quantity=5, grain="any"),
        sheets=(small, large),
        workshop={"way": "divided"},
    )


def test_what_one_chain_finds_the_other_goes_on_from() -> None:
    """It has the better selection, tells nothing of what it heard, and doesn't hear its own again."""
    one = begun(divisible())
    other = elsewhere(one)
    one.exchange.tell()
    other.exchange.tell()
    before = other.outcomes.best.rank
    gone_on(one, 3000)
    assert one.outcomes.best.rank < before
    message = one.exchange.tell()
    assert [len(news.layouts) for news in message] == [len(one.outcomes.best.layouts)]
    assert message[0].others
    known = len(other.pool)
    other.exchange.hear(message)
    assert told_as(other.outcomes.best) == told_as(one.outcomes.best)
    assert len(other.pool) == known + len(message[0].others)
    assert other.exchange.tell() == ()
    assert one.exchange.tell() == ()


def test_nothing_is_told_of_sheets_that_serve_another_way_alone() -> None:
    """Frames lie on blanks too, but those who divide panels know of no blanks."""
    both = divisible().model_copy(update={"workshop": divisible().workshop.model_copy(update={"way": "both"})})
    one = begun(both)
    other = elsewhere(one)
    dividing, *rest = one.outcomes.tasks
    blank = next(stock for task in rest for stock in task.stocks if stock.blank is not None)
    frames = [kind for variant in one.outcomes.of(dividing).variants for kind in variant.pieces if kind.of == 1]
    one.pool.add([Layout(blank, tuple((kind, Placement(0, 0, 0, 0)) for kind in frames))])
    message = one.exchange.tell()
    indices = {stock.index for stock in dividing.stocks}
    assert all(layout.stock in indices for news in message if news.way == 0 for layout in news.others)
    other.exchange.hear(message)
    assert [told_as(other.outcomes.of(task)) for task in other.outcomes.tasks] == [
        told_as(one.outcomes.of(task)) for task in one.outcomes.tasks
    ]


def test_what_is_heard_is_of_the_same_objects_as_what_is_there() -> None:
    """Else the same sheets would be taken for others."""
    one = begun(divisible())
    gone_on(one, 3000)
    (message,) = one.exchange.tell()
    sheets = len(one.pool)
    one.exchange.hear([message])
    assert len(one.pool) == sheets


def test_a_chain_goes_on_elsewhere() -> None:
    """Twice as it was sent, it comes to the same; and it is better in the end."""
    chain = begun(divisible())
    first = chain.outcomes.best.rank
    copies = [elsewhere(elsewhere(chain)), elsewhere(chain)]
    for copy in copies:
        copy.draw_from(5)
        gone_on(copy, 2000)
    assert told_as(copies[0].outcomes.best) == told_as(copies[1].outcomes.best)
    assert copies[0].outcomes.best.rank < first
