"""Panels wider than any sheet, cut from sheets scarfed edge to edge as well as end to end."""

from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import union_all
from shapely.geometry import Polygon, box

from nesting.auditing import audit
from nesting.effort import Budget, Effort
from nesting.model import Job, Plan
from nesting.planner import plan
from nesting.sheets.joined import joined_variants
from nesting.sheets.stock import LAP, SEAM
from nesting.sheets.tasks import tasks_of
from tests.jobs import PLY, job, panel

INCH = 25.4


def planned(asked: Job, work: int = 600) -> Plan:
    """Return a plan; it has passed the audit."""
    return plan(asked, effort=Effort(Budget(work=work)))


def river_boat_floor(layers: int) -> Job:
    """Return one or more layers of the floor: 5 ft 1 in x 15 ft 9 in of 3/8 in, scarfed 8:1, sheets of 4 x 8 ft.

    A boatbuilder's blog of 2012 tells of two layers, each of two sheets end to end and two third-sheets, 16 in wide, on
    the edge, and of 42 ft of scarf in all: 2 x (5 ft 1 in across + 2 x 8 ft along) = 42.17 ft (computed).
    """
    return Job.model_validate(
        {
            "units": "in",
            "workshop": {"kerf": 0, "trim": 0, "way": "joined", "keep_from": [24, 12]},
            "joints": {"scarf": {"slope": 8, "cost": {"each": "1.00", "per_m": "2.00"}}},
            "sheets": [{"name": "ply", "material": "fir", "thickness": 0.375, "size": [96, 48], "price": "50.00"}],
            "panels": [
                {
                    "name": "floor",
                    "material": "fir",
                    "thickness": 0.375,
                    "outline": {"rectangle": [189, 61]},
                    "quantity": layers,
                    "joint": "scarf",
                }
            ],
        }
    )


def test_the_river_boat_floor_comes_from_two_sheets_and_two_third_sheets() -> None:
    """One layer: 96 + 96 - 3 = 189 in long, 48 + 16 - 3 = 61 in wide, half of the 42.17 ft of scarf."""
    made = planned(river_boat_floor(1))
    (blank,) = made.blanks
    sizes = sorted((round(p.bounds[2] - p.bounds[0], 6), round(p.bounds[3] - p.bounds[1], 6)) for p in members(made))
    whole, third = (96 * INCH, 48 * INCH), (96 * INCH, 16 * INCH)
    assert sizes == [pytest.approx(size) for size in (third, third, whole, whole)]
    assert Polygon(blank.outline).bounds == pytest.approx((0, 0, 189 * INCH, 61 * INCH))
    assert sum(scarf.width for scarf in blank.scarfs) == pytest.approx(42.17 / 2 * 12 * INCH, abs=0.01 * 12 * INCH)
    assert made.totals.sheets == 3
    assert [joint.station for joint in made.joints] == [pytest.approx(94.5 * INCH)]


def test_both_layers_of_the_river_boat_floor_take_six_sheets() -> None:
    """Each layer has a third-sheet to spare, which is kept; 42.17 ft of scarf in all."""
    made = planned(river_boat_floor(2), work=3000)
    assert made.totals.sheets == 6
    widths = sum(scarf.width for blank in made.blanks for scarf in blank.scarfs)
    assert widths == pytest.approx(42.17 * 12 * INCH, abs=0.01 * 12 * INCH)
    assert made.totals.joint_cost == 2 * (Decimal("4.10") + 2 * Decimal("5.88"))  # 1 + 2 x 1.5494, 1 + 2 x 2.4384


def test_a_panel_shorter_than_a_sheet_is_joined_along_only() -> None:
    """1.5 m square from two sheets side by side: one scarf, along, of which no joint of the panel tells."""
    made = planned(job(panel("table", 1500, 1500, joint="scarf")))
    (blank,) = made.blanks
    assert [(scarf.runs, scarf.at, scarf.width) for scarf in blank.scarfs] == [("along", 1200 - 24, 2420)]
    assert made.joints == ()
    assert made.totals.joint_cost == Decimal("16.52")  # 2.00 + 6.00 x 2.42


