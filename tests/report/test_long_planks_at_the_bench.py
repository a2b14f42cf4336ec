"""What the builder is told of planks that are scarfed before they are ripped."""

import csv
import io

from nesting.report import page, report_files
from tests.auditing.good_long_plank_plan import long_plank_plan


def rows(name):
    """Return the rows of one of the files."""
    return list(csv.DictReader(io.StringIO(report_files(long_plank_plan())[name])))


def test_the_parts_of_each_long_plank_are_told_in_order():
    """The left part of a scarf is bevelled on its back, the other on its good face; 1000 + 700 - 200 = 1500."""
    told = [row for row in rows("long-planks.csv") if row["long_plank"] == "LP1"]
    assert [row["order"] for row in told] == ["1", "2"]
    assert sum(float(row["length"]) for row in told) == 1700
    assert (told[0]["left_end_bevel"], told[0]["right_end_bevel"]) == ("", "back")
    assert (told[1]["left_end_bevel"], told[1]["right_end_bevel"]) == ("good face", "")
    assert {row["finished_length"] for row in told} == {"1500"}


def test_like_sticks_are_told_once_with_where_their_joints_lie():
    """Those that are turned count from the other end: the two stations add up to the length."""
    told = [row for row in rows("long-plank-sticks.csv") if row["sticks"].startswith("LP1-")]
    stations = {row["turned"]: float(row["joints"]) for row in told if row["joints"]}
    assert stations["as it lies"] + stations["turned end over end"] == 1500
    sticks = [stick for row in told for stick in row["sticks"].split(", ")]
    assert sorted(set(sticks)) == ["LP1-1", "LP1-2", "LP1-3", "LP1-4"]


def test_a_long_plank_is_one_glue_up_and_each_scarf_has_two_bevels():
    """Whatever the number of strips."""
    assert [row["what"] for row in rows("glue-up.csv")] == ["long plank LP1", "long plank LP2"]
    bevels = rows("bevel-schedule.csv")
    assert [row["joint"] for row in bevels] == ["LP1/F1", "LP1/F1", "LP2/F1", "LP2/F1"]
    assert {row["width"] for row in bevels} == {"209"}


def test_strips_weigh_and_are_listed_though_they_are_cut_from_sticks():
    """Every strip has its row in the cut list, on a stick of a long plank."""
    listed = rows("cut-list.csv")
    assert len(listed) == 8
    assert {row["sheet"][:3] for row in listed} == {"LP1", "LP2"}
    assert "across at" in listed[0]["joint_ends"]


def test_the_page_tells_how_to_glue_rip_and_turn_and_warns_of_ripping():
    """A screen for each long plank, and what both ways would come to."""
    text = page(long_plank_plan())
    assert "Long plank LP1: L" in text
    assert "turned end over end" in text
    assert "Straighten one edge first" in text
    assert "Ways of using planks, the cheaper taken" in text
    assert "for long plank LP1" in text


def test_a_drawing_of_each_long_plank_is_among_the_files():
    """With each strip by its id, as in all drawings."""
    svg = report_files(long_plank_plan())["long-plank-LP1.svg"]
    assert 'data-name="LP1"' in svg
    assert 'data-name="inner-1-1"' in svg
    assert "turned end over end once it is ripped" in svg
    assert "from its right end" in svg  # where its own low end lies before it is turned
