"""What is promised of panels longer or wider than a sheet, each promise by a plan that two checks have passed."""

import tempfile
from collections.abc import Iterator
from itertools import product
from pathlib import Path
from typing import Any

import pytest
from shapely.geometry import Polygon, box

from benchmarks.verification import faults
from nesting.drawing import draw_sheet, joint_ends, mark_from_end, piece_codes, tape_in
from nesting.effort import Budget, Effort
from nesting.joints import boat_station
from nesting.model import Blank, Job, PanelPiece, Plan
from nesting.planner import plan
from nesting.report import report_files
from tests.jobs import PLY, SCARF, job, panel

WAYS = ("divided", "joined", "both")


def planned(asked: Job, work: int = 300) -> Plan:
    """Return a plan that the audit and the script have found sound."""
    made = plan(asked, effort=Effort(Budget(work=work)))
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "plan.json"
        file.write_text(made.model_dump_json(), encoding="utf-8")
        assert faults(file) == []
    return made


def panel_pieces(made: Plan, name: str) -> list[PanelPiece]:
    """Return all pieces of a panel."""
    return [piece for piece in made.pieces if isinstance(piece, PanelPiece) and piece.part == name]


def under(made: Plan, piece: PanelPiece) -> set[str]:
    """Return the kinds of sheet that a piece is cut from."""
    members = [member.used for blank in made.blanks if blank.id == piece.on for member in blank.members]
    return {used.stock for used in made.used if used.id in (members or [piece.on])}


def test_one_plan_divides_one_panel_and_cuts_another_from_a_blank() -> None:
    """A butted panel can only be divided, one wider than any sheet only come from a blank."""
    made = planned(job(panel("side", 3000, 300, joint="butt"), panel("floor", 3000, 1500, joint="scarf")))
    assert {piece.of for piece in panel_pieces(made, "side")} == {2}
    (floor,) = panel_pieces(made, "floor")
    assert [blank.id for blank in made.blanks] == [floor.on]


@pytest.mark.parametrize("way", WAYS)
def test_the_two_sides_of_a_joint_come_from_different_stock(way: str) -> None:
    """4300 from one sheet of 2420 and one of 2080: 2420 + 2080 - 48 = 4452; there is but one of either."""
    sheets = ({**PLY, "available": 1}, {**PLY, "name": "short", "size": [2100, 1220], "price": "70.00", "available": 1})
    side = panel("side", 4300, 700, joint="scarf", most_joints=1)
    made = planned(job(side, sheets=sheets, workshop={"way": way}))
    assert set().union(*(under(made, piece) for piece in panel_pieces(made, "side"))) == {"ply", "short"}
    assert len(made.joints) == 1


def test_a_blank_is_made_of_strips_of_one_sheet() -> None:
    """3600 x 290 takes two thirds of a sheet: (1200 - 2 x 3) / 3 = 398 wide each, 2420 + 2420 - 48 long."""
    made = planned(job(panel("side", 3600, 290, joint="scarf"), workshop={"way": "joined"}))
    (blank,) = made.blanks
    sizes = [Polygon(member.outline).bounds for member in blank.members]
    assert [(east - west, north - south) for west, south, east, north in sizes] == [pytest.approx((2420, 398))] * 2
    assert Polygon(blank.outline).bounds == pytest.approx((0, 0, 4792, 398))
    assert made.totals.sheets == 1


def test_a_blank_ends_in_half_a_sheet_and_the_other_half_serves() -> None:
    """Two whole sheets are longer than can be handled: 2420 and (2420 - 3) / 2 - 48; the other half holds a shelf."""
    workshop = {"way": "joined", "longest_piece": 4000}
    made = planned(job(panel("deck", 3500, 1150, joint="scarf"), panel("shelf", 1100, 1100), workshop=workshop))
    (blank,) = made.blanks
    lengths = [east - west for west, _, east, _ in (Polygon(member.outline).bounds for member in blank.members)]
    assert lengths == [pytest.approx(2420), pytest.approx(1208.5)]
    (shelf,) = panel_pieces(made, "shelf")
    assert shelf.on == blank.members[1].used
    assert made.totals.sheets == 2


