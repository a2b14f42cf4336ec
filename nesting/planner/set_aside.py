"""A job of which some items are set aside, so that the rest can be looked at without them."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from nesting.model import TOLERANCE, Job, Panel, Problem, same_goods

#: What items are set aside for themselves: kind and place within the job, as a problem's path begins.
KINDS = ("sheets", "panels", "strips")

#: Codes of problems that several strips have together: none of them can be set aside as the one that is wrong.
SHARED = ("too-little-timber", "no-plan", "shift-too-wide")

Item = tuple[str, int]


@dataclass(frozen=True)
class Remaining:
    """What is left of a job: the places, in the whole job, of the items that are still looked at."""

    job: Job
    sheets: tuple[int, ...]
    panels: tuple[int, ...]
    strips: tuple[int, ...]

    def as_job(self) -> Job:
        """Return the items that are left as a job; pairs of neighbours that lost one are left out."""
        job = self.job
        panels = tuple(job.panels[k] for k in self.panels)
        strips = tuple(job.strips[k] for k in self.strips)
        names = {panel.name for panel in panels} | {strip.name for strip in strips}
        return job.model_copy(
            update={
                "sheets": tuple(job.sheets[k] for k in self.sheets),
                "panels": panels,
                "strips": strips,
                "neighbours": tuple(pair for pair in job.neighbours if names.issuperset(pair.between)),
            }
        )

    def in_whole_job(self, problem: Problem) -> Problem:
        """Return a problem of ``as_job()`` with its path in the whole job."""
        if not (item := _item(problem)):
            return problem
        kind, index = item
        return replace(problem, path=(kind, getattr(self, kind)[index], *problem.path[2:]))

    def without(self, items: Sequence[Item]) -> "Remaining":
        """Set items aside, and with a sheet all panels that it might have served: nothing can be said of them."""
        gone = set(items)
        sheets = [self.job.sheets[k] for kind, k in items if kind == "sheets"]
        gone |= {("panels", k) for k in self.panels if any(same_goods(s, self.job.panels[k]) for s in sheets)}
        sheets_left, panels_left, strips_left = (
            tuple(k for k in getattr(self, kind) if (kind, k) not in gone) for kind in KINDS
        )
        return Remaining(self.job, sheets_left, panels_left, strips_left)


def everything(job: Job) -> Remaining:
    """Return a job with nothing set aside."""
    return Remaining(job, *(tuple(range(len(items))) for items in (job.sheets, job.panels, job.strips)))


def looked_through(
    left: Remaining, problems_of: Callable[[Job], Sequence[Problem]]
) -> tuple[Remaining, tuple[Problem, ...]]:
    """Return what is left without the items that have problems of their own, and all problems.

    What has a problem is set aside and the rest looked at again, until nothing more is found: a look that ends at
    the first kind of trouble so tells of all kinds. Where panels have it together, all of these are set aside; where
    strips do, it ends.
    """
    told: list[Problem] = []
    while found := [left.in_whole_job(problem) for problem in problems_of(left.as_job())]:
        told += found
        items = [item for problem in found for item in _items(problem, left)]
        if not items or any(problem.code in SHARED for problem in found):
            break
        left = left.without(items)
    return left, tuple(told)


def _items(problem: Problem, left: Remaining) -> list[Item]:
    """Return what is set aside for a problem: the item itself, or all panels that have it together."""
    panels = left.job.panels
    if problem.code == "shift":
        names = {name for pair in left.job.neighbours for name in pair.between}
        return [("panels", k) for k in left.panels if panels[k].name in names]
    if (item := _item(problem)) is None:
        return []
    if problem.code == "stock-ran-out":
        return [("panels", k) for k in left.panels if _from_the_same(panels[k], panels[item[1]])]
    return [item]


def _from_the_same(one: Panel, other: Panel) -> bool:
    """Whether two panels may be cut from the same sheets, their grades apart."""
    return one.material == other.material and abs(one.thickness - other.thickness) <= 2 * TOLERANCE


def _item(problem: Problem) -> Item | None:
    if len(problem.path) < 2 or problem.path[0] not in KINDS or not isinstance(problem.path[1], int):
        return None
    return str(problem.path[0]), problem.path[1]
