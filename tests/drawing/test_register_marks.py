"""Register marks on sheets, blanks and finished parts."""

import pytest
from good_blank_plan import blank_plan
from good_butt_plan import butt_plan
from hypothesis import given
from hypothesis import strategies as st
from sample_plan import BILGE, sample_plan
from svg_reading import group_of, lines_of, root_of, words_of

from nesting.drawing import (
    draw_blank,
    draw_lengths,
    draw_panel,
    draw_sheet,
    joint_ends,
    mark_from_end,
    marks_apart,
    piece_codes,
    tape_of,
)
from nesting.model import StripPiece

PLAN, MM = sample_plan(), tape_of("mm")


@given(st.floats(0, 600))
def test_marks_are_apart_as_told_when_the_ends_overlap_by_the_lap(lap):
    """Put the low side's end at x = lap, the other's at 0, and measure; marks are clear of the bevel, and round."""
    joint = PLAN.joints[0].model_copy(update={"lap": lap})
    low, high = lap - mark_from_end(joint, MM), 0.0 + mark_from_end(joint, MM)
    assert marks_apart(joint, MM) == pytest.approx(high - low)
    assert mark_from_end(joint, MM) >= lap + 50
    assert mark_from_end(joint, MM) % 10 == 0


def test_the_marks_of_a_butt_are_clear_of_its_strap():
    """By hand: a strap of 90 reaches 45 to either side; 45 + 50 is 95, so 100, and square ends meet: 200 apart."""
    joint = butt_plan().joints[0]
    assert joint.strap == 90
    assert (mark_from_end(joint, MM), marks_apart(joint, MM)) == (100, 200)


def test_marks_are_round_on_a_tape_in_inches_too():
    """By hand: 48 + 50 is 98, which is 3.86 in, so 4 in; overlapping by 48 they are 8 in less 48 apart, 155.2."""
    joint, inches = PLAN.joints[0], tape_of("in")
    assert (mark_from_end(joint, inches), marks_apart(joint, inches)) == pytest.approx((101.6, 155.2))


@pytest.mark.parametrize(("code", "x"), [("A1", 1834), ("A2", 110)])
def test_a_piece_is_marked_behind_its_lap(code, x):
    """A1 ends at x = 1934 and A2 begins at x = 10, each with a lap of 48: so 100 from there, from both edges."""
    marks = lines_of(group_of(root_of(draw_sheet(PLAN, "S1")), "piece", code), "register")
    assert len(marks) == 2
    assert all(place == pytest.approx(x, abs=0.1) for run in marks for place, _ in run)


def test_every_joined_end_on_a_sheet_has_its_mark_and_the_key_tells_of_it():
    """Scarfs and butts alike; a piece without joints has none."""
    for plan, sheet in ((PLAN, "S1"), (PLAN, "S2"), (butt_plan(), "S1")):
        root, ends, codes = root_of(draw_sheet(plan, sheet)), joint_ends(plan), piece_codes(plan)
        pieces = [piece for piece in plan.on(sheet) if not isinstance(piece, StripPiece)]
        for piece in pieces:
            marks = lines_of(group_of(root, "piece", f"{codes[piece.id]}:"), "register")
            assert bool(marks) == bool(ends[piece.id])
        told = any(words.startswith("register mark, ") for words in words_of(root))
        assert told == any(ends[piece.id] for piece in pieces)


def test_the_marks_of_a_finished_part_are_as_far_apart_as_the_glue_up_sheet_tells():
    """The bilge's joint lies at 1900: 76 to either side of it."""
    group = group_of(root_of(draw_panel(PLAN, BILGE)), "part", BILGE)
    assert {x for run in lines_of(group, "register") for x, _ in run} == {1824, 1976}


def test_a_blank_is_marked_on_both_sides_of_its_scarf():
    """The panel cut from it is glued already: it has none on its own drawing."""
    plan = blank_plan()
    scarf = plan.blanks[0].scarfs[0]
    group = group_of(root_of(draw_blank(plan, "B1")), "marks", scarf.id)
    half = marks_apart(scarf, MM) / 2
    assert {x for run in lines_of(group, "register") for x, _ in run} == {scarf.at - half, scarf.at + half}
    part = plan.joints[0].part
    assert lines_of(group_of(root_of(draw_panel(plan, part)), "part", part), "register") == []


@pytest.mark.parametrize(("code", "x"), [("D1", 2710), ("D2", 290)])
def test_timber_is_marked_behind_its_laps(code, x):
    """D1 ends at 3000 and D2 begins at 0, each with a lap of 240: 240 + 50 is 290."""
    marks = lines_of(group_of(root_of(draw_lengths(PLAN, ["L1", "L2"])), "piece", code), "register")
    assert {place for run in marks for place, _ in run} == {x}
