"""Plans the material of small plywood boats: what to buy, where every part and joint lies, how far from the least.

>>> import nesting
>>> job = nesting.Job(
...     sheets=[{"name": "ply", "material": "gaboon", "thickness": 6, "size": [2440, 1220], "price": "84.00"}],
...     panels=[{"name": "shelf", "material": "gaboon", "thickness": 6, "outline": {"rectangle": [1200, 300]}}],
... )
>>> plan = nesting.plan(job)
>>> plan.totals.sheets, str(plan.cost), nesting.audit(plan)
(1, '84.00', ())
"""

from typing import TYPE_CHECKING

from .doors import opened_when_used

if TYPE_CHECKING:
    from .auditing import Finding, audit
    from .effort import Budget, Effort, News
    from .files import job_schema, plan_json, plan_schema, read_job, read_plan, write_folder
    from .model import (
        Coating,
        Fault,
        Job,
        JobError,
        JointCost,
        JointRule,
        Kerf,
        Length,
        Mark,
        Neighbours,
        NestingError,
        NoPlanError,
        Outline,
        Panel,
        Plan,
        Problem,
        Sheet,
        Strip,
        Workshop,
    )
    from .planner import check, hints, plan
    from .report import report_files

_MODEL = (
    "Coating Fault Job JobError JointCost JointRule Kerf Length Mark Neighbours NestingError NoPlanError Outline Panel "
    "Plan Problem Sheet Strip Workshop"
)

#: Which room each name comes from. Rooms are opened when first used: ``import nesting`` itself costs nothing.
_ROOMS = {
    "audit": "auditing",
    "Finding": "auditing",
    "Budget": "effort",
    "Effort": "effort",
    "News": "effort",
    "job_schema": "files",
    "plan_json": "files",
    "plan_schema": "files",
    "read_job": "files",
    "read_plan": "files",
    "write_folder": "files",
    **dict.fromkeys(_MODEL.split(), "model"),
    "check": "planner",
    "hints": "planner",
    "plan": "planner",
    "report_files": "report",
}

__all__ = [
    "Budget",
    "Coating",
    "Effort",
    "Fault",
    "Finding",
    "Job",
    "JobError",
    "JointCost",
    "JointRule",
    "Kerf",
    "Length",
    "Mark",
    "Neighbours",
    "NestingError",
    "News",
    "NoPlanError",
    "Outline",
    "Panel",
    "Plan",
    "Problem",
    "Sheet",
    "Strip",
    "Workshop",
    "audit",
    "check",
    "hints",
    "job_schema",
    "plan",
    "plan_json",
    "plan_schema",
    "read_job",
    "read_plan",
    "report_files",
    "write_folder",
]

if not TYPE_CHECKING:  # a checker that saw it would take any name to be there
    __getattr__ = opened_when_used(__name__, _ROOMS)
