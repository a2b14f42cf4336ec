"""A short mark by which pages, labels and ticks tell one plan from another."""

from hashlib import sha256

from nesting.files import plan_json
from nesting.model import Plan


def plan_mark(plan: Plan) -> str:
    """Return the first eight figures of the SHA-256 of ``plan.json``: any change of plan changes it."""
    return sha256(plan_json(plan).encode()).hexdigest()[:8]
