"""Tables for marking out, on sheets, on blanks and by the part itself."""

import math
from fractions import Fraction

import pytest
from good_blank_plan import blank_plan
from good_butt_plan import butt_plan
from hypothesis import given
from hypothesis import strategies as st
from one_sheet_plan import one_sheet_plan
from sample_plan import BILGE, sample_plan
from shapely import affinity
from shapely.geometry import Point, Polygon

from nesting.drawing import shape_of, tape_of
from nesting.files import read_job
from nesting.model import Job
from nesting.report import marking_out, marking_table, panel_marking_table, panel_offsets, setting_out
from nesting.report.table import as_csv
from nesting.starters import JOB_FILE, starter_files
from tests.strategies import holed_polygons

INCH = 25.4

#: Small boat in one sheet, Atkin, Barnacle Bill Magazine, January 2016, p. 88-89: inches on a sheet of 96 x 48, from
#: its lower left corner.
SIDE = (
    (0, 0), (23.75, 0), (47.25, 0), (70.875, 0), (94.75, 0), (94.75, 3),
    (70.875, 7.125), (47.25, 9.125), (23.75, 8.375), (0, 4.75),
)  # fmt: skip
BOTTOM = (
    (0, 14.125), (23.75, 10.875), (47.25, 10.125), (70.875, 11.875), (94.75, 16),
    (94.75, 31.875), (70.875, 36.125), (47.375, 37.875), (23.75, 37.125), (0, 34),
)  # fmt: skip


def boat():
    """Return the plan of the boat's side and bottom as published, with a tape in inches."""
    parts = {name: Polygon([(x * INCH, y * INCH) for x, y in at]) for name, at in (("side", SIDE), ("bottom", BOTTOM))}
    return one_sheet_plan(parts, (96 * INCH, 48 * INCH), tape="in")


def in_inches(shown):
    """Return the inches of a length as a tape shows it, such as ``4' 0 1/16"``."""
    sign, (feet, _, rest) = -1 if shown.startswith("-") else 1, shown.lstrip("-").rpartition("' ")
    return sign * (12 * int(feet or 0) + sum(float(Fraction(word)) for word in rest.removesuffix('"').split()))


def rows_of(table, piece):
    """Return the rows of one piece: line, what is there, lower, upper, between."""
    return [row[1:] for row in table.rows if row[0] == piece]


@pytest.mark.parametrize(("code", "published"), [("A1", SIDE), ("C1", BOTTOM)])
def test_a_published_boat_is_marked_out_by_its_published_figures(code, published):
    """Each corner of the drawing in the magazine stands in the table, to the eighth of an inch that it is given in."""
    tabled = {
        (in_inches(line), in_inches(met)) for line, _, *crossings in rows_of(marking_table(boat(), "S1"), code)
        for met in crossings if met
    }  # fmt: skip
    assert {(float(x), float(y)) for x, y in published} <= tabled


def test_a_line_of_the_published_boat_reads_as_it_would_off_a_tape():
    """At 47 1/4 in the side is 9 1/8 in wide: Atkin's own figures, as above."""
    rows = rows_of(marking_table(boat(), "S1"), "A1")
    assert ("3' 11 1/4\"", "upper corner", '0"', '9 1/8"', None) in rows
    assert [row[0] for row in rows if "station" in row[1]] == ['0"', *(f"{feet}' 0\"" for feet in range(1, 8))]


@given(holed_polygons(), st.floats(0, 360), st.sampled_from(["mm", "in"]))
def test_every_tabled_point_lies_on_the_placed_outline_within_its_rounding(shape, angle, unit):
    """Rounded along and across by half a mark at most, so off the outline by half a mark's diagonal at most."""
    there = affinity.translate(affinity.rotate(shape, angle), 700, 500)
    plan, tape = one_sheet_plan({"part": there}, (1500, 1000), unit), tape_of(unit)
    for line, _, lower, upper, between in rows_of(marking_table(plan, "S1"), "A1"):
        for met in [lower, upper, *(between or "").split("; ")]:
            if met not in (None, ""):
                point = Point(length(line, unit), length(met, unit))
                assert shape_of(plan.pieces[0]).boundary.distance(point) <= tape.mark / 2 * math.sqrt(2) + 0.002


def length(shown, unit):
    """Return millimetres of a cell."""
    return float(shown) if unit == "mm" else in_inches(shown) * INCH


def test_the_greatest_rounding_is_stated():
    """25.2 is off its mark by 0.2, 10.45 by 0.45; a sixteenth of an inch is 1.5875 mm."""
    shape = Polygon([(0, 0), (25.2, 0), (25.2, 10.45), (0, 10.45)])
    assert marking_table(one_sheet_plan({"p": shape}, (300, 300)), "S1").caption == (
        "Marking out of sheet S1, rounded to whole mm, by 0.45 mm at most"
    )
    inches = marking_table(one_sheet_plan({"p": Polygon([(0, 0), (1, 0), (1, 1)])}, (300, 300), "in"), "S1").caption
    assert inches == "Marking out of sheet S1, rounded to sixteenths of an inch, by 0.024 in at most"


def test_a_divided_piece_shows_where_its_bevel_begins():
    """A1 lies at x = 10 with its joint at 1900 and a lap of 48: the bevel runs from 1886 to 1934.

    At 1876 of the panel the edge is at 120 + 140 sin(pi 1876 / 3600) = 259.7.
    """
    rows = rows_of(marking_table(sample_plan(), "S1"), "A1")
    (bevel,) = [row for row in rows if "J1 bevel begins" in row[1]]
    assert (bevel[0], bevel[2], bevel[3]) == (1886, 10, 270)
    assert rows[-1][:2] == (1934, "lower corner, upper corner")


