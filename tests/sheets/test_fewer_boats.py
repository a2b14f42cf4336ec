"""Many equal boats planned as a few, as many times over."""

from random import Random

from nesting.effort import Budget, Effort
from nesting.model import Job
from nesting.packing import Placer
from nesting.sheets.all_at_once import AllAtOnce
from nesting.sheets.batch import Batch
from nesting.sheets.fewer_boats import FewerBoats, fewer_boats
from nesting.sheets.filling import plain_manner
from nesting.sheets.first_plans import filled
from nesting.sheets.improving import bench_for
from nesting.sheets.layouts import Pool
from nesting.sheets.plain_choice import plain_choice
from nesting.sheets.selecting import Selection, selection, wanted
from nesting.sheets.tasks import Task, tasks_of
from tests.jobs import PLY, job, panel


def twelve_boats(**sheet_with: object) -> Job:
    """Sides in pairs, a bottom and two knees for each of twelve."""
    return job(
        panel("side", 1500, 300, quantity=24, handed=True),
        panel("bottom", 1900, 620, quantity=12),
        panel("knee", 250, 250, quantity=24),
        sheets=({**PLY, **sheet_with},),
    )


def plainly(task: Task) -> Selection:
    """Return a selection of one plain pass."""
    variants = plain_choice(task)
    assert variants is not None
    placer = Placer(task.job.workshop.gap, Effort(Budget()))
    done = filled(task, variants, placer, plain_manner(), Random(0))
    assert not done.left
    return selection(task.parts, variants, done.used)


def test_there_is_a_task_for_each_number_of_boats_that_divides_all() -> None:
    """Twelve are 2 x 6, 3 x 4, 4 x 3, 6 x 2 and 12 x 1; with five pieces a boat."""
    few = fewer_boats(tasks_of(twelve_boats())[0], 1000)
    assert [(boats.times, boats.pieces) for boats in few] == [(2, 30), (3, 20), (4, 15), (6, 10), (12, 5)]
    assert all(sum(wanted(b.task.parts, [v[0] for v in b.task.variants]).values()) == b.pieces for b in few)


def test_no_task_has_more_pieces_than_are_laid_at_once() -> None:
    """Those of many boats are left out."""
    assert [boats.times for boats in fewer_boats(tasks_of(twelve_boats())[0], 15)] == [4, 6, 12]


def test_boats_that_are_not_equal_are_not_shared_out() -> None:
    """One knee more, and there is no smaller batch of which all is a multiple."""
    unlike = job(panel("bottom", 1900, 620, quantity=12), panel("knee", 250, 250, quantity=25))
    assert fewer_boats(tasks_of(unlike)[0], 1000) == ()


def test_sheets_of_which_there_are_only_so_many_serve_no_smaller_batch() -> None:
    """How many each boat may have of them nobody says."""
    assert fewer_boats(tasks_of(twelve_boats(available=40))[0], 1000) == ()


def test_what_serves_a_few_serves_all_as_many_times_over() -> None:
    """Cost, joints and sheets are multiples, and every piece is there."""
    task = tasks_of(twelve_boats())[0]
    for boats in fewer_boats(task, 1000):
        few = plainly(boats.task)
        whole = boats.for_all(few, task.parts)
        assert (whole.cost, whole.joints) == (few.cost * boats.times, few.joints * boats.times)
        cut = sum((layout.counts for layout in whole.layouts), start=wanted(task.parts, ()))
        assert cut == wanted(task.parts, whole.variants)


def test_a_batch_makes_the_whole_cheaper_or_leaves_it_as_it_is() -> None:
    """From a first plan that wastes a sheet for each boat."""
    task, effort, chance = tasks_of(twelve_boats())[0], Effort(Budget(work=6000)), Random(3)
    alone = next(boats for boats in fewer_boats(task, 1000) if boats.times == 12)
    first = best = alone.for_all(plainly(alone.task), task.parts)
    batch = Batch(task, AllAtOnce(task, Pool(), bench_for(task.job), chance))
    while not effort.over:
        better = batch.step(best, effort)
        assert better.rank <= best.rank
        assert sum((layout.counts for layout in better.layouts), start=wanted(task.parts, ())) == wanted(
            task.parts, better.variants
        )
        best = better
    assert best.cost < first.cost


def test_the_whole_job_is_a_batch_of_itself() -> None:
    """Once over, with all its pieces."""
    task = tasks_of(twelve_boats())[0]
    assert FewerBoats(task, 1).pieces == 60
