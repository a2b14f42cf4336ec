"""The lists that a spreadsheet opens."""

import csv
import io
import math
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sample_plan import BILGE, MARINE, STATION, sample_plan

from nesting.drawing import piece_codes
from nesting.report import cut_list, joint_schedule, report_files, shopping_list
from nesting.report.table import FORMULA_STARTS, Column, Table, as_csv

PLAN = sample_plan()


def read(text):
    """Return the rows of a CSV by their column names."""
    return list(csv.DictReader(io.StringIO(text)))


def test_the_shopping_list_adds_up():
    """Costs are count times price, and the last row is what is paid."""
    *rows, total = read(shopping_list(PLAN))
    assert [row["stock"] for row in rows] == [MARINE, "spruce 45 x 20"]
    assert all(Decimal(row["cost"]) == int(row["count"]) * Decimal(row["price"]) for row in rows)
    assert total["stock"] == "total"
    assert Decimal(total["cost"]) == sum(Decimal(row["cost"]) for row in rows) == PLAN.totals.to_pay


def test_the_shopping_list_says_what_to_ask_for():
    """Sheets by length, width and thickness; timber by section and length."""
    rows = read(shopping_list(PLAN))
    assert [(row["kind"], row["size"]) for row in rows[:-1]] == [
        ("sheet", "2440 × 1220 × 6"),
        ("length", "45 × 20 × 3600"),
    ]


def test_the_cut_list_names_every_piece_once():
    """Each piece of the plan has one row, in a running order."""
    rows = read(cut_list(PLAN))
    assert sorted(row["code"] for row in rows) == sorted(piece_codes(PLAN).values())
    assert [int(row["order"]) for row in rows] == list(range(1, len(PLAN.pieces) + 1))


def test_the_cut_list_tells_where_a_piece_lies_and_how_large_it_is():
    """A piece of the mirrored side, turned by half a turn, measured by hand from the sample."""
    (row,) = [row for row in read(cut_list(PLAN)) if row["code"] == "A3"]
    wanted = {"sheet": "S1", "part": BILGE, "copy": "2", "hand": "starboard", "piece": "1", "of": "2"}
    wanted |= {"length": "1924", "width": "260", "from_left": "10", "from_bottom": "590", "angle": "180"}
    wanted |= {"joint_ends": "high end J2 bevel on back"}
    assert wanted.items() <= row.items()


def test_strips_are_listed_by_their_place_on_the_length():
    """A strip's row has its length and its distance from the left end, and no angle."""
    (row,) = [row for row in read(cut_list(PLAN)) if row["code"] == "D2"]
    wanted = {"sheet": "L2", "length": "2240", "width": "45", "from_left": "0", "from_bottom": "", "angle": ""}
    assert wanted.items() <= row.items()


def test_the_joint_schedule_gives_the_scarf_in_figures():
    """Lap 48 at 8:1 in 6 mm; bevel atan(1/8) = 7.125 degrees; the line shows half a lap past the station."""
    row = read(joint_schedule(PLAN))[0]
    wanted = {"joint": "J1", "hand": "port", "station": "1900", "boat_station": "2000", "lap": "48", "slope": "8"}
    wanted |= {"bevel_angle": "7.125", "low_side": "A1", "low_side_bevel": "back", "high_side": "A2"}
    wanted |= {"high_side_bevel": "good face", "visible_line": "1924"}
    assert wanted.items() <= row.items()


def test_the_glue_area_is_width_times_the_sloping_face():
    """Width 45 and 20 thick at 12:1: 45 x 20 x sqrt(1 + 144) mm2 = 108.4 cm2 (similar triangles)."""
    row = read(joint_schedule(PLAN))[2]
    assert float(row["glue_area_cm2"]) == pytest.approx(45 * 20 * math.sqrt(145) / 100, abs=0.05)


def test_a_scarf_through_the_width_is_bevelled_on_the_edges():
    """It shows no line square across the face, as it slants through the lap."""
    joints = tuple(joint.model_copy(update={"across": "width"}) for joint in PLAN.joints[2:])
    plan = PLAN.model_copy(update={"joints": joints})
    row = read(joint_schedule(plan))[0]
    wanted = {"low_side_bevel": "lower edge", "high_side_bevel": "upper edge", "visible_line": ""}
    assert wanted.items() <= row.items()
    assert any("bevel on lower edge" in row["joint_ends"] for row in read(cut_list(plan)))


