"""Panels divided at butts, with a strap cut for each."""

from collections import Counter
from typing import Any

import pytest
from hypothesis import given, reject, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon

from nesting.effort import Budget, Effort
from nesting.joints import between
from nesting.model import Job, Joint, JointRule, NoPlanError, PanelPiece, Share, StrapPiece
from nesting.outlines import moved, polygon, turned
from nesting.sheets import panel_problems, sheet_plans
from nesting.sheets.parts import part_of
from nesting.sheets.refusing import stock_ran_out
from nesting.sheets.stock import stock_of
from nesting.sheets.variants import variants_of
from tests.jobs import BUTT, PLY, job, panel
from tests.strategies import panel_corners, tenths


def first(asked: Job) -> Share:
    """Return the first share found."""
    return next(sheet_plans(asked, seed=0, effort=Effort(Budget())))


def straps_of(share: Share) -> dict[str, StrapPiece]:
    """Return the straps by the joint that they cover."""
    return {piece.joint: piece for piece in share.pieces if isinstance(piece, StrapPiece)}


def in_panels_frame(piece: PanelPiece | StrapPiece) -> Polygon:
    """Bring a piece back from its sheet: moved, turned, and last mirrored about the x axis, each the other way."""
    back = turned(moved(Polygon(piece.outline), -piece.x, -piece.y), -piece.angle)
    return turned(back, 0, mirrored=piece.mirrored)


def long_panel(points: list[tuple[float, float]], **more: Any) -> dict[str, Any]:
    """Return a panel with a butt and that outline."""
    return panel("side", 1, 1, joint="butt", **more) | {"outline": {"points": [list(point) for point in points]}}


@pytest.mark.parametrize(
    ("thickness", "length"),
    [(9, 135), (12, 180)],  # trade guidance: a strap is 15 x the thickness long
)
def test_a_strap_is_fifteen_times_the_thickness_long(thickness: float, length: float) -> None:
    """Values of the trade: as the rule has it, and as it is cut."""
    assert JointRule(kind="butt").strap_length(thickness) == length
    ply = {**PLY, "thickness": thickness}
    share = first(job({**panel("side", 3000, 300, joint="butt"), "thickness": thickness}, sheets=(ply,)))
    (strap,) = straps_of(share).values()
    west, south, east, north = in_panels_frame(strap).bounds
    assert (east - west, north - south) == pytest.approx((length, 300))


def test_a_butt_is_told_with_its_strap_and_the_pieces_that_meet() -> None:
    """3000 x 300 in 6 mm, strap 15 x 6 = 90; 1.00 and 4.00 a metre on 300 mm is 2.20 (computed)."""
    share = first(job(panel("side", 3000, 300, joint="butt")))
    (joint,), (strap,) = share.joints, straps_of(share).values()
    assert (joint.kind, joint.lap, joint.slope, joint.strap, joint.thickness) == ("butt", 0, None, 90, 6)
    assert (joint.id, joint.pieces, str(joint.cost)) == ("side-1/J1", ("side-1-1", "side-1-2"), "2.20")
    assert (strap.id, strap.part, strap.copy_number, strap.hand) == ("side-1/J1/strap", "side", 1, "")


def test_a_measured_sheet_decides_the_length_of_the_strap() -> None:
    """Sold as 6 and 6.2 thick: 15 x 6.2 = 93."""
    share = first(job(panel("side", 3000, 300, joint="butt"), sheets=({**PLY, "measured": 6.2},)))
    assert share.joints[0].strap == pytest.approx(93)


@settings(max_examples=25)
@given(
    panel_corners(),
    st.booleans(),
    st.sampled_from(["along", "across", "any"]),
    st.lists(tenths(200, 3000), max_size=1),
)
def test_pieces_and_straps_make_up_each_panel(
    edges: tuple[list[tuple[float, float]], list[tuple[float, float]]], handed: bool, grain: str, zones: list[float]
) -> None:
    """Whatever the shape: pieces meet at each butt, and a strap, turned over, is the panel's own shape behind it."""
    points = [*edges[0], *edges[1][::-1]]
    side = long_panel(points, quantity=2, handed=handed, grain=grain, no_joint=[[zone, zone + 50] for zone in zones])
    asked = job(side, sheets=({**PLY, "size": [900, 1220]},))
    try:
        share = first(asked)
    except NoPlanError:
        reject()
    shape, straps = polygon(asked.panels[0].outline), straps_of(share)
    pieces = [piece for piece in share.pieces if isinstance(piece, PanelPiece)]
    assert straps.keys() == {joint.id for joint in share.joints}
    assert sum(in_panels_frame(piece).area for piece in pieces) == pytest.approx(2 * shape.area)
    for joint in share.joints:
        covers(straps[joint.id], joint, shape)
        keeps_off(joint, zones)
        of_its_copy = [piece for piece in pieces if piece.copy_number == joint.copy_number]
        assert {piece.hand for piece in of_its_copy} == {straps[joint.id].hand}
        assert all(piece.mirrored is not straps[joint.id].mirrored for piece in of_its_copy)