def test_a_butt_shows_how_far_its_strap_reaches():
    """Half the strap of 90 before the square end at 1800."""
    rows = rows_of(marking_table(butt_plan(), "S1"), "A1")
    assert any(row[1] == "J1 strap to here" for row in rows)


def test_a_curved_panel_by_itself():
    """Upper edge 120 + 140 sin(pi x / 3600): at 300 it is 156.2, at 1800 it is 260, at 1900 it is 259.5."""
    rows = panel_marking_table(sample_plan(), BILGE).rows
    assert (300, "station", 0, 156, None) in rows
    at = {row[0]: row for row in rows}
    assert at[1800][2:] == (0, 260, None)
    assert at[1900][2:] == (0, 259, None)
    assert "J1 J2 middle" in at[1900][1]
    assert [row[0] for row in rows if "lap" in row[1]] == [1876, 1924]


@pytest.mark.parametrize("name", ["bottom", "bilge", "sheer"])
def test_a_panel_given_by_nails_reads_as_its_nails(name, tmp_path):
    """At each station that has a nail on both edges the table of a curved panel gives both, to the mark."""
    for file, text in starter_files("skiff").items():
        (tmp_path / file).write_text(text, encoding="utf-8")
    plan = sample_plan().model_copy(update={"job": read_job(tmp_path / JOB_FILE), "joints": (), "pieces": ()})
    rows = {row[0]: row[2:4] for row in panel_marking_table(plan, name).rows if "station" in row[1]}
    nails = {"upper": {}, "lower": {}}
    for line in (tmp_path / f"{name}.csv").read_text(encoding="utf-8").splitlines()[1:]:
        edge, station, offset, _ = line.split(",")
        nails[edge][float(station)] = float(offset)
    both = nails["upper"].keys() & nails["lower"].keys() & rows.keys()
    assert len(both) >= 10
    for station in both:
        assert rows[station] == pytest.approx((nails["lower"][station], nails["upper"][station]), abs=0.51)


def test_offsets_below_the_baseline_have_a_minus():
    """A keel line that dips by 12 is told as -12."""
    dip = Polygon([(0, 0), (600, -12), (1200, 0), (1200, 80), (0, 80)])
    rows = panel_marking_table(one_sheet_plan({"p": dip}, (2000, 500)), "p").rows
    assert (600, "lower corner, station", -12, 80, None) in rows


def test_a_blank_is_measured_from_a_line_inside_its_edge():
    """The port side starts at y = 0 of the blank: 5 below the datum line, which the words state."""
    plan = blank_plan()
    least = min(row[3] for row in marking_table(plan, "B1").rows)
    assert least == min(round(y - 5) for piece in plan.pieces for _, y in piece.outline)
    assert "draw the datum line 5 mm inside it" in setting_out(plan, "B1")
    assert marking_table(plan, "B1").caption.startswith("Marking out of blank B1")


def test_parts_of_a_sheet_that_go_into_a_blank_are_marked_out_too():
    """The trimmed sheet from 10 to 2430 goes whole into the blank."""
    plan = blank_plan()
    rows = rows_of(marking_table(plan, plan.blanks[0].members[0].used), "for B1")
    assert (rows[0][0], rows[-1][0]) == (10, 2430)
    assert {row[2:] for row in rows} == {(10, 1210, None)}


def test_a_datum_corner_off_the_wood_is_told():
    """An offcut whose corner is broken off is laid against two battens."""
    plan = sample_plan()
    assert setting_out(plan, "S1").startswith("Measure along the datum edge")
    broken = plan.used[1].model_copy(update={"outline": ((50, 0), (1300, 0), (1300, 640), (0, 640), (0, 60))})
    there = plan.model_copy(update={"used": (plan.used[0], broken, *plan.used[2:])})
    assert setting_out(there, "S2").startswith("The ringed corner lies off the wood of S2")


def test_the_lists_name_sheet_and_piece_in_every_row():
    """As CSV the tables of all sheets, and those of all panels, stand in one file each."""
    plan = sample_plan()
    lines = marking_out(plan).splitlines()
    assert lines[0] == "on,piece,at,what,lower,upper,between"
    assert len(lines) == 1 + sum(len(marking_table(plan, name).rows) for name in ("S1", "S2"))
    assert panel_offsets(plan).splitlines()[0] == "part,at,what,lower,upper,between"
    assert as_csv(marking_table(plan, "S1")).splitlines()[0] == "piece,at,what,lower,upper,between"


def test_a_job_in_inches_is_marked_out_in_inches_unless_it_says_otherwise():
    """Units say how the job is written, the tape what is on the bench."""
    panel = {"name": "p", "material": "ply", "thickness": 0.25, "outline": {"rectangle": [9, 9]}}
    asked = {"units": "in", "panels": [panel]}
    assert Job.model_validate(asked).workshop.tape == "in"
    assert Job.model_validate({**asked, "workshop": {"tape": "mm", "trim": 1}}).workshop.tape == "mm"
    assert Job.model_validate({"panels": [panel]}).workshop.tape == "mm"


@pytest.mark.parametrize(
    ("length", "shown"),
    [(0, '0"'), (1.6, '1/16"'), (25.4, '1"'), (28.6, '1 1/8"'), (304.8, "1' 0\""), (310, "1' 0 3/16\""),
     (1219.2, "4' 0\""), (2438.4 - 1.6, "7' 11 15/16\""), (-12.7, '-1/2"')],
)  # fmt: skip
def test_a_tape_in_inches_reads_feet_inches_and_the_least_fraction(length, shown):
    """Fractions are in lowest terms, and less than a foot shows no feet."""
    assert tape_of("in").shown(length) == shown