def test_strips_have_no_boat_station():
    """A part without a map to boat stations shows none."""
    assert [row["boat_station"] for row in read(joint_schedule(PLAN))] == ["2000", "2000", "", ""]


def test_the_distance_to_a_neighbour_is_measured_along_the_boat():
    """A neighbour's joint at its own station 300, without a map, is 1700 from boat station 2000."""
    other = PLAN.joints[0].model_copy(update={"id": "x", "part": "=transom", "station": 300.0})
    plan = PLAN.model_copy(update={"joints": (*PLAN.joints, other)})
    rows = read(joint_schedule(plan))
    assert rows[0]["neighbours"] == "'=transom: 1700"
    assert rows[-1]["neighbours"] == f"{BILGE}: 1700"


def test_a_neighbour_without_a_joint_is_said_to_have_none():
    """The reader sees that there was nothing to keep clear of."""
    assert read(joint_schedule(PLAN))[0]["neighbours"] == "'=transom: no joint"
    assert PLAN.joints[0].station == STATION


@given(st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\r\n\x00"), min_size=1))
def test_no_text_starts_a_formula_and_every_text_comes_back(text):
    """A name reads back as given, behind an apostrophe if a spreadsheet would run it."""
    written = as_csv(Table(caption="", columns=(Column("name", ""),), rows=((text,),)))
    ((cell,),) = list(csv.reader(io.StringIO(written)))[1:]
    assert not cell.startswith(FORMULA_STARTS)
    assert cell == ("'" + text if text.startswith(FORMULA_STARTS) else text)


def test_negative_figures_stay_figures():
    """Only texts get an apostrophe."""
    written = as_csv(
        Table(caption="", columns=(Column("at", ""),), rows=((-10.25,), (-0.0,), (None,), (Decimal("3"),)))
    )
    assert written == 'at\n-10.25\n0\n""\n3.00\n'


LENGTHS_OF = {
    "cut-list.csv": ("length", "width", "from_left", "from_bottom"),
    "bevel-schedule.csv": ("thickness", "lap", "width"),
    "glue-up.csv": ("length",),
    "joint-schedule.csv": ("station", "lap", "visible_line"),
}


def test_lists_follow_the_tape():
    """By hand: 1924 is 75 3/4 in (1924.05), 48 is 1 7/8 (47.6), a mark is 4 in, 6 is 15/64 (5.95)."""
    workshop = PLAN.job.workshop.model_copy(update={"tape": "in"})
    inches = PLAN.model_copy(update={"job": PLAN.job.model_copy(update={"workshop": workshop})})
    files = report_files(inches)
    rows = {name: read(files[name]) for name in LENGTHS_OF}
    assert rows["cut-list.csv"][0]["length"] == "75 3/4"
    assert read(files["register-marks.csv"])[0]["from_end"] == "4"
    bevel = rows["bevel-schedule.csv"][0]
    assert (bevel["thickness"], bevel["lap"]) == ("15/64", "1 7/8")
    for name, columns in LENGTHS_OF.items():
        for row, metric in zip(rows[name], read(report_files(PLAN)[name]), strict=True):
            for column in columns:
                if metric[column]:
                    assert in_millimetres(row[column]) == pytest.approx(float(metric[column]), abs=25.4 / 32 + 0.05)


def test_a_page_for_a_tape_in_inches_names_no_millimetres_in_its_headings():
    """One unit on one page; sizes in the shopping list too: 2440 x 1220 x 6 are 96 1/16 x 48 1/16 x 15/64."""
    workshop = PLAN.job.workshop.model_copy(update={"tape": "in"})
    inches = report_files(PLAN.model_copy(update={"job": PLAN.job.model_copy(update={"workshop": workshop})}))
    assert ", mm" not in inches["index.html"]
    assert ", mm" in report_files(PLAN)["index.html"]
    assert "96 1/16 × 48 1/16 × 15/64" in inches["shopping-list.csv"]


def in_millimetres(words):
    """Read inches and a fraction."""
    return float(sum(Fraction(part) for part in words.split())) * 25.4
