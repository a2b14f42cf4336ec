"""The check that reads nothing but a plan file finds what is wrong with it."""

import copy
import json
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from benchmarks.verification import faults
from nesting.effort import Budget, Effort
from nesting.files import plan_json
from nesting.planner import plan
from tests.jobs import PLY, job, panel

PlanFile = dict[str, Any]

KNOT = [[600, 300], [640, 300], [640, 340], [600, 340]]


@cache
def sound_plan() -> PlanFile:
    """Return the file of a sound plan: a scarfed pair, seats, a holed part on an offcut with a knot, gunwales."""
    spruce = {"material": "spruce", "section": [45, 20]}
    old = {**PLY, "name": "old", "outline": {"rectangle": [700, 400]}, "faults": [{"points": KNOT}], "price": 0}
    del old["size"]
    holed = {**panel("transom", 500, 300), "grade": "good"}
    holed["outline"] = {
        "points": [[0, 0], [500, 0], [500, 300], [0, 300]],
        "holes": [[[50, 50], [90, 50], [90, 90], [50, 90]]],
    }
    sides = {
        **panel("side", 3000, 300, quantity=2, handed=True, joint="scarf"),
        "outline": {"points": [[0, 0], [3000, 0], [3000, 280], [0, 200]]},
        "no_joint": [[0, 900]],
    }
    asked = job(
        sides,
        panel("seat", 900, 300, quantity=2),
        holed,
        grades=["plain", "good"],
        sheets=(PLY, {**old, "grade": "good", "available": 1, "source": "rack"}),
        lengths=[{**spruce, "name": "spruce", "length": 3600, "price": "9.80", "available": 4}],
        strips=[{**spruce, "name": "gunwale", "length": 4350, "quantity": 2, "joint": "scarf"}],
    )
    found: PlanFile = json.loads(plan_json(plan(asked, effort=Effort(Budget(work=0)))))
    return found


def damaged(change: Callable[[PlanFile], None]) -> PlanFile:
    """Return the sound plan with one change."""
    made = copy.deepcopy(sound_plan())
    change(made)
    return made


def piece(made: PlanFile, name: str) -> Any:
    """Return the piece of that id."""
    return next(item for item in made["pieces"] if item["id"] == name)


def move(item: Any, x: float, y: float) -> None:
    """Move a piece on its sheet, all of its figures alike."""
    for ring in (item["outline"], *item["holes"]):
        ring[:] = [[a + x, b + y] for a, b in ring]
    item["x"] += x
    item["y"] += y


def sheet(made: PlanFile, stock: str) -> Any:
    """Return the first used sheet of a stock."""
    return next(used for used in made["used"] if used["stock"] == stock)


def off_the_sheet(made: PlanFile) -> None:
    """Move a piece over the edge."""
    move(piece(made, "seat-1-1"), 5000, 0)


def onto_another(made: PlanFile) -> None:
    """Lay a piece where another lies."""
    one, other = piece(made, "seat-1-1"), piece(made, "seat-2-1")
    one["on"] = other["on"]
    move(one, other["x"] - one["x"] + 1, other["y"] - one["y"])


def wider_kerf(made: PlanFile) -> None:
    """Ask for a saw wider than any gap left."""
    made["job"]["workshop"]["kerf"]["sheet"] = 500


def knot_under_a_piece(made: PlanFile) -> None:
    """Put a fault under the first corner of the transom."""
    x, y = piece(made, "transom-1-1")["outline"][0]
    sheet(made, "old")["faults"].append([[x - 9, y - 9], [x + 9, y - 9], [x + 9, y + 9], [x - 9, y + 9]])


def dropped(made: PlanFile) -> None:
    """Leave out a piece."""
    made["pieces"].remove(piece(made, "seat-2-1"))


def half_a_panel(made: PlanFile) -> None:
    """Leave out one of the two pieces of a side."""
    made["pieces"].remove(piece(made, "side-2-2"))


def wrong_hand(made: PlanFile) -> None:
    """Say that a starboard piece is not mirrored."""
    piece(made, "side-2-1")["mirrored"] = False


def hole_forgotten(made: PlanFile) -> None:
    """Cut the transom without its hole."""
    piece(made, "transom-1-1")["holes"] = []


def short_lap(made: PlanFile) -> None:
    """Ask for a longer bevel than the pieces have wood for."""
    made["job"]["joints"]["scarf"]["slope"] = 9


def joint_in_a_zone(made: PlanFile) -> None:
    """Forbid joints where one is."""
    made["job"]["panels"][0]["no_joint"] = [[0, 2999]]


