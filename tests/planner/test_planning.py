"""The road from a job to a plan: what is heard on the way, what stops it, what makes it repeatable."""

from decimal import Decimal
from itertools import pairwise
from typing import Any

import pytest

from nesting.auditing import audit
from nesting.effort import Budget, Effort, News
from nesting.files import plan_json
from nesting.lengths import quick_lengths
from nesting.model import Job, JobError, NoPlanError, Plan
from nesting.planner import plan, resolved
from tests.jobs import PLY, job, panel

SPRUCE: dict[str, Any] = {"material": "spruce", "section": [45, 20]}
GUNWALE = {**SPRUCE, "name": "gunwale", "length": 4350, "quantity": 2, "joint": "scarf"}
LENGTHS = [{**SPRUCE, "name": "spruce", "length": 3600, "price": "9.80"}]

#: Takes a few passes to get to its best: two kinds of sheet, shapes that don't tile.
FIDDLY = job(
    panel("a", 1310, 530, quantity=3),
    panel("b", 890, 410, quantity=5),
    panel("c", 2950, 270, quantity=2, joint="scarf", handed=True),
    {**panel("d", 1, 1), "outline": {"points": [[0, 0], [900, 0], [700, 400], [150, 480]]}, "quantity": 4},
    sheets=(PLY, {**PLY, "name": "large", "size": [3100, 1530], "price": "139.00"}),
    lengths=LENGTHS,
    strips=[GUNWALE],
)


def planned(asked: Job, work: int = 0, seed: int = 0) -> Plan:
    """Return a plan within some work."""
    return plan(asked, seed=seed, effort=Effort(Budget(work=work)))


def heard(asked: Job, effort: Effort) -> tuple[Plan, list[News]]:
    """Return a plan and all that was told on the way."""
    told: list[News] = []
    return plan(asked, effort=effort, progress=told.append), told


def test_progress_hears_of_the_bound_and_of_each_better_plan() -> None:
    """A first plan without the bound, then with it plans that get strictly better; the last heard is returned."""
    made, told = heard(FIDDLY, Effort(Budget(work=1500)))
    assert [(news.stage, news.objective) for news in told[:2]] == [("timber", None), ("sheets", None)]
    assert [news.bound for news in told[2:]] == [None] + [made.totals.bound] * (len(told) - 3)
    objectives = [news.objective for news in told[2:] if news.objective is not None]
    assert len(objectives) == len(told) - 2 >= 3
    assert objectives == sorted(objectives, reverse=True)
    assert objectives[-1] == made.totals.objective
    assert [news.spent for news in told] == sorted(news.spent for news in told)


def test_no_news_comes_twice() -> None:
    """Each plan that is told with the bound beats the last by objective, or else by joints or sheets."""
    better: list[Plan] = []

    def keep(news: News) -> None:
        if news.bound is not None:
            better.append(planned(FIDDLY, work=news.spent))

    plan(FIDDLY, effort=Effort(Budget(work=1500)), progress=keep)
    ranks = [(made.totals.objective, made.totals.joints, made.totals.sheets) for made in better]
    assert len(ranks) >= 2
    assert all(after < before for before, after in pairwise(ranks))


def test_more_work_never_costs_more() -> None:
    """The same road, gone further."""
    costs = [planned(FIDDLY, work=work).totals.objective for work in (0, 300, 900, 1500)]
    assert costs == sorted(costs, reverse=True)


def test_a_search_that_was_stopped_before_it_began_still_gives_a_first_plan() -> None:
    """Whoever presses Ctrl-C early gets what there is."""
    effort = Effort(Budget())
    effort.stop()
    made = plan(FIDDLY, effort=effort)
    assert audit(made, resolved(FIDDLY)) == ()


def test_a_search_that_is_stopped_keeps_its_best_plan() -> None:
    """It has no budget at all, and ends at the second plan that it tells of."""
    effort = Effort(Budget())
    told: list[Decimal] = []

    def stop_at_second(news: News) -> None:
        if news.objective is not None:
            told.append(news.objective)
        if len(told) == 2:
            effort.stop()

    made = plan(FIDDLY, effort=effort, progress=stop_at_second)
    assert made.totals.objective == told[-1]
    assert len(told) == 2


def test_a_search_ends_when_its_plan_is_proven() -> None:
    """Without any budget: two halves of a sheet take a sheet, and none can take less."""
    made = plan(job(panel("half", 1200, 1190, quantity=2)), effort=Effort(Budget()))
    assert made.totals.proven
    assert made.totals.objective == made.totals.bound == Decimal("84.00")


@pytest.mark.parametrize("seed", [0, 7])
def test_the_same_seed_and_work_give_the_same_bytes(seed: int) -> None:
    """To the last digit of the file."""
    assert plan_json(planned(FIDDLY, work=600, seed=seed)) == plan_json(planned(FIDDLY, work=600, seed=seed))


def test_every_seed_gives_a_sound_plan_with_the_same_bound() -> None:
    """Chance changes what is found, not what is proven."""
    plans = [planned(FIDDLY, work=300, seed=seed) for seed in range(3)]
    assert [made.seed for made in plans] == [0, 1, 2]
    assert len({made.totals.bound for made in plans}) == 1


def test_the_work_that_was_done_is_recorded() -> None:
    """All that was spent, which is what there was to spend and the step that was under way."""
    effort = Effort(Budget(work=500))
    made = plan(FIDDLY, effort=effort)
    assert made.work == effort.spent >= 500


