"""Plans with long planks in which one thing is wrong, and what the audit says of it."""

from collections.abc import Callable
from typing import Any

import pytest

from nesting.auditing import audit
from nesting.model import Plan
from tests.auditing.good_long_plank_plan import long_plank_plan

Change = Callable[[dict[str, Any]], None]


def codes(change: Change) -> set[str]:
    """Return what the audit finds in the plan after a change."""
    made = long_plank_plan().model_dump(mode="json", by_alias=True)
    change(made)
    return {finding.code for finding in audit(Plan.model_validate(made))}


def first(made: dict[str, Any]) -> Any:
    """Return the first long plank."""
    return made["long_planks"][0]


def piece(made: dict[str, Any], name: str) -> Any:
    """Return a piece by its id."""
    return next(each for each in made["pieces"] if each["id"] == name)


def test_the_plan_is_sound() -> None:
    """As long as nothing is changed; two long planks, half of their strips turned."""
    made = long_plank_plan()
    assert audit(made, made.job) == ()
    assert len(made.long_planks) == 2
    assert {stick.turned for plank in made.long_planks for stick in plank.sticks} == {False, True}


def shift_scarf(made: dict[str, Any]) -> None:
    """Tell a scarf a millimetre off."""
    first(made)["scarfs"][0]["at"] += 1


def free_scarf(made: dict[str, Any]) -> None:
    """Tell a scarf to cost nothing."""
    first(made)["scarfs"][0]["cost"] = "0"


def no_scarf(made: dict[str, Any]) -> None:
    """Tell of three parts and one scarf."""
    first(made)["members"].append(dict(first(made)["members"][0]))


def longer(made: dict[str, Any]) -> None:
    """Tell a long plank to be longer than its parts."""
    first(made)["length"] += 5


def another_joint(made: dict[str, Any]) -> None:
    """Tell it to be joined by a rule that is not there."""
    first(made)["joint"] = "glued"


def two_on_one(made: dict[str, Any]) -> None:
    """Cut two parts from one place."""
    parts = [part for plank in made["long_planks"] for part in plank["members"]]
    parts[2]["used"], parts[2]["from"], parts[2]["to"] = parts[0]["used"], parts[0]["from"], parts[0]["to"]


def part_from_nowhere(made: dict[str, Any]) -> None:
    """Cut a part from a length that is not there."""
    first(made)["members"][0]["used"] = "L99"


def one_stick_more(made: dict[str, Any]) -> None:
    """Rip five sticks from a plank that gives four."""
    first(made)["sticks"].append({"id": "LP1-5", "turned": False})


def same_stick(made: dict[str, Any]) -> None:
    """Give two sticks one name."""
    first(made)["sticks"][1]["id"] = first(made)["sticks"][0]["id"]


def not_turned(made: dict[str, Any]) -> None:
    """Tell a turned stick to lie as it is."""
    next(stick for stick in first(made)["sticks"] if stick["turned"])["turned"] = False


def untold(made: dict[str, Any]) -> None:
    """Leave a joint out."""
    made["joints"] = [joint for joint in made["joints"] if joint["id"] != "inner-1/J1"]


def told_elsewhere(made: dict[str, Any]) -> None:
    """Tell of a scarf that is in the other plank."""
    joint = next(joint for joint in made["joints"] if joint["id"] == "inner-1/J1")
    joint["scarf"] = "LP2/F1" if joint["scarf"] == "LP1/F1" else "LP1/F1"


def paid_twice(made: dict[str, Any]) -> None:
    """Let a joint cost what its scarf did."""
    made["joints"][0]["cost"] = "5.00"


def cut_into(made: dict[str, Any]) -> None:
    """Move a cleat into a lap."""
    cleat = piece(made, "cleat-1-1")
    plank = next(p for p in made["long_planks"] if any(s["id"] == cleat["on"] for s in p["sticks"]))
    start = plank["scarfs"][0]["at"] - 50
    cleat["from"], cleat["to"] = start, start + 500


