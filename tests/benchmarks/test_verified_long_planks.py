"""Long planks, verified from the plan file alone; the plan is the one that the audit's tests damage."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from benchmarks.verification import faults
from nesting.files import plan_json
from tests.auditing import test_damaged_long_planks as damage
from tests.auditing.good_long_plank_plan import long_plank_plan


def told(change: Callable[[Any], None], folder: Path) -> str:
    """Return what is wrong with the plan after a change."""
    made = json.loads(plan_json(long_plank_plan()))
    change(made)
    file = folder / "plan.json"
    file.write_text(json.dumps(made), encoding="utf-8")
    return "\n".join(faults(file))


def test_a_sound_plan_of_long_planks_has_no_faults(tmp_path: Path) -> None:
    """As long as nothing is changed."""
    assert told(lambda _: None, tmp_path) == ""


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (damage.shift_scarf, "the scarfs of LP1 are not where its planks meet"),
        (damage.free_scarf, "the scarfs of LP1 don't follow their rule"),
        (damage.longer, "LP1 comes out 1500 long"),
        (damage.two_on_one, "are not a kerf apart"),
        (damage.one_stick_more, "LP1 does not give its sticks"),
        (damage.not_turned, "are not where scarfs run across it"),
        (damage.untold, "the joints of inner-1-1 are not where scarfs run across it"),
        (damage.told_elsewhere, "the joints of inner-1-1 are not where scarfs run across it"),
        (damage.paid_twice, "are paid for twice"),
        (damage.cut_into, "that it may not have"),
        (damage.beyond, "inner-1-1 is not to be had from"),
        (damage.one_on_another, "are not a kerf apart"),
        (damage.wider, "cleat-1-1 is not to be had from"),
        (damage.thinner_stick, "the sticks of LP1 are not as thick as it is"),
        (damage.never_ripped, "LP1 does not give its sticks"),
        (damage.shorter_hands, "LP1 is too long to be handled"),
        (damage.dearer_offcut, "is worth"),
    ],
)
def test_damage_to_long_planks_is_found(change: Callable[[Any], None], said: str, tmp_path: Path) -> None:
    """Each in the words of the plan file."""
    assert said in told(change, tmp_path)