def covers(strap: StrapPiece, joint: Joint, shape: Polygon) -> None:
    """Assert that a strap is the panel's own shape, half a strap to either side of its butt."""
    behind = between(shape, joint.station - 45, joint.station + 45)
    assert behind.symmetric_difference(in_panels_frame(strap)).area < 1e-3


def keeps_off(joint: Joint, zones: list[float]) -> None:
    """Assert that half a strap is kept from zones 50 long."""
    assert all(joint.station + 45 <= zone + 1e-6 or joint.station - 45 >= zone + 50 - 1e-6 for zone in zones)


def test_a_strap_avoids_a_fault_that_its_panel_may_show() -> None:
    """Neither face of a panel is seen, so its pieces may take the knots; its strap may not."""
    knots = [{"points": [[x, 0], [x + 10, 0], [x + 10, 1220], [x, 1220]], "side": "back"} for x in range(60, 2440, 80)]
    hidden = panel("side", 3000, 300, joint="butt", shows="none")
    clear = {**PLY, "name": "clear", "size": [320, 500], "price": "20.00"}
    share = first(job(hidden, sheets=({**PLY, "faults": knots}, clear)))
    (strap,) = straps_of(share).values()
    stock = {used.id: used.stock for used in share.used}
    assert stock[strap.on] == "clear"
    assert {stock[piece.on] for piece in share.pieces if isinstance(piece, PanelPiece)} == {"ply"}


def test_a_panel_that_can_only_be_butted_goes_into_no_blank() -> None:
    """Where only blanks are allowed it says why, and what would help."""
    (problem,) = panel_problems(job(panel("side", 3000, 300, joint="butt"), workshop={"way": "joined"}))
    assert problem.code == "no-blank"
    assert "its joint is a butt" in problem.reason
    assert "with 1 joint" in problem.remedy


def test_a_strap_too_long_for_the_free_stretch_is_named() -> None:
    """Free are 300 between two zones: room for a strap of 15 x 6 = 90, and none for one of 60 x 6 = 360."""
    side = panel("side", 4000, 300, joint="butt", no_joint=[[0, 1600], [1900, 4000]])
    assert panel_problems(job(side)) == ()
    (problem,) = panel_problems(job(side, joints={"butt": {**BUTT, "strap": 60}}))
    assert problem.code == "no-station"
    assert "the longest piece 2420.0 and each strap 360; no-joint zones" in problem.reason
    assert "start the no-joint zone 1900 to 4000 at 1960 (60 later), with 1 joint" in problem.remedy


def test_straps_that_find_no_room_are_told_apart_from_pieces() -> None:
    """A strap of 90 x 300 is 0.03 m2 (computed)."""
    asked = job(panel("side", 3000, 300, joint="butt"))
    stocks = stock_of(asked)
    made = variants_of(part_of(0, asked.panels[0], stocks, asked), asked)[0].pieces
    (strap,) = (kind for kind in made if kind.is_strap)
    (of_strap,) = stock_ran_out(asked, Counter([strap]), stocks)
    (of_all,) = stock_ran_out(asked, Counter(made), stocks)
    assert "stock ran out: 1 of its straps, 0.03 m2 net, found no room" in of_strap.reason
    assert "stock ran out: 2 of its pieces and 1 of its straps, 0.93 m2 net" in of_all.reason


def test_a_divided_panel_comes_from_sheets_even_beside_a_blank_with_room() -> None:
    """Scarfs at 30.00 each, so that five sides share those of blanks; the butted panel can only be divided."""
    dear = {"slope": 8, "least_piece": 300, "cost": {"each": "30.00"}}
    sides = panel("side", 4000, 170, joint="scarf", quantity=5)
    asked = job(sides, panel("butted", 2600, 200, joint="butt", quantity=2), joints={"scarf": dear, "butt": BUTT})
    *_, share = sheet_plans(asked, seed=2, effort=Effort(Budget(work=600)))
    on_blanks = [piece for piece in share.pieces if piece.on in {blank.id for blank in share.blanks}]
    assert {piece.part for piece in on_blanks} == {"side"}
    assert len(straps_of(share)) == 2
