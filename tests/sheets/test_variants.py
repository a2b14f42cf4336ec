"""Ways to make a panel."""

import pytest
from hypothesis import given, settings
from shapely.geometry import Polygon

from nesting.joints import Reach, stations_hold
from nesting.sheets.parts import Part, part_of
from nesting.sheets.stations import station_tuples
from nesting.sheets.stock import serving, stock_of
from nesting.sheets.variants import variants_of
from tests.jobs import PLY, job, panel
from tests.strategies import reaches


def part(**more: object) -> tuple[Part, object]:
    """Return the only panel of a job, 4900 x 300 unless said otherwise."""
    asked = job(panel("side", more.pop("length", 4900), 300, **more))  # type: ignore[arg-type]
    return part_of(0, asked.panels[0], serving(stock_of(asked), asked, asked.panels[0]), asked), asked


@given(reaches())
def test_all_station_tuples_keep_the_rules(reach: Reach) -> None:
    """Whatever zones, laps and lengths: nothing is proposed that would be refused."""
    assert all(stations_hold(stations, reach) for stations in station_tuples(reach, [reach.usable]))


def test_a_panel_that_fits_stays_whole() -> None:
    """It is not divided without need, even if it might be."""
    made, asked = part(length=2400, joint="scarf")
    (variant,) = variants_of(made, asked)  # type: ignore[arg-type]
    assert variant.stations == ()
    assert variant.joint_cost == 0


def test_a_long_panel_is_divided_with_the_fewest_joints_first() -> None:
    """4900 with laps of 48 from 2420: two joints, since 2 x 2420 - 48 = 4792 (computed)."""
    made, asked = part(joint="scarf")
    variants = variants_of(made, asked)  # type: ignore[arg-type]
    assert len(variants[0].stations) == 2
    assert {len(v.stations) for v in variants} == {2, 3}


def test_each_hand_has_its_own_pieces_mirrored() -> None:
    """A starboard piece is the port one with its offsets reversed."""
    made, asked = part(length=3000, joint="scarf", handed=True, quantity=2)
    pieces = variants_of(made, asked)[0].pieces  # type: ignore[arg-type]
    port = [p.item for p in pieces if p.hand == "port"]
    starboard = [p.item for p in pieces if p.hand == "starboard"]
    assert [item.mirrored for item in (*port, *starboard)] == [False, False, True, True]
    assert all(one.polygon is other.polygon for one, other in zip(port, starboard, strict=True))


def test_a_joint_costs_by_the_width_of_the_panel_there() -> None:
    """2.00 and 6.00 a metre on 300 mm: 3.80."""
    made, asked = part(length=3000, joint="scarf")
    assert variants_of(made, asked)[0].joint_cost == 380  # type: ignore[arg-type]


def test_the_place_where_a_full_sheet_ends_is_among_the_stations() -> None:
    """Half a lap short of the usable length, from either end."""
    made, asked = part(length=3000, joint="scarf")
    stations = [v.stations for v in variants_of(made, asked)]  # type: ignore[arg-type]
    assert (2396.0,) in stations
    assert (604.0,) in stations


@settings(max_examples=20)
@given(reaches())
def test_a_member_that_needs_no_joint_gets_none(reach: Reach) -> None:
    """The only tuple is then the empty one."""
    if reach.end - reach.start <= reach.usable:
        assert station_tuples(reach, [reach.usable]) == [()]


def test_a_panel_too_wide_for_every_sheet_has_no_variant() -> None:
    """Dividing along its length does not help."""
    asked = job(panel("floor", 3000, 1300, joint="scarf"), sheets=(PLY,))
    made = part_of(0, asked.panels[0], serving(stock_of(asked), asked, asked.panels[0]), asked)
    assert variants_of(made, asked) == ()
    assert made.shape.equals(Polygon([(0, 0), (3000, 0), (3000, 1300), (0, 1300)]))


@pytest.mark.parametrize(("grain", "angles"), [("along", (0,)), ("across", (90,)), ("any", (0, 90))])
def test_a_rectangle_is_tried_only_at_angles_at_which_it_differs(grain: str, angles: tuple[int, ...]) -> None:
    """Half a turn changes nothing about it."""
    asked = job(panel("shelf", 300, 200, grain=grain))
    made = part_of(0, asked.panels[0], serving(stock_of(asked), asked, asked.panels[0]), asked)
    assert variants_of(made, asked)[0].pieces[0].item.angles == angles


def test_a_joint_where_a_full_sheet_ends_is_tried_from_either_end() -> None:
    """4300 with one lap of 48: a joint from 1904 to 2396; a piece of 2200 ends half a lap behind 2176, or 2124."""
    reach = Reach(start=0, end=4300, lap=48, usable=2420, least_piece=450)
    tuples = station_tuples(reach, [2420, 2200])
    assert {(2176.0,), (2124.0,), (1904.0,), (2396.0,)} <= set(tuples)
    assert not {(2176.0,), (2124.0,)} & set(station_tuples(reach, [2420]))
