"""What the lists and the page say of blanks, straps, and the ways of joining."""

import csv
import io
import re

import pytest
from good_blank_plan import blank_plan
from good_butt_plan import butt_plan
from sample_plan import sample_plan

from nesting.report import blank_make_up, blank_scarfs, chosen_way, cut_list, joint_schedule, page, report_files
from nesting.report.cutting_screens import cutting_screens
from nesting.report.table import Column, Table, filled

BLANK, BUTT, DIVIDED = blank_plan(), butt_plan(), sample_plan()


def read(text):
    """Return the rows of a CSV by their column names."""
    return list(csv.DictReader(io.StringIO(text)))


def test_the_make_up_lists_the_sheets_in_order_with_their_bevels():
    """Usable 2420 and 2480, overlapping by 44; finished 4856 x 1200, diagonal 5002.08 (Pythagoras)."""
    first, second = read(blank_make_up(BLANK))
    wanted = {"blank": "B1", "order": "1", "sheet": "S1", "stock": "short", "from_left": "0", "to": "2420"}
    wanted |= {"trimmed_length": "2420", "trimmed_width": "1200", "left_end_bevel": "", "right_end_bevel": "back"}
    wanted |= {"from_bottom": "0", "lower_edge_bevel": "", "upper_edge_bevel": ""}
    wanted |= {"finished_length": "4856", "finished_width": "1200", "diagonal": "5002.1"}
    assert wanted == first
    wanted = {"sheet": "S2", "trimmed_length": "2480", "from_left": "2376", "to": "4856"}
    wanted |= {"left_end_bevel": "good face", "right_end_bevel": ""}
    assert wanted.items() <= second.items()


def test_the_scarfs_of_a_blank_are_given_in_figures():
    """Middle 2398, half a lap of 22 to either side; atan(1/8) = 7.125 degrees; 1200 x 5.5 x sqrt(65) mm2."""
    (row,) = read(blank_scarfs(BLANK))
    wanted = {"scarf": "B1/F1", "left_sheet": "S1", "right_sheet": "S2", "middle": "2398", "lap": "44", "slope": "8"}
    wanted |= {"line_on_good_face": "2420", "line_on_back": "2376", "bevel_angle": "7.125", "width": "1200"}
    assert wanted.items() <= row.items()
    assert float(row["glue_area_cm2"]) == pytest.approx(1200 * 5.5 * 65**0.5 / 100, abs=0.05)


def test_pieces_on_a_blank_are_listed_from_its_corner_with_the_scarfs_across_them():
    """The starboard side lies turned round from 195 to 4695."""
    rows = {row["code"]: row for row in read(cut_list(BLANK))}
    assert list(rows) == ["A1", "A2", "C1", "D1"]
    wanted = {"sheet": "B1", "from_left": "195", "from_bottom": "306", "angle": "180", "note": ""}
    wanted |= {"joint_ends": "J2 across at 2297 (scarf B1/F1)"}
    assert wanted.items() <= rows["A2"].items()
    assert rows["D1"]["joint_ends"] == ""


def test_a_strap_is_listed_with_how_it_lies_and_is_glued():
    """Its size is measured along the panel: 90 long, 261.5 across."""
    (row,) = [row for row in read(cut_list(BUTT)) if row["code"] == "J1 strap"]
    wanted = {"sheet": "S1", "part": "side", "hand": "port", "piece": "strap", "of": "", "length": "90"}
    wanted |= {"width": "261.5", "note": "lies good face up; glued with that face inwards"}
    assert wanted.items() <= row.items()


def test_the_ends_at_a_butt_are_listed_as_square():
    """Nothing is bevelled."""
    rows = {row["code"]: row["joint_ends"] for row in read(cut_list(BUTT))}
    assert rows["A1"] == "high end J1 square, strap behind"
    assert rows["A4"] == "low end J2 square, strap behind"


def test_the_schedule_gives_a_butt_its_strap_and_no_bevel():
    """Glue area 260 x 90 mm2 = 234 cm2; nothing of a scarf is said."""
    row = read(joint_schedule(BUTT))[0]
    wanted = {"kind": "butt", "station": "1800", "lap": "", "slope": "", "strap": "90", "bevel_angle": ""}
    wanted |= {"glue_area_cm2": "234", "low_side": "A1", "low_side_bevel": "square", "high_side": "A2"}
    wanted |= {"high_side_bevel": "square", "visible_line": "1800", "scarf_of_blank": ""}
    assert wanted.items() <= row.items()


def test_the_schedule_names_the_scarf_of_the_blank_and_its_one_piece():
    """The bevels are those of the sheets; the line shows where the blank's does: 4695 - 2420 on the turned side."""
    row = read(joint_schedule(BLANK))[1]
    wanted = {"kind": "scarf", "scarf_of_blank": "B1/F1", "low_side": "A2", "low_side_bevel": "", "high_side": ""}
    wanted |= {"high_side_bevel": "", "visible_line": "2275", "strap": "", "neighbours": "bottom: 299"}
    assert wanted.items() <= row.items()


@pytest.mark.parametrize("plan", [BLANK, BUTT, DIVIDED], ids=["blank", "butt", "divided"])
def test_what_there_is_not_is_never_written_as_none(plan):
    """No file shows Python's word for nothing, nor for what is no number."""
    for text in report_files(plan).values():
        assert not re.search(r"\b(None|nan|inf)\b", text)


