"""What is left of a sheet, on which side of a line the saw goes, and what the title block says."""

import re

import pytest
import shapely
from good_blank_plan import blank_plan
from sample_plan import BILGE, MARINE, sample_plan
from shapely.geometry import Polygon
from svg_reading import NAMESPACE, lines_of, named, pens_of, points_of, root_of, words_of

from nesting.drawing import containers, draw_blank, draw_lengths, draw_panel, draw_sheet, plan_mark
from nesting.drawing.placement import shape_of
from nesting.drawing.rest import shares, shares_in_words

PLAN = sample_plan()
S1, S2 = (root_of(draw_sheet(PLAN, used_id)) for used_id in ("S1", "S2"))


def with_workshop(plan, **changes):
    """Return a plan whose workshop has other habits."""
    workshop = plan.job.workshop.model_copy(update=changes)
    return plan.model_copy(update={"job": plan.job.model_copy(update={"workshop": workshop})})


@pytest.mark.parametrize("on", [*containers(PLAN), *containers(blank_plan())])
def test_the_shares_of_a_sheet_add_up_to_it(on):
    """To the square millimetre, and in percent as they are written."""
    plan = blank_plan() if on.id == "B1" else PLAN
    share = shares(plan, on)
    assert share.pieces + share.kept + share.rest == pytest.approx(Polygon(on.outline).area)
    said = [float(figure) for figure in re.findall(r"([0-9.]+) %", shares_in_words(plan, on))]
    assert sum(said) == pytest.approx(100, abs=0.11)


def test_the_shares_of_the_offcut_are_those_worked_out_by_hand():
    """Transom 500 x 300 less a hole of 100 x 60 is 144 000, kept 890 x 310 is 275 900, of 804 000 in all."""
    assert shares_in_words(PLAN, containers(PLAN)[1]) == "parts 17.9 %, kept 34.3 %, rest 47.8 %"


def test_the_rest_is_named_where_it_lies():
    """The words stand on the sheet, off its pieces and off the offcut to keep."""
    for root, used_id in ((S1, "S1"), (S2, "S2")):
        (group,) = [group for group in root.iter(f"{NAMESPACE}g") if group.get("class") == "rest"]
        texts = list(group.iter(f"{NAMESPACE}text"))
        assert texts
        assert all(text.text.startswith("rest") for text in texts)
        taken = [shape_of(piece) for piece in PLAN.pieces if piece.on == used_id]
        taken += [Polygon(offcut.outline) for offcut in PLAN.offcuts if offcut.on == used_id and offcut.kept]
        for text in texts:
            place = shapely.Point(float(text.get("x")), -float(text.get("y")))
            assert not any(shape.intersects(place) for shape in taken)


def test_the_key_says_on_which_side_the_saw_goes_and_what_it_takes():
    """Outside the line of the part; with an allowance outside the narrow line, and the plane goes to the wide one."""
    assert "the part: saw outside, kerf 3" in words_of(S1)
    words = words_of(root_of(draw_sheet(with_workshop(PLAN, allowance=2.0), "S1")))
    assert {"finished line: plane to it", "saw outside this, kerf 3"} <= {*words}


def test_an_allowance_is_drawn_outside_every_line():
    """Each piece has a narrow line that keeps 2 off its own."""
    root = root_of(draw_sheet(with_workshop(PLAN, allowance=2.0), "S2"))
    (line,) = [ring for ring in lines_of(root, "allowance") if len(ring) > 3][:1]
    (transom, *_) = points_of(named(root, "transom-2"))
    assert Polygon(line).exterior.distance(Polygon(transom).exterior) == pytest.approx(2, abs=0.01)
    assert Polygon(line).contains(Polygon(transom))


def test_the_title_block_holds_the_fields_of_the_standard():
    """Mandatory fields of ISO 7200:2004 (from memory); those that a plan can't know are left to the pen."""
    words = words_of(S1)
    assert {"type", "number", "sheet", "owner", "drawn by", "approved by", "date"} <= {*words}
    assert {"sheet layout", f"{plan_mark(PLAN)} S1", "1 of 6"} <= {*words}
    assert "blank layout" in words_of(root_of(draw_blank(blank_plan(), "B1")))
    assert f"{plan_mark(PLAN)} L1" in words_of(root_of(draw_lengths(PLAN, ["L1"])))


def test_the_title_block_is_as_wide_as_the_standard_has_it():
    """180 mm on paper at the lower right (ISO 7200, from memory), on every kind of drawing."""
    drawings = [
        draw_sheet(PLAN, "S1"),
        draw_blank(blank_plan(), "B1"),
        draw_lengths(PLAN, ["L1"]),
        draw_panel(PLAN, BILGE),
    ]
    for root in map(root_of, drawings):
        (group,) = [group for group in root.iter(f"{NAMESPACE}g") if group.get("class") == "title-block"]
        xs = [x for x, _ in lines_of(group, "cut")[0]]
        left, _, width, _ = map(float, root.get("viewBox").split())
        millimetre = width / float(root.get("width").removesuffix("mm"))
        assert (max(xs) - min(xs)) / millimetre == pytest.approx(180, abs=0.1)
        assert left + width - max(xs) == pytest.approx(0.5 * millimetre, abs=0.1)


def test_the_mark_of_a_plan_changes_when_a_piece_is_moved():
    """Equal plans share it."""
    assert plan_mark(sample_plan()) == plan_mark(PLAN)
    moved = PLAN.pieces[0].model_copy(update={"x": PLAN.pieces[0].x + 1})
    assert plan_mark(PLAN.model_copy(update={"pieces": (moved, *PLAN.pieces[1:])})) != plan_mark(PLAN)
    assert plan_mark(PLAN.model_copy(update={"seed": 7})) != plan_mark(PLAN)


def test_nothing_is_told_by_colour_alone():
    """Every kind of broken line differs from every other in width or dashes, so also when printed in grey."""
    drawn = pens_of(S1) | pens_of(S2)
    dashed = {kind: look for kind, look in drawn.items() if look[1]}
    assert {"keep", "trim", "feather", "hidden", "station"} <= set(dashed)
    assert len(set(dashed.values())) == len(dashed)


def test_a_workshop_with_a_tape_in_inches_reads_inches_on_its_drawings():
    """To the sixteenth: 2440 mm are 96 1/16, 1220 are 48 1/16, and 290 are 11 7/16. No drawing mixes units."""
    assert "dimensions in mm from ringed corner" in words_of(S1)
    words = words_of(root_of(draw_sheet(with_workshop(PLAN, tape="in"), "S1")))
    assert {"96 1/16", "48 1/16", "11 7/16", "inches from the ringed corner", "6 inches; 1:10 at 100 %"} <= {*words}
    assert not any("mm" in said for said in words if said and said != MARINE)
    assert "2440" not in words
