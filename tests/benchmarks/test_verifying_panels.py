"""Plans of panels with joints are checked without what made them."""

import json
from collections.abc import Callable
from dataclasses import replace

import pytest
from shapely import affinity
from shapely.geometry import Polygon, box

from benchmarks.data import Panel, PanelsInstance, SmallPart, StockSheet
from benchmarks.verifying import JoinedAt, PanelPiece, PanelsPlan, panels_faults, plan_from_file
from nesting.effort import Budget, Effort
from nesting.files import plan_json
from nesting.planner import plan as planned
from tests.jobs import PLY, job, panel

SIDE = Panel("side", ((0, 0), (3000, 0), (3000, 200), (0, 300)), 2, ((2000, 2400),), 450, ("deck",), "m", False)
DECK = Panel("deck", ((0, 0), (3000, 0), (3000, 100), (0, 100)), 1, (), 450, ("side",), None, False)
SEAT = SmallPart("seat", ((0, 0), (400, 0), (400, 250), (0, 250)), 1, (0, 90, 270))

#: Sides joined at 1500 (lap 48: bands from 1476 to 1524), the deck at 1000.
INSTANCE = PanelsInstance(
    "ours", "ours", thickness=6, slope=8, lap=48, kerf=6, trim=10, shift=500, joint_each=4, joint_per_mm=0.012,
    stock=(StockSheet("whole", 2440, 1220, 58, 2),), panels=(SIDE, DECK), parts=(SEAT,), study={},
)  # fmt: skip


def cut(part: Panel | SmallPart, copy: int, sheet: int, start: float, end: float, x: float, y: float) -> PanelPiece:
    """Return the piece of a part between two stations, as drawn, moved by (x, y)."""
    share = Polygon(part.outline).intersection(box(start, -1, end, 1000))
    return PanelPiece(part.name, copy, sheet, affinity.translate(share, x, y), 0, x, y)


def turned(part: SmallPart, copy: int, sheet: int, x: float, y: float) -> PanelPiece:
    """Return a whole part turned by 90 degrees, moved by (x, y)."""
    shape = affinity.translate(affinity.rotate(Polygon(part.outline), 90, origin=(0, 0)), x, y)
    return PanelPiece(part.name, copy, sheet, shape, 90, x, y)


PIECES = (
    cut(SIDE, 1, 0, 0, 1524, 10, 10),
    cut(SIDE, 1, 0, 1476, 3000, -1466, 316),
    cut(SIDE, 2, 0, 0, 1524, 10, 622),
    cut(SIDE, 2, 1, 1476, 3000, -1466, 10),
    cut(DECK, 1, 1, 0, 1024, 10, 316),
    cut(DECK, 1, 1, 976, 3000, -966, 422),
    turned(SEAT, 1, 1, 260, 528),
)
JOINTS = (JoinedAt("side", 1, 1500), JoinedAt("side", 2, 1500), JoinedAt("deck", 1, 1000))

#: The chord of a side at 1500 is 250, that of the deck 100.
COST = 2 * 58 + 3 * 4 + 0.012 * (250 + 250 + 100)
PLAN = PanelsPlan(("whole", "whole"), PIECES, JOINTS, COST)


def test_a_sound_plan_of_panels() -> None:
    """Pieces of every sort, at their least gap and at the trim."""
    assert panels_faults(INSTANCE, PLAN) == []


def moved(index: int, x: float, y: float) -> PanelsPlan:
    """Return the plan with one piece moved."""
    old = PIECES[index]
    new = replace(old, outline=affinity.translate(old.outline, x, y), x=old.x + x, y=old.y + y)
    return replace(PLAN, pieces=(*PIECES[:index], new, *PIECES[index + 1 :]))