def test_a_plan_with_blanks_has_a_drawing_for_each_and_their_lists():
    """The sheets within the blank have none of their own."""
    files = {name for name in report_files(BLANK) if name.endswith((".svg", ".csv"))}
    lists = {"shopping-list.csv", "cut-list.csv", "joint-schedule.csv", "blank-make-up.csv", "blank-scarfs.csv"}
    lists |= {"bevel-schedule.csv", "glue-up.csv", "register-marks.csv"}
    lists |= {"marking-out.csv", "panel-offsets.csv", "consumables.csv", "weights.csv", "workload.csv"}
    assert files == {"blank-B1.svg", "part-A.svg", "part-C.svg", *lists}


def test_blanks_stand_before_sheets_and_only_where_there_are_any():
    """Blanks are glued before anything is cut."""
    assert '<section id="blank-B1"' in page(BLANK)
    assert '<section id="sheet-' not in page(BLANK)
    assert '<section id="blank-' not in page(DIVIDED)
    both = BLANK.model_copy(update={"used": (*BLANK.used, BLANK.used[0].model_copy(update={"id": "S3"}))})
    assert page(both).index('<section id="blank-B1"') < page(both).index('<section id="sheet-S3"')


def test_the_page_tells_how_to_check_a_blank():
    """Its finished size with the diagonal, and what is cut from it."""
    said = (
        "Blank B1: 4856 × 1200 mm when glued; both diagonals 5002.1 mm if it is square. From it are cut A1, A2, C1, D1."
    )
    assert said in page(BLANK)


@pytest.mark.parametrize(
    ("plan", "said", "unsaid"),
    [
        (DIVIDED, "A hatched end is the lap of a scarf", "The ends of a butt"),
        (BUTT, "The ends of a butt are cut square", "A hatched end"),
        (BLANK, "A joint at a scarf of a blank is there before its piece is cut", "The ends of a butt"),
    ],
    ids=["divided", "butt", "blank"],
)
def test_the_page_explains_only_the_joints_that_there_are(plan, said, unsaid):
    """Who has no butt need not read of straps."""
    assert said in page(plan)
    assert unsaid not in page(plan)


def test_the_ways_are_told_with_the_chosen_one():
    """Joined comes to the plan's own objective; of the other there is no plan, and the page says why."""
    assert chosen_way(BLANK).way == "joined"
    assert chosen_way(BUTT).way == "divided"
    text = re.sub(r"<[^>]+>", "|", page(BLANK))
    assert re.search(r"\|joined\|+178\.20\|+chosen\|+one scarf the less", text)
    assert re.search(r"\|divided\|+no plan\|+not tried: the workshop joins", text)


def test_without_ways_told_there_is_no_table_of_them():
    """A job in which nothing is joined has none to compare."""
    assert chosen_way(DIVIDED) is None
    assert "Ways of joining panels" not in page(DIVIDED)


def test_blanks_and_straps_are_counted_where_there_are_any():
    """2 x 90 x 260 mm2 of straps are 0.047 m2."""
    assert re.search(r"Scarfs of blanks</th><td[^>]*>1<", page(BLANK))
    assert re.search(r"Straps behind butts</th><td[^>]*>0\.047<", page(BUTT))
    assert "1 blank, 3 joints" in page(BLANK)
    assert "Scarfs of blanks" not in page(BUTT)
    assert "Straps behind butts" not in page(BLANK)


def test_columns_without_any_word_are_left_out_on_the_page():
    """Zero is a figure, and stays."""
    table = Table(caption="", columns=tuple(map(Column, "abc", "abc")), rows=((0, None, "x"), (0, "", "")))
    assert [column.name for column in filled(table).columns] == ["a", "c"]
    assert filled(table).rows == ((0, "x"), (0, ""))


def test_what_of_a_sheet_goes_into_a_blank_can_be_marked_out_and_ticked_although_no_piece_comes_from_it():
    """By hand: of S1, trimmed by 10, only the lower 600 go into B1: 2420 x 600, 10 from both edges."""
    (blank,) = BLANK.blanks
    lower = tuple((x, min(y, 610.0)) for x, y in blank.members[0].outline)
    members = (blank.members[0].model_copy(update={"outline": lower}), *blank.members[1:])
    plan = BLANK.model_copy(update={"blanks": (blank.model_copy(update={"members": members}),)})
    (screen,) = [screen for screen in cutting_screens(plan) if screen.key == "sheet-S1"]
    tables = {block.table.caption.partition(",")[0]: block for block in screen.blocks if block.kind == "listing"}
    assert tables["Parts of S1 for blanks"].table.rows == (("1, for blank B1", 2420.0, 600.0, 10.0, 10.0),)
    assert tables["Parts of S1 for blanks"].ticks == ("part S1 1, for blank B1",)
    assert tables["Marking out of sheet S1"].table.rows[0][:2] == ("for B1", 10)
    assert tables["Cut order of S1"]
    (picture,) = [block for block in screen.blocks if block.kind == "picture"]
    assert "a part for blank B1" in picture.caption
    assert "for blank B1: 2420 × 600" in picture.svg
