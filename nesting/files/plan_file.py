"""Writes and reads ``plan.json``."""

from pathlib import Path

from pydantic import ValidationError

from nesting.model import JobError, Plan, Problem

from .inside import text_of


def plan_json(plan: Plan) -> str:
    """Return the plan as JSON; the same plan gives the same text."""
    return plan.model_dump_json(indent=1) + "\n"


def read_plan(file: Path) -> Plan:
    """Return the plan that a file holds.

    Raises
    ------
    JobError
        If the file can't be read or does not hold a plan in the documented form.
    """
    text = text_of(file)
    try:
        return Plan.model_validate_json(text)
    except ValidationError as error:
        details = error.errors(include_url=False)
        where = ", ".join(str(step) for step in details[0]["loc"]) or "plan file"
        problem = Problem(
            code="not-a-plan",
            where=where,
            file=file,
            reason=f"{details[0]['msg']} ({len(details)} such in all)",
            remedy="Name a plan.json that was written by nesting plan and not changed since.",
        )
        raise JobError(problem) from None
    except JobError as error:
        raise JobError([problem.at(file, None) for problem in error.problems]) from None
