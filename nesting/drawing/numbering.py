"""What drawings and labels are told apart by: the plan they are of, and their place among its sheets."""

from hashlib import sha256

from nesting.model import Plan

from .datum import containers
from .remembering import once_for_a_plan


@once_for_a_plan
def plan_mark(plan: Plan) -> str:
    """Return the first eight figures of the SHA-256 of ``plan.json``: any change of plan changes it."""
    return sha256(f"{plan.model_dump_json(indent=1)}\n".encode()).hexdigest()[:8]


def place_among(plan: Plan, name: str) -> str:
    """Return which of how many blanks and sheets one is, as ``2 of 6``, in the order in which they are drawn."""
    names = [on.id for on in containers(plan)]
    return f"{names.index(name) + 1} of {len(names)}" if name in names else ""