@pytest.mark.parametrize("way", WAYS)
def test_matched_pairs_have_their_joints_at_the_same_stations(way: str) -> None:
    """Port and starboard, all copies, whatever they are cut from."""
    corners = [[0, 0], [3600, 100], [3700, 500], [-80, 420]]
    asked = job(
        {**panel("side", 1, 1, joint="scarf", quantity=4, handed=True), "outline": {"points": corners}},
        panel("bottom", 3300, 700, joint="scarf"),
        workshop={"way": way},
    )
    made = planned(asked)
    stations = {
        copy: sorted(joint.station for joint in made.joints if joint.part == "side" and joint.copy_number == copy)
        for copy in range(1, 5)
    }
    assert len(stations[1]) >= 1
    assert all(each == pytest.approx(stations[1], abs=1e-6) for each in stations.values())
    assert (
        sorted(piece.hand for piece in panel_pieces(made, "side") if piece.index == 1)
        == ["port"] * 2 + ["starboard"] * 2
    )


@pytest.mark.parametrize("way", WAYS)
def test_neighbours_keep_their_joints_apart_along_the_boat(way: str) -> None:
    """Their own stations run 900 apart along the boat: what is apart on the bench is not apart in the boat."""
    rows = [[0, 1000], [1500, 2300], [3900, 4700]]
    asked = job(
        panel("bilge", 3900, 300, joint="scarf", boat_stations=rows),
        panel("sheer", 3900, 280, joint="scarf"),
        neighbours=[{"between": ["bilge", "sheer"], "shift": 400}],
        workshop={"way": way},
    )
    made = planned(asked)
    bilge = [boat_station(joint.station, rows) for joint in made.joints if joint.part == "bilge"]
    sheer = [joint.station for joint in made.joints if joint.part == "sheer"]
    assert bilge
    assert sheer
    assert min(abs(one - other) for one, other in product(bilge, sheer)) >= 400 - 0.001


@pytest.mark.parametrize("way", WAYS)
def test_no_piece_is_shorter_than_the_least(way: str) -> None:
    """4000 takes a joint from 1604 on, to leave 2420 at the most; 1900 from either end asks for 1900 to 2100."""
    side = panel("side", 4000, 300, joint="scarf")
    joints = {"scarf": {**SCARF, "least_piece": 1900}}
    made = planned(job(side, joints=joints, workshop={"way": way}))
    (joint,) = made.joints
    assert 1900 <= joint.station <= 2100


@pytest.mark.parametrize("longest", [None, 2300, 2060])
def test_no_piece_is_longer_than_can_be_handled(longest: float | None) -> None:
    """Of 4000 with one lap of 48: from the sheets alone 1628 to 2420, else from 1748 or 1988 on."""
    side = panel("side", 4000, 300, joint="scarf", quantity=2)
    made = planned(job(side, workshop={"way": "divided", "longest_piece": longest}))
    lengths = [extent(piece) for piece in panel_pieces(made, "side")]
    assert max(lengths) <= (longest or 2420) + 1e-6
    assert min(lengths) >= 4048 - (longest or 2420) - 1e-6


def extent(piece: PanelPiece) -> float:
    """Return how far a piece reaches along the sheet."""
    west, _, east, _ = Polygon(piece.outline).bounds
    return float(east - west)


@pytest.mark.parametrize(
    ("way", "scope", "reason"),
    [
        ("divided", "divided", "joints of pieces"),
        ("joined", "joined", "scarfs of blanks"),
        ("both", "any", "divided or from blanks"),
    ],
)
def test_a_bound_tells_of_which_plans_it_is_and_what_proves_it(way: str, scope: str, reason: str) -> None:
    """Of plans that join panels in a way the job allows; it is above nothing, and the page repeats both."""
    made = planned(job(panel("side", 3600, 300, joint="scarf"), workshop={"way": way}))
    assert made.totals.bound_scope == scope
    assert reason in made.totals.bound_reason
    assert 0 < made.totals.bound <= made.totals.objective
    assert made.totals.bound_reason in report_files(made)["index.html"]


