"""A sound plan with long planks: six strips from two of them, half of each turned, and two short ones beside."""

from functools import cache

from nesting.effort import Budget, Effort
from nesting.model import Job, Plan
from nesting.planner import plan

SPRUCE = {"material": "spruce", "section": (50, 25)}


@cache
def long_plank_plan() -> Plan:
    """Strips of 1500 from planks of 1000 that give four sticks."""
    strip = {**SPRUCE, "length": 1500, "quantity": 3, "joint": "scarf"}
    job = Job.model_validate(
        {
            "workshop": {"kerf": {"crosscut": 3, "rip": 3}, "keep_length_from": 250},
            "joints": {"scarf": {"slope": 8, "least_piece": 300, "cost": {"each": 5}}},
            "lengths": [
                {**SPRUCE, "section": (209, 25), "name": "plank", "length": 1000, "price": 100, "offcut_value": 20}
            ],
            "strips": [
                {**strip, "name": "inner"},
                {**strip, "name": "outer"},
                {**SPRUCE, "name": "cleat", "length": 500, "quantity": 2},
            ],
        }
    )
    return plan(job, effort=Effort(Budget(work=200)))