def more_than_there_is(made: PlanFile) -> None:
    """Take the number of lengths below what is used."""
    made["job"]["lengths"][0]["available"] = 1


def timber_too_short(made: PlanFile) -> None:
    """Shorten a length below what is cut from it."""
    sheet(made, "spruce")["length"] = 100


def timber_overlaps(made: PlanFile) -> None:
    """Cut a second piece from where another was cut."""
    one, other = (item for item in made["pieces"] if item["id"] in ("gunwale-1-1", "gunwale-2-1"))
    one["on"], one["from"], one["to"] = other["on"], other["from"] + 1, other["from"] + 1 + one["to"] - one["from"]


def strip_too_short(made: PlanFile) -> None:
    """Cut a piece of a strip a millimetre short."""
    piece(made, "gunwale-2-1")["to"] -= 1


def through_the_width(made: PlanFile) -> None:
    """Ask for laps that are taken from the width of the strips."""
    made["job"]["strips"][0]["scarf_across"] = "width"


def strip_in_a_zone(made: PlanFile) -> None:
    """Let no joint lie anywhere on the strips."""
    made["job"]["strips"][0]["no_joint"] = [[0, 4350]]


def strip_joined_too_near(made: PlanFile) -> None:
    """Ask for pieces that are longer than half a strip."""
    made["job"]["strips"][0]["least_piece"] = 2200


def knot_in_a_length(made: PlanFile) -> None:
    """Put a fault where every length is cut."""
    made["job"]["lengths"][0]["faults"] = [[200, 210]]


def dearer(made: PlanFile) -> None:
    """Raise a price, but not what is paid."""
    made["job"]["sheets"][0]["price"] = "84.01"


def cheaper_joint(made: PlanFile) -> None:
    """Lower the cost of a joint, but not the sum."""
    made["joints"][0]["cost"] = "0.00"


def bound_too_high(made: PlanFile) -> None:
    """Raise the bound above what the plan itself costs."""
    made["totals"]["bound"] = "9999.00"


DAMAGES = [
    (off_the_sheet, "seat-1-1 is not within S"),
    (onto_another, "seat-1-1 and seat-2-1 are not a kerf apart"),
    (wider_kerf, "are not a kerf apart"),
    (knot_under_a_piece, "transom-1-1 lies on a fault"),
    (dropped, "seat 2: its pieces don't make up its outline"),
    (half_a_panel, "side 2: its pieces don't make up its outline"),
    (wrong_hand, "side 2: its pieces don't make up its outline"),
    (hole_forgotten, "transom 1: its pieces don't make up its outline"),
    (short_lap, "is not a full lap of 54"),
    (joint_in_a_zone, "reaches into a no-joint zone"),
    (more_than_there_is, "of spruce are used"),
    (timber_too_short, "is too short"),
    (timber_overlaps, "are not a kerf apart"),
    (strip_too_short, "gunwale 2 comes out 4349.000 long"),
    (through_the_width, "is not told to be joined by laps of "),
    (strip_in_a_zone, "gunwale 1 has a joint in a no-joint zone"),
    (strip_joined_too_near, "gunwale 1 has joints less than 2200 apart or from an end"),
    (knot_in_a_length, "lies on a fault"),
    (dearer, "to pay: "),
    (cheaper_joint, "the objective does not add up"),
    (bound_too_high, "the bound is above the objective"),
]


def told(made: PlanFile, folder: Path) -> str:
    """Return what is wrong with a plan file, each on its line."""
    file = folder / "plan.json"
    file.write_text(json.dumps(made), encoding="utf-8")
    return "\n".join(faults(file))


def test_nothing_is_wrong_with_a_sound_plan(tmp_path: Path) -> None:
    """It has pieces of every sort that the damages below need."""
    made = sound_plan()
    assert {used["stock"] for used in made["used"]} == {"ply", "old", "spruce"}
    assert len(made["joints"]) == 4
    assert told(made, tmp_path) == ""


@pytest.mark.parametrize(("damage", "expected"), DAMAGES, ids=[damage.__name__ for damage, _ in DAMAGES])
def test_each_damage_is_found(damage: Callable[[PlanFile], None], expected: str, tmp_path: Path) -> None:
    """And told by name."""
    assert expected in told(damaged(damage), tmp_path)


def test_wood_that_only_touches_does_not_overlap(tmp_path: Path) -> None:
    """Without a kerf, long edges lie on one another to within a hair: that is no fault."""
    asked = job(panel("plank", 2400, 100.1, quantity=6), workshop={"kerf": 0})
    made = json.loads(plan_json(plan(asked, effort=Effort(Budget(work=0)))))
    assert told(made, tmp_path) == ""
