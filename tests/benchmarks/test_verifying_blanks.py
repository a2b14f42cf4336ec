"""The check that reads nothing but a plan file finds what is wrong with blanks, butts, straps, grain and shift."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from benchmarks.verification import faults
from nesting.files import plan_json
from nesting.model import Plan
from tests.auditing.good_blank_plan import blank_plan
from tests.auditing.good_butt_plan import butt_plan
from tests.auditing.good_plan import good_plan
from tests.auditing.good_wide_plan import wide_plan

PlanFile = dict[str, Any]
Damage = Callable[[PlanFile], Any]


def told(plan: Plan, folder: Path, damage: Damage = lambda made: made) -> str:
    """Return what is wrong with the file of a plan after a change, each on its line."""
    made = json.loads(plan_json(plan))
    damage(made)
    file = folder / "plan.json"
    file.write_text(json.dumps(made), encoding="utf-8")
    return "\n".join(faults(file))


def named(made: PlanFile, kind: str, name: str) -> Any:
    """Return the piece or joint of that id."""
    return next(item for item in made[kind] if item["id"] == name)


def move(item: Any, x: float, y: float) -> None:
    """Move a piece or strap, all of its figures alike."""
    item["outline"] = [[a + x, b + y] for a, b in item["outline"]]
    item["x"] += x
    item["y"] += y


def asked(made: PlanFile, kind: str, name: str) -> Any:
    """Return the panel or sheet of the job of that name."""
    return next(item for item in made["job"][kind] if item["name"] == name)


def blank(made: PlanFile) -> Any:
    """Return the blank."""
    return made["blanks"][0]


def drop(made: PlanFile, kind: str, name: str) -> None:
    """Leave out a piece or joint."""
    made[kind].remove(named(made, kind, name))


BLANKS: list[tuple[str, Damage, str]] = [
    ("short lap", lambda m: blank(m)["members"][1].update(x=2367), "scarfs of B1 are not where its sheets"),
    ("not flush", lambda m: blank(m)["members"][1].update(y=-9), "outline of B1 is not that of its sheets"),
    ("untrimmed", lambda m: blank(m)["members"][1].update(outline=[[0, 0], [2500, 0], [2500, 9]]), "S2 is not laid in"),
    ("turned over", lambda m: blank(m)["members"][1].update(turned_over=True), "S2 is not laid in B1"),
    ("unlike thickness", lambda m: asked(m, "sheets", "long").update(measured=5), "made of unlike sheets"),
    ("a knot", lambda m: asked(m, "sheets", "long")["faults"].append({"side": "back"}), "with faults"),
    ("outline", lambda m: blank(m).update(outline=[[0, 0], [9, 0], [9, 9]]), "outline of B1"),
    ("too long", lambda m: m["job"]["workshop"].update(longest_piece=4855), "B1 is too long"),
    ("scarf place", lambda m: blank(m)["scarfs"][0].update(at=2399), "scarfs of B1 are not where its sheets"),
    ("scarf width", lambda m: blank(m)["scarfs"][0].update(width=1), "scarfs of B1 are not where its sheets"),
    ("scarf cost", lambda m: blank(m)["scarfs"][0].update(cost="9.00"), "B1/F1 does not cost 9.20"),
    ("no scarf", lambda m: blank(m)["scarfs"].clear(), "not each told once"),
    ("sheet twice", lambda m: m["blanks"].append({**blank(m), "id": "B2"}), "S1 is in 2 blanks"),
    ("sheet cut too", lambda m: named(m, "pieces", "floor-1-1").update(on="S1"), "S1 is in a blank and cut on its own"),
    ("divided", lambda m: named(m, "pieces", "floor-1-1").update(of=2), "is no whole panel"),
    ("no joint told", lambda m: drop(m, "joints", "side-1/J1"), "no joint tells that side-1-1"),
    ("slid", lambda m: move(named(m, "pieces", "side-1-1"), 9, 0), "side-1/J1 should be at 2288"),
    ("joint paid", lambda m: named(m, "joints", "side-1/J1").update(cost="1.00"), "should be at 2297 and free"),
    ("off the scarf", lambda m: move(named(m, "pieces", "side-1-1"), 5000, 0), "that B1/F1 does not cross"),
    ("end in the band", lambda m: move(named(m, "pieces", "bottom-1-1"), 2000, 0), "may not lie across B1/F1"),
    ("other rule", lambda m: asked(m, "panels", "bottom").update(joint="flat"), "may not lie across B1/F1"),
    ("in one piece", lambda m: asked(m, "panels", "bottom").update(joint=None), "must be in one piece"),
    ("no such scarf", lambda m: named(m, "joints", "side-1/J1").update(scarf="B7"), "is not where scarf B7 is"),
    ("zone", lambda m: asked(m, "panels", "bottom").update(no_joint=[[0, 1977]]), "reaches into a no-joint zone"),
    ("least piece", lambda m: m["job"]["joints"]["ply"].update(least_piece=1999), "has joints less than 1999 apart"),
    ("shift", lambda m: m["job"]["neighbours"][0].update(shift=300), "side and bottom are less than 300 apart"),
    ("grade", lambda m: asked(m, "sheets", "long").update(grade="exterior"), "thickness or grade than asked"),
    ("edge", lambda m: move(named(m, "pieces", "side-1-1"), 0, -0.5), "side-1-1 is not within B1"),
    ("gap", lambda m: move(named(m, "pieces", "side-2-1"), 0, -0.5), "side-1-1 and side-2-1 are not a kerf apart"),
    ("way", lambda m: m["job"]["workshop"].update(way="divided"), "the workshop works divided only"),
    ("laps", lambda m: m["totals"]["areas"].update(laps=0), "the area of laps is 52800.0"),
    ("joint cost", lambda m: m["totals"].update(objective="169.00"), "the objective does not add up"),
]

BUTTS: list[tuple[str, Damage, str]] = [
    ("no strap", lambda m: drop(m, "pieces", "side-1/J1/strap"), "not one to one"),
    ("not turned", lambda m: named(m, "pieces", "side-1/J1/strap").update(mirrored=False), "is not turned over"),
    ("other copy", lambda m: named(m, "pieces", "side-1/J1/strap").update(copy=2), "is not of its butt's panel"),
    ("other place", lambda m: named(m, "pieces", "side-1/J1/strap").update(x=-500), "outline behind its butt"),
    ("on a knot", lambda m: move(named(m, "pieces", "side-2/J1/strap"), 220, 170), "side-2/J1/strap lies on a fault"),
    ("in the trim", lambda m: move(named(m, "pieces", "side-1/J1/strap"), 1128, 0), "is not within S1"),
    ("nowhere", lambda m: named(m, "pieces", "side-1-1").update(on="S1 "), "cut from nowhere"),
    ("a lap", lambda m: named(m, "joints", "side-1/J1").update(lap=48), "is not the butt of its rule"),
    ("short strap", lambda m: named(m, "joints", "side-1/J1").update(strap=80), "is not the butt of its rule"),
    ("a scarf", lambda m: named(m, "joints", "side-1/J1").update(kind="scarf"), "is not the butt of its rule"),
    ("open", lambda m: named(m, "pieces", "side-1-2").update(x=-1791), "side-1/J1 is not a full lap of 0"),
    ("zone", lambda m: asked(m, "panels", "side").update(no_joint=[[0, 1756]]), "reaches into a no-joint zone"),
    ("uncounted", lambda m: drop(m, "joints", "side-1/J1"), "side 1 has 0 joints between 2 pieces"),
    ("grain", lambda m: asked(m, "panels", "frame").update(grain_tolerance=2.9), "frame-1-1 lies 3 degrees off its"),
    ("across", lambda m: asked(m, "panels", "side").update(grain="across"), "strap lies -90 degrees off its grain"),
    ("way", lambda m: m["job"]["workshop"].update(way="joined"), "the workshop works joined only"),
    ("straps", lambda m: m["totals"]["areas"].update(straps=0), "the area of straps is 46800.0"),
    ("hands", lambda m: named(m, "pieces", "side-1-1").update(hand=""), "is not half port and half starboard"),
]


@pytest.mark.parametrize("make", [good_plan, blank_plan, butt_plan, wide_plan])
def test_nothing_is_wrong_with_good_plans(make: Callable[[], Plan], tmp_path: Path) -> None:
    """Divided, from a blank, with butts, and from sheets scarfed edge to edge."""
    assert told(make(), tmp_path) == ""


@pytest.mark.parametrize(("damage", "expected"), [each[1:] for each in BLANKS], ids=[each[0] for each in BLANKS])
def test_each_damage_of_a_blank_is_found(damage: Damage, expected: str, tmp_path: Path) -> None:
    """And told by name."""
    assert expected in told(blank_plan(), tmp_path, damage)


@pytest.mark.parametrize(("damage", "expected"), [each[1:] for each in BUTTS], ids=[each[0] for each in BUTTS])
def test_each_damage_of_a_butt_is_found(damage: Damage, expected: str, tmp_path: Path) -> None:
    """And told by name."""
    assert expected in told(butt_plan(), tmp_path, damage)


def test_a_shift_is_measured_in_boat_stations(tmp_path: Path) -> None:
    """The floor's own station 1300 is the boat's 1820 by this map, and the side's 1800 is 1900: 500 were asked for."""
    told_of = told(
        good_plan(),
        tmp_path,
        lambda m: asked(m, "panels", "floor").update(boat_stations=[[0, 520], [1000, 1520]]),
    )
    assert told_of == "joints of side and floor are less than 500 apart"