def test_a_wide_panel_that_fits_between_two_scarfs_keeps_off_them() -> None:
    """Over a scarf across the blank it lies only with its joint there; over those along it in any case."""
    asked = job(panel("floor", 1500, 1500, joint="scarf"), workshop={"way": "joined"})
    variants = joined_variants(tasks_of(asked)[0].parts[0], asked)
    assert {bool(variant.stations) for variant in variants} == {True, False}
    for variant in variants:
        avoids = variant.pieces[0].item.avoids
        assert (LAP in avoids) == (not variant.stations)
        assert SEAM not in avoids


def test_small_parts_come_from_the_strip_that_is_left_of_a_ripped_sheet() -> None:
    """A floor 1500 wide takes a third of a sheet beside a whole one: cleats lie on the rest of it."""
    made = planned(job(panel("floor", 2300, 1500, joint="scarf"), panel("cleat", 2300, 200, quantity=3)))
    assert made.totals.sheets == 2
    ripped = made.blanks[0].members[-1].used
    assert {piece.on for piece in made.pieces if piece.id.startswith("cleat")} <= {ripped, made.blanks[0].id}


def test_every_wide_panel_has_blanks_of_its_own() -> None:
    """Three of different heights and lengths, from two lengths of sheet: what serves one serves no other."""
    long = {**PLY, "name": "long", "size": [3100, 1220], "price": "120.00"}
    three = [(3186, 2195), (2698, 2745), (5097, 1959)]
    floors = [panel(f"floor {k}", *size, joint="scarf") for k, size in enumerate(three)]
    (task,) = tasks_of(job(*floors, sheets=(PLY, long), workshop={"way": "joined", "allowance": 3}))
    assert all(task.variants)


def test_narrow_panels_keep_off_the_scarfs_of_a_wide_blank() -> None:
    """Only what is wider than any sheet lies over a scarf that runs along."""
    (task,) = tasks_of(
        job(
            panel("floor", 4000, 1500, joint="scarf"),
            panel("side", 4000, 300, joint="scarf"),
            workshop={"way": "joined"},
        )
    )
    wide = {stock.index for stock in task.stocks if stock.blank is not None and stock.blank.seams}
    for variant in task.variants[1]:
        assert all(not kind.item.lines or not kind.stocks & wide for kind in variant.pieces)
    assert all(kind.stocks <= wide for variant in task.variants[0] for kind in variant.pieces)


def members(made: Plan) -> list[Polygon]:
    """Return what goes into blanks, as it is cut from its sheets."""
    return [Polygon(member.outline) for blank in made.blanks for member in blank.members]


@settings(max_examples=6)
@given(
    length=st.integers(600, 5200),
    width=st.integers(1225, 2900),
    side=st.integers(120, 500),
    way=st.sampled_from(["joined", "both"]),
    allowance=st.sampled_from([0, 4]),
)
def test_every_plan_of_a_wide_panel_passes_the_audit(
    length: int, width: int, side: int, way: str, allowance: int
) -> None:
    """A tapering panel wider than a sheet beside a long narrow one; its members cover its blank, lap upon lap."""
    taper = {"points": [[0, 0], [length, 100], [length, width - 100], [0, width]]}
    wide = {**panel("floor", length, width, joint="scarf"), "outline": taper}
    made = planned(
        job(wide, panel("side", 3000, side, joint="scarf"), workshop={"way": way, "allowance": allowance}), 80
    )
    assert audit(made, made.job) == ()
    assert made.totals.bound <= made.totals.objective
    for blank in made.blanks:
        there = [box(*_moved(Polygon(m.outline).bounds, m.x, m.y)) for m in blank.members]
        laps = sum(scarf.lap * scarf.width for scarf in blank.scarfs)
        assert union_all(there).area == pytest.approx(Polygon(blank.outline).area)
        assert sum(one.area for one in there) - laps == pytest.approx(Polygon(blank.outline).area)


def _moved(bounds: tuple[float, ...], x: float, y: float) -> tuple[float, ...]:
    west, south, east, north = bounds
    return west + x, south + y, east + x, north + y