def test_each_part_is_of_its_grade_or_better() -> None:
    """Marine parts come from the dear sheet, the rest from the cheap one, and from what is left of the dear one."""
    exterior = {**PLY, "name": "exterior", "grade": "exterior", "price": "30.00"}
    marine = {**PLY, "name": "marine", "grade": "marine", "price": "90.00"}
    parts = [
        panel("side", 3600, 500, joint="scarf", grade="marine"),
        panel("floor", 2300, 900, quantity=2, grade="exterior"),
        panel("knee", 400, 300, quantity=4),
    ]
    made = planned(job(*parts, sheets=(exterior, marine), grades=["exterior", "marine"]), work=1500)
    assert set().union(*(under(made, piece) for piece in panel_pieces(made, "side"))) == {"marine"}
    assert set().union(*(under(made, piece) for piece in panel_pieces(made, "floor"))) == {"exterior"}
    assert {line.stock for line in made.purchases} == {"exterior", "marine"}


@pytest.mark.parametrize("joint", ["scarf", "butt"])
def test_every_joined_end_has_its_register_marks(joint: str) -> None:
    """On the drawing of its sheet, as far from its end as is told; what has no joint has none."""
    made = planned(
        job(panel("side", 5200, 300, joint=joint, quantity=2), panel("shelf", 700, 300), workshop={"way": "divided"})
    )
    ends, codes = joint_ends(made), piece_codes(made)
    for piece in (piece for piece in made.pieces if isinstance(piece, PanelPiece)):
        drawn = draw_sheet(made, piece.on)
        there = drawn[drawn.index(f"{codes[piece.id]}:") :]
        assert bool(ends[piece.id]) == (piece.part == "side")
        if ends[piece.id]:
            assert 'class="register"' in there or "register" in there
            assert all(mark_from_end(end.joint, tape_in(made)) >= end.joint.lap + 50 for end in ends[piece.id])


@pytest.mark.parametrize(("allowed", "sheets"), [(False, 3), (True, 2)])
def test_small_parts_fill_the_rest_and_cross_no_joint_unless_they_may(allowed: bool, sheets: int) -> None:
    """Beside a side lie three shelves of 1550 on 4792, one of them across the scarf; else two on either side of it."""
    more = {"joint": "scarf"} if allowed else {}
    shelves = [panel(f"shelf {k}", 1550, 560, **more) for k in range(3)]
    made = planned(job(panel("side", 4700, 620, joint="scarf"), *shelves, workshop={"way": "joined"}), work=20_000)
    assert made.totals.sheets == sheets
    crossing = 0
    for piece in (piece for k in range(3) for piece in panel_pieces(made, f"shelf {k}")):
        on = [blank for blank in made.blanks if blank.id == piece.on]
        crossed = any(Polygon(piece.outline).intersects(lap) for blank in on for lap in laps(blank))
        assert crossed == any(joint.pieces == (piece.id,) for joint in made.joints)
        crossing += crossed
    assert crossing == allowed


def laps(blank: Blank) -> Iterator[Polygon]:
    """Yield the inside of each lap of a blank."""
    for scarf in blank.scarfs:
        low, high = scarf.at - scarf.lap / 2 + 0.01, scarf.at + scarf.lap / 2 - 0.01
        yield box(low, 0, high, scarf.width) if scarf.runs == "across" else box(0, low, scarf.width, high)


def test_all_pieces_lie_good_face_up_and_straps_face_inwards() -> None:
    """Only starboard pieces are mirrored, and only port straps."""
    made = planned(job(panel("side", 3600, 300, joint="butt", quantity=2, handed=True), workshop={"way": "divided"}))
    for piece in made.pieces:
        assert not isinstance(piece, PanelPiece) or piece.mirrored == (piece.hand == "starboard")
        assert piece.kind != "strap" or piece.mirrored == (piece.hand != "starboard")
    assert {piece.kind for piece in made.pieces} == {"panel", "strap"}


def test_an_offcut_of_any_outline_is_filled_before_anything_is_bought() -> None:
    """A triangle from the rack holds two knees; only the shelf is bought for."""
    corners: dict[str, Any] = {"points": [[0, 0], [1200, 0], [0, 700]]}
    offcut = {**PLY, "name": "triangle", "outline": corners, "source": "rack", "available": 1, "price": "0.00"}
    del offcut["size"]
    made = planned(job(panel("knee", 300, 250, quantity=2), panel("shelf", 2420, 1200), sheets=(PLY, offcut)))
    assert {under(made, piece).pop() for piece in panel_pieces(made, "knee")} == {"triangle"}
    assert made.totals.to_pay == 84
