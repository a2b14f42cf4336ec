"""Ripped planks and the shift of strips, verified from the plan file alone."""

import json
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from benchmarks.verification import faults
from nesting.effort import Budget, Effort
from nesting.files import plan_json
from nesting.model import Job
from nesting.planner import plan
from nesting.report import page

SPRUCE = {"material": "spruce", "section": (50, 25)}


@cache
def written() -> str:
    """Two strips of 1800 from the two sticks of a plank and two lengths, their joints 300 apart."""
    asked = Job.model_validate(
        {
            "workshop": {"kerf": {"crosscut": 3, "rip": 3}},
            "joints": {"scarf": {"slope": 8, "least_piece": 300}},
            "lengths": [{**SPRUCE, "section": (103, 25), "name": "plank", "length": 1200, "price": 10}],
            "strips": [{**SPRUCE, "name": "inwale", "length": 1800, "quantity": 2, "joint": "scarf", "most_joints": 1}],
            "neighbours": [{"between": ["inwale", "inwale"], "shift": 300}],
        }
    )
    made = plan(asked, effort=Effort(Budget(work=300)))
    assert "L1 (plank) into 2 sticks of 50 × 25; L2 (plank) into 2 sticks of 50 × 25" in page(made)
    return plan_json(made)


def told(change: Callable[[Any], None], folder: Path) -> str:
    """Return what is wrong with the plan after a change."""
    made = json.loads(written())
    change(made)
    file = folder / "plan.json"
    file.write_text(json.dumps(made), encoding="utf-8")
    return "\n".join(faults(file))


def test_a_sound_plan_of_planks_has_no_faults(tmp_path: Path) -> None:
    """Two planks are bought, four sticks are cut."""
    made = json.loads(written())
    assert (made["totals"]["to_pay"], made["totals"]["lengths"], len(made["used"])) == ("20.00", 2, 4)
    assert told(lambda _: None, tmp_path) == ""


def narrower(made: Any) -> None:
    """Make the planks a millimetre too narrow."""
    made["job"]["lengths"][0]["section"] = [102, 25]


def thicker(made: Any) -> None:
    """Make the planks thicker."""
    made["job"]["lengths"][0]["section"] = [103, 30]


def never_ripped(made: Any) -> None:
    """Take away the saw that rips."""
    made["job"]["workshop"]["kerf"]["rip"] = None


def one_plank(made: Any) -> None:
    """Say that all four sticks are of one plank."""
    for number, used in enumerate(made["used"], start=1):
        used["plank"], used["stick"], used["sticks"] = "L1", number, 4


def wider_shift(made: Any) -> None:
    """Ask for joints further apart."""
    made["job"]["neighbours"][0]["shift"] = 1500


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (narrower, "strips from L1-1 are not of its section"),
        (thicker, "strips from L1-1 are not of its section"),
        (never_ripped, "strips from L1-1 are not of its section"),
        (one_plank, "strips from L1-1 are not of its section"),
        (one_plank, "to pay: "),
        (wider_shift, "joints of inwale and inwale are less than 1500 apart"),
    ],
)
def test_damage_to_planks_and_shifts_is_found(change: Callable[[Any], None], said: str, tmp_path: Path) -> None:
    """Each in the words of the plan file."""
    assert said in told(change, tmp_path)