def test_a_job_of_strips_alone_needs_no_sheets() -> None:
    """4350 from 3600 takes two pieces with one joint, twice; two lengths hold 7200 < 2 x 4350, so three do."""
    asked = Job.model_validate(
        {"joints": {"scarf": {"slope": 8, "cost": {"each": 1}}}, "lengths": LENGTHS, "strips": [GUNWALE]}
    )
    made = planned(asked)
    assert (made.totals.sheets, made.totals.lengths, made.totals.joints) == (0, 3, 2)
    assert made.totals.objective == 3 * Decimal("9.80") + 2
    assert made.totals.waste_percent == 0
    assert "timber" in made.totals.bound_reason
    assert "sheets" not in made.totals.bound_reason


def test_a_job_of_strips_alone_shows_a_plan_before_anything_is_proven() -> None:
    """Six pieces of 1000 from 3600: three of a length, so two lengths; the bound comes with the second news of it."""
    asked = Job.model_validate(
        {"lengths": LENGTHS, "strips": [{**SPRUCE, "name": "beam", "length": 1000, "quantity": 6}]}
    )
    made, told = heard(asked, Effort(Budget(work=0)))
    both = 2 * Decimal("9.80")
    assert [(news.objective, news.bound) for news in told if news.objective] == [(both, None), (both, both)]
    assert made.totals.proven


def test_a_search_that_is_stopped_at_its_first_plan_still_tells_what_is_proven() -> None:
    """The one who stops it learns how far from the least it may be."""
    effort = Effort(Budget())

    def stop_at_first(news: News) -> None:
        if news.objective is not None:
            effort.stop()

    made = plan(FIDDLY, effort=effort, progress=stop_at_first)
    assert made.totals.bound == planned(FIDDLY).totals.bound


def test_timber_that_no_quick_plan_cuts_is_planned_in_earnest_before_anything_is_shown() -> None:
    """Two strips with their joints 1200 apart: quick plans go as far as a length reaches, which is too near."""
    asked = job(
        panel("seat", 900, 300),
        lengths=LENGTHS,
        strips=[GUNWALE],
        neighbours=[{"between": ["gunwale", "gunwale"], "shift": 1200}],
    )
    made, told = heard(asked, Effort(Budget(work=0)))
    assert quick_lengths(resolved(asked), Effort(Budget())) is None
    assert made.totals.lengths == 3
    first, second = [joint.station for joint in made.joints]
    assert abs(first - second) >= 1200
    assert len({news.objective for news in told if news.objective is not None}) == 1


def test_a_job_of_panels_alone_needs_no_timber() -> None:
    """Nothing is said of timber either."""
    made = planned(job(panel("seat", 900, 300)))
    assert (made.totals.sheets, made.totals.lengths) == (1, 0)
    assert made.totals.timber.used == 0
    assert "timber" not in made.totals.bound_reason


def test_what_costs_nothing_is_proven_at_nothing() -> None:
    """A rack that holds all that is needed."""
    made = planned(job(panel("seat", 900, 300), sheets=({**PLY, "price": 0, "source": "rack"},)))
    assert made.totals.objective == 0
    assert made.totals.proven
    assert made.purchases == ()
    assert made.totals.bound_reason == "nothing costs anything"


def test_sheets_and_timber_add_up_in_the_bound_and_in_the_plan() -> None:
    """What one costs says nothing of the other."""
    both = planned(job(panel("seat", 900, 300), lengths=LENGTHS, strips=[GUNWALE]))
    seat = planned(job(panel("seat", 900, 300)))
    strips = planned(
        Job.model_validate({"joints": both.job.model_dump()["joints"], "lengths": LENGTHS, "strips": [GUNWALE]})
    )
    assert both.totals.objective == seat.totals.objective + strips.totals.objective
    assert both.totals.bound == seat.totals.bound + strips.totals.bound


def test_what_is_wrong_with_panels_and_with_strips_is_told_together() -> None:
    """Two panels too large and one strip too long: three problems in one go."""
    mast = {**SPRUCE, "name": "mast", "length": 6000}
    asked = job(panel("deck", 3000, 300), panel("sole", 2900, 300), lengths=LENGTHS, strips=[mast])
    with pytest.raises(NoPlanError) as error:
        planned(asked)
    assert [(problem.code, problem.where) for problem in error.value.problems] == [
        ("too-large", 'panel "deck"'),
        ("too-large", 'panel "sole"'),
        ("too-long", 'strip "mast"'),
    ]


def test_an_outline_that_crosses_itself_is_refused_before_anything_is_searched() -> None:
    """As a fault of the job, and nothing was heard."""
    tie = {**panel("tie", 1, 1), "outline": {"points": [[0, 0], [300, 200], [300, 0], [0, 200]]}}
    told: list[News] = []
    with pytest.raises(JobError, match="crosses or touches itself"):
        plan(job(tie), progress=told.append)
    assert told == []


def test_a_sheet_of_which_the_trim_leaves_nothing_is_refused() -> None:
    """By name, and with what would help."""
    with pytest.raises(JobError, match='sheet "sliver": a trim of 10 on each edge leaves nothing of it'):
        planned(job(panel("seat", 300, 200), sheets=(PLY, {**PLY, "name": "sliver", "size": [900, 20]})))


def test_a_panel_in_one_piece_is_not_longer_than_can_be_handled() -> None:
    """2100 long where 2000 can be handled, and no joint allowed."""
    with pytest.raises(NoPlanError, match="2000"):
        planned(job(panel("side", 2100, 300), workshop={"longest_piece": 2000}))
