"""The last screens: where each part is, its label, what is left over, and the figures behind the plan."""

from collections.abc import Iterator

from nesting.drawing import FORWARD
from nesting.model import Plan

from .finding import whereabouts
from .labels import labels
from .leftovers import leftover_table
from .outcome import area_table, outcome_table, timber_table, verdict
from .part_screens import part_screens
from .screen import Block, Finder, LabelGrid, Listing, Screen, Words
from .ways import plank_ways_table, ways_in_words, ways_table
from .weights import weight_table
from .workload import workload_table


def last_screens(plan: Plan, mark: str) -> tuple[Screen, ...]:
    """Return what is looked up rather than worked through."""
    return (
        *part_screens(plan),
        Screen(key="parts", heading="Find a part", short="Find a part", blocks=(Finder(pieces=whereabouts(plan)),)),
        Screen(key="labels", heading="Labels", short="Labels", blocks=tuple(_labels(plan, mark))),
        Screen(key="leftovers", heading="What is left over", short="Left over", blocks=tuple(_leftovers(plan))),
        Screen(key="weights", heading="Weights and work", short="Weights, work", blocks=tuple(_weights(plan))),
        Screen(key="result", heading="The result in numbers", short="In numbers", blocks=tuple(_result(plan, mark))),
    )


def _labels(plan: Plan, mark: str) -> Iterator[Block]:
    yield Words(
        text="Print, cut apart, and stick each on the good face of its piece before it is cut out, its arrow as "
        f"drawn: to the bow where it says {FORWARD}, else towards the rising stations."
    )
    yield LabelGrid(labels=labels(plan), foot=f"{plan.job.title}, plan {mark}")


def _leftovers(plan: Plan) -> Iterator[Block]:
    table = leftover_table(plan)
    yield Listing(table=table) if table.rows else Words(text="No offcut is large enough to keep.")


def _weights(plan: Plan) -> Iterator[Block]:
    yield Listing(table=weight_table(plan))
    yield Words(
        text="Weights follow from the density that the job gives for sheets and lengths, and from the measured "
        "thickness; coatings, paint and fastenings are not in them."
    )
    yield Listing(table=workload_table(plan))


def _result(plan: Plan, mark: str) -> Iterator[Block]:
    yield Words(text=verdict(plan))
    yield Listing(table=outcome_table(plan))
    if (ways := ways_table(plan)).rows:
        yield Listing(table=ways)
        yield Words(text=ways_in_words(plan))
    if (plank_ways := plank_ways_table(plan)).rows:
        yield Listing(table=plank_ways)
    for line in _waste(plan):
        yield Words(text=line)
    if plan.totals.sheets:
        yield Listing(table=area_table(plan))
    if plan.totals.lengths:
        yield Listing(table=timber_table(plan))
    yield Words(text=f"Plan {mark} of job {plan.job_sha256[:12]}, seed {plan.seed}, {plan.work} units of work.")


def _waste(plan: Plan) -> Iterator[str]:
    """Yield the share of waste, for what there is of sheets and timber."""
    totals = plan.totals
    said = ((totals.sheets, "sheets", totals.waste_percent), (totals.lengths, "timber", totals.timber_waste_percent))
    meaning = "neither part nor kept offcut; laps and kerf count as waste"
    for count, what, percent in said:
        if count:
            yield f"Of the used {what} {percent:.1f} % is waste: {meaning}."
