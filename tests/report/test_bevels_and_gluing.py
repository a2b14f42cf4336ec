"""The bevel schedule, the glue-up sheet and the register marks."""

import csv
import io
import math

import pytest
from good_blank_plan import blank_plan
from good_butt_plan import butt_plan
from sample_plan import bilge, sample_plan
from shapely.geometry import Polygon

from nesting.report import bevel_schedule, glue_up_sheet, register_marks
from nesting.report.bevels import stack_table
from nesting.report.glue import glue_grams
from nesting.report.gluing import glue_ups
from nesting.report.joining_screens import joining_screens
from nesting.report.marking_points import corners_of

DIVIDED, BLANK, BUTT = sample_plan(), blank_plan(), butt_plan()


def read(text):
    """Return the rows of a CSV by their column names."""
    return list(csv.DictReader(io.StringIO(text)))


def test_every_joined_end_has_a_bevel_with_face_lap_and_angle():
    """Four scarfs have eight ends; the low side is bevelled on its back; atan(1/8) = 7.125 degrees."""
    rows = read(bevel_schedule(DIVIDED))
    assert len(rows) == 8
    wanted = {"joint": "J1", "piece": "A1", "lies_on": "S1", "end": "high stations", "face_up": "back"}
    wanted |= {"thickness": "6", "lap": "48", "angle": "7.125", "stack": "1"}
    assert wanted.items() <= rows[0].items()
    assert {(row["piece"], row["face_up"]) for row in rows} >= {("A1", "back"), ("A2", "good face")}


def test_the_sheets_of_a_blank_are_bevelled_at_their_ends():
    """Lap 44 in 5.5 mm, over the whole trimmed width of 1200."""
    first, second = read(bevel_schedule(BLANK))
    wanted = {"joint": "B1/F1", "thickness": "5.5", "lap": "44", "width": "1200", "stack": "1"}
    assert ({"piece": "S1", "end": "right", "face_up": "back"} | wanted).items() <= first.items()
    assert ({"piece": "S2", "end": "left", "face_up": "good face"} | wanted).items() <= second.items()


def test_butts_have_no_bevel():
    """Their ends are square."""
    assert read(bevel_schedule(BUTT)) == []
    assert stack_table(BUTT).rows == ()


def test_like_ends_share_a_stack_whose_step_is_the_lap():
    """Plywood apart from timber: 6 mm at 8:1 steps by 48, 20 mm at 12:1 by 240."""
    rows = stack_table(DIVIDED).rows
    assert [(row[0], row[1], row[2], row[3], row[4]) for row in rows] == [
        (1, 4, 6.0, 8.0, 48.0),
        (2, 4, 20.0, 12.0, 240.0),
    ]


def test_four_millimetres_at_eight_to_one_step_by_thirty_two():
    """As in the notes on a 17.5 ft kayak, Strosaker 2007: 32 mm steps in 4 mm plywood."""
    joints = tuple(joint.model_copy(update={"thickness": 4.0, "lap": 32.0}) for joint in DIVIDED.joints[:2])
    (row,) = stack_table(DIVIDED.model_copy(update={"joints": joints})).rows
    assert row[4] == 32.0


def test_the_glue_up_sheet_lists_pieces_in_order_with_finished_length():
    """The bilge is 3600 long; a strip 5000."""
    rows = read(glue_up_sheet(DIVIDED))
    assert [row["glue_up"] for row in rows] == ["G1", "G2", "G3", "G4"]
    assert [row["order"] for row in rows] == ["A1 + A2", "A3 + A4", "D1 + D2", "D3 + D4"]
    assert [row["length"] for row in rows] == ["3600", "3600", "5000", "5000"]
    assert [row["hand"] for row in rows] == ["port", "starboard", "", ""]


def test_a_panel_has_two_straight_measures_to_check_it_by():
    """From one far corner to the other, each told with the station and offset of its ends."""
    row = read(glue_up_sheet(DIVIDED))[0]
    corners = [(x, y) for x, y in bilge().exterior.coords]
    for said in (row["diagonal"], row["other_diagonal"]):
        ends, length = said.split("): ")
        (one, other) = [tuple(map(float, end.strip("()").split(", "))) for end in ends.split(") to (")]
        assert float(length) == pytest.approx(math.dist(one, other), abs=0.1)
        for end in (one, other):
            assert min(math.dist(end, corner) for corner in corners) < 0.1


def test_the_measures_run_between_the_corners_of_a_curved_panel():
    """A side with a curved upper edge, in steps of 10: its four corners, not the top of its curve."""
    upper = [(x, 120.0 + 140.0 * math.sin(math.pi * x / 3600.0)) for x in range(3600, -1, -10)]
    shape = Polygon([(0.0, 0.0), (3600.0, 0.0), *upper])
    assert sorted(corners_of(shape)) == [(0, 0), (0, 120), (3600, 0), (3600, pytest.approx(120))]


def test_a_blank_is_checked_by_both_diagonals():
    """4856 by 1200: 5002.1 by Pythagoras."""
    row = read(glue_up_sheet(BLANK))[0]
    assert row["what"] == "blank B1"
    assert row["order"] == "S1 + S2"
    assert row["length"] == "4856"
    assert row["diagonal"] == "both diagonals 5002.1"


def test_a_panel_cut_from_a_blank_is_not_glued_again():
    """The blank's own scarf is the only seam."""
    assert [seam.code for glue_up in glue_ups(BLANK) for seam in glue_up.seams] == ["B1/F1"]


def test_a_whole_sheet_wide_scarf_takes_about_22_grams_of_glue():
    """1220 mm in 6 mm at 8:1: 0.05902 m2 at 2.7 m2/kg (Gougeon, p. 54)."""
    assert glue_grams(1220 * 6 * math.sqrt(65)) == pytest.approx(21.9, abs=0.05)


def test_register_marks_lie_behind_the_bevel_and_their_distance_is_stated():
    """A lap of 48 is marked 100 from each end, so 152 apart overlapped by 48; a butt's, clear of its strap, 200."""
    row = read(register_marks(DIVIDED))[0]
    sides = {"joint": "J1", "low_side": "A1", "high_side": "A2"}
    wanted = {"glue_up": "G1", **sides, "from_end": "100", "apart": "152"}
    assert wanted.items() <= row.items()
    row = read(register_marks(BUTT))[0]
    assert (row["from_end"], row["apart"]) == ("100", "200")


def test_the_glue_up_sheet_repeats_the_cautions_that_matter_there():
    """Dust, epoxy, lifting what has been glued, and that a plan is no structural advice; each with its source."""
    (gluing,) = [screen for screen in joining_screens(DIVIDED) if screen.key == "gluing"]
    (warnings,) = [block for block in gluing.blocks if block.kind == "warnings"]
    about = [caution.about for caution in warnings.cautions]
    assert about == ["Wood dust", "Epoxy", "Lifting", "Check before cutting", "Not structural advice"]
    assert all(caution.source for caution in warnings.cautions)