def beyond(made: dict[str, Any]) -> None:
    """Move a strip beyond the end of its plank."""
    strip = piece(made, "inner-1-1")
    strip["from"], strip["to"] = strip["from"] + 10, strip["to"] + 10


def one_on_another(made: dict[str, Any]) -> None:
    """Cut a cleat from a stick that is a strip already."""
    piece(made, "cleat-1-1")["on"] = piece(made, "inner-1-1")["on"]


def from_nowhere(made: dict[str, Any]) -> None:
    """Cut a strip from a stick that is not there."""
    piece(made, "inner-1-1")["on"] = "LP7-1"


def wider(made: dict[str, Any]) -> None:
    """Ask for a strip that is wider than its stick."""
    made["job"]["strips"][2]["section"] = [60, 25]


def thinner_stick(made: dict[str, Any]) -> None:
    """Tell sticks to be thinner than their plank."""
    first(made)["section"] = [50, 20]


def never_ripped(made: dict[str, Any]) -> None:
    """Take away the saw that rips."""
    made["job"]["workshop"]["kerf"]["rip"] = None


def shorter_hands(made: dict[str, Any]) -> None:
    """Handle nothing longer than 1200."""
    made["job"]["workshop"]["longest_piece"] = 1200


def miscounted(made: dict[str, Any]) -> None:
    """Tell of a scarf more than there is."""
    made["totals"]["scarfs_of_planks"] += 1


def longer_laps(made: dict[str, Any]) -> None:
    """Count the laps but once."""
    made["totals"]["timber"]["laps"] -= 200


def cheaper_told(made: dict[str, Any]) -> None:
    """Tell that planks ripped first would have cost less."""
    made["plank_ways"][0]["objective"] = "1.00"


def told_twice(made: dict[str, Any]) -> None:
    """Tell of one way twice."""
    made["plank_ways"].append(dict(made["plank_ways"][0]))


def dearer_offcut(made: dict[str, Any]) -> None:
    """Let what is left of a stick be worth as much as what is left of the whole plank."""
    offcut = next(each for each in made["offcuts"] if each["on"].startswith("LP") and each["kept"])
    offcut["value"] = f"{(offcut['to'] - offcut['from']) * 20 / 1000:.2f}"


def offcut_on_lap(made: dict[str, Any]) -> None:
    """Keep what has a lap in it."""
    offcut = next(each for each in made["offcuts"] if each["on"].startswith("LP") and each["kept"])
    offcut["from"], offcut["to"] = 0, 1500


@pytest.mark.parametrize(
    ("change", "code"),
    [
        (shift_scarf, "long-plank-scarf"),
        (free_scarf, "long-plank-scarf"),
        (free_scarf, "wrong-total"),
        (no_scarf, "long-plank-scarf"),
        (longer, "long-plank"),
        (another_joint, "long-plank"),
        (two_on_one, "pieces-overlap"),
        (part_from_nowhere, "unknown-id"),
        (one_stick_more, "wrong-plank"),
        (same_stick, "same-id"),
        (not_turned, "joint-station"),
        (untold, "joint-missing"),
        (told_elsewhere, "joint-not-there"),
        (paid_twice, "joint-cost"),
        (cut_into, "scarf-cut-into"),
        (beyond, "outside-length"),
        (one_on_another, "pieces-overlap"),
        (from_nowhere, "unknown-id"),
        (wider, "wrong-section"),
        (thinner_stick, "wrong-section"),
        (never_ripped, "wrong-plank"),
        (shorter_hands, "piece-too-long"),
        (miscounted, "wrong-count"),
        (longer_laps, "wrong-length"),
        (cheaper_told, "wrong-ways"),
        (told_twice, "wrong-ways"),
        (dearer_offcut, "offcut-value"),
        (offcut_on_lap, "offcut-misplaced"),
    ],
)
def test_one_thing_wrong_with_a_long_plank_is_found(change: Change, code: str) -> None:
    """Each by the code of its kind."""
    assert code in codes(change)