@pytest.mark.parametrize(
    ("plan", "told"),
    [
        (replace(PLAN, sheets=("whole",) * 3), "3 sheets whole are used, 2 are there"),
        (moved(0, -1, 0), "sheet 0: side 1 is not within it"),
        (moved(4, 0, 1), "sheet 1: deck 1 and deck 1 are not a kerf apart"),
        (replace(PLAN, pieces=PIECES[:-1]), "seat: 0 copies are there, not 1"),
        (
            replace(PLAN, pieces=PIECES[1:]),
            "side 1: its pieces are not its outline divided at its joints with full laps",
        ),
        (
            replace(PLAN, pieces=(cut(SIDE, 1, 0, 0, 1523, 10, 10), *PIECES[1:])),
            "side 1: its pieces are not its outline divided at its joints with full laps",
        ),
        (
            replace(PLAN, pieces=(replace(PIECES[0], mirrored=True), *PIECES[1:])),
            "side 1 lies at an angle or on a face that is not allowed",
        ),
        (
            replace(PLAN, pieces=(*PIECES[:-1], replace(PIECES[-1], angle=45))),
            "seat 1 lies at an angle or on a face that is not allowed",
        ),
        (replace(PLAN, pieces=(*PIECES, replace(PIECES[-1], part="oar"))), "oar is not asked for"),
        (
            replace(PLAN, joints=(JOINTS[0], JoinedAt("side", 2, 1501), JOINTS[2])),
            "side and side, copy 2, are matched but joined at other stations",
        ),
        (replace(PLAN, joints=(*JOINTS, JoinedAt("seat", 1, 200))), "seat is joined"),
        (replace(PLAN, cost=COST - 1), f"it costs {COST:.2f}, not {COST - 1:.2f}"),
    ],
)
def test_each_damage_to_a_plan_of_panels_is_told(plan: PanelsPlan, told: str) -> None:
    """Stock, trim, kerf, quantity, outline, lap, face, angle, match, cost."""
    matched = (SIDE, replace(SIDE, name="twin", quantity=0), DECK)
    instance = INSTANCE if "matched" not in told else replace(INSTANCE, panels=matched)
    assert told.replace("side and side", "side and twin") in panels_faults(instance, plan)


@pytest.mark.parametrize(
    ("changes", "told"),
    [
        ({"shift": 501}, "side and deck are joined at 1500 and 1000, not 501 apart"),
        ({"kerf": 6.01}, "sheet 1: deck 1 and deck 1 are not a kerf apart"),
        ({"trim": 10.01}, "sheet 0: side 1 is not within it"),
        (
            {"panels": (replace(SIDE, no_joint=((1523, 2400),)), DECK)},
            "side 1: the joint at 1500 reaches into a no-joint zone",
        ),
        ({"panels": (SIDE, replace(DECK, least_piece=1001))}, "deck 1: a piece is shorter than 1001"),
    ],
)
def test_rules_a_hair_tighter_are_broken_by_panels(changes: dict[str, object], told: str) -> None:
    """The plan keeps each of them exactly."""
    assert told in panels_faults(replace(INSTANCE, **changes), PLAN)


def test_a_scarf_of_a_blank_is_paid_once_over_its_width() -> None:
    """However many panels it joins."""
    shared = tuple(replace(joint, scarf="S1") for joint in JOINTS[:2])
    cost = 2 * 58 + (4 + 0.012 * 1200) + (4 + 0.012 * 100)
    plan = PanelsPlan(PLAN.sheets, PIECES, (*shared, JOINTS[2]), cost, {"S1": 1200})
    assert panels_faults(INSTANCE, plan) == []


def from_file(change: Callable[[dict[str, object]], None] = lambda _: None) -> PanelsPlan:
    """Plan the panels of the instance with the library; return what its plan file says."""
    sheet = {**PLY, "name": "whole", "thickness": 6, "size": [2440, 1220], "price": 58}
    rules = {"thickness": 6, "joint": "scarf"}
    side = {**panel("side", 3000, 300, quantity=2, **rules), "outline": {"points": SIDE.outline}}
    asked = job(
        {**side, "no_joint": [[2000, 2400]]},
        panel("deck", 3000, 100, **rules),
        panel("seat", 400, 250, thickness=6),
        sheets=(sheet,),
        workshop={"kerf": 6, "trim": 10},
        joints={"scarf": {"slope": 8, "least_piece": 450, "cost": {"each": 4, "per_m": 12}}},
        neighbours=[{"between": ["side", "deck"], "shift": 500}],
    )
    told = json.loads(plan_json(planned(asked, effort=Effort(Budget(work=0)))))
    change(told)
    return plan_from_file(told)


def test_a_plan_of_the_library_is_sound_by_the_rules_of_the_study() -> None:
    """Read from its file alone."""
    plenty = replace(INSTANCE, stock=(replace(INSTANCE.stock[0], available=None),))
    assert panels_faults(plenty, from_file()) == []


def test_a_plan_with_blanks_is_refused() -> None:
    """Its file does not say how wide their scarfs are."""
    with pytest.raises(ValueError, match="says nothing of the width"):
        from_file(lambda told: told.update(blanks=[{}]))
