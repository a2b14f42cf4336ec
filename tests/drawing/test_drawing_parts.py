"""Codes, frames, hatching, letters and figures that drawings are made of."""

import math
from itertools import pairwise

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from sample_plan import bilge, sample_plan
from shapely.geometry import LineString, Point, Polygon

from nesting.drawing import joint_codes, joint_ends, own_size, piece_codes, tape_of
from nesting.drawing.codes import LETTERS, _letters
from nesting.drawing.dimensions import spread
from nesting.drawing.hatching import hatched
from nesting.drawing.labels import _fitting, _labels
from nesting.drawing.lettering import reading_angle, shortened, width_of
from nesting.drawing.own_frame import placed
from nesting.drawing.placement import into_panel
from nesting.drawing.sheet_frame import SheetFrame

PLAN = sample_plan()
PIECES = {piece.id: piece for piece in PLAN.pieces}


def test_codes_follow_the_order_of_the_job():
    """The first part is A, its pieces are counted copy by copy from the low stations."""
    codes = piece_codes(PLAN)
    assert [codes[f"bilge-{copy}-{index}"] for copy in (1, 2) for index in (1, 2)] == ["A1", "A2", "A3", "A4"]
    assert codes["transom-2"] == "C2"
    assert codes["gunwale-1-1"] == "D1"
    assert list(joint_codes(PLAN).values()) == ["J1", "J2", "J3", "J4"]


def test_letters_go_on_after_z_and_never_repeat():
    """After Z comes AA; I and O look like figures, B, J, L and S name blanks, joints, lengths and sheets."""
    assert [_letters(index) for index in (0, 7, 8, len(LETTERS) - 1, len(LETTERS))] == ["A", "K", "M", "Z", "AA"]
    assert len({_letters(index) for index in range(2000)}) == 2000
    assert not {"I", "O", "J", "L", "S"} & set(LETTERS)


def test_each_joint_gives_one_end_to_each_of_its_pieces():
    """The low piece is bevelled on its back at its high end, the other on its good face."""
    ends = joint_ends(PLAN)
    (low,), (high,) = ends["bilge-1-1"], ends["bilge-1-2"]
    assert (low.bevel_face, low.lies, low.heel, low.feather) == ("back", "underneath", 1876, 1924)
    assert (high.bevel_face, high.lies, high.heel, high.feather) == ("good face", "on top", 1924, 1876)
    assert ends["transom-1"] == ()


def test_a_mirrored_and_turned_piece_keeps_its_own_size():
    """Size is measured along the panel's own axes, however the piece lies."""
    assert own_size(PIECES["bilge-2-1"]) == pytest.approx(own_size(PIECES["bilge-1-1"]))
    assert own_size(PIECES["transom-1"]) == pytest.approx((500, 300))


@given(angle=st.floats(-360, 360), mirrored=st.booleans(), x=st.floats(-5000, 5000), y=st.floats(-5000, 5000))
def test_the_way_onto_the_sheet_and_back_changes_nothing(angle, mirrored, x, y):
    """A shape laid on the sheet and taken back is where it was."""
    piece = PIECES["bilge-1-1"].model_copy(update={"angle": angle, "mirrored": mirrored, "x": x, "y": y})
    there = Polygon(placed(bilge().exterior.coords, piece))
    assert there.area == pytest.approx(bilge().area)
    assert shapely.hausdorff_distance(into_panel(there, piece), bilge()) < 1e-6


@given(angle=st.floats(0, 180), spacing=st.floats(20, 80))
@settings(max_examples=25)
def test_hatching_stays_within_its_shape(angle, spacing):
    """Each line lies on the shape, and neighbouring lines are as far apart as asked."""
    shape = bilge()
    lines = [LineString(points) for points in hatched(shape, spacing, angle)]
    assert all(line.difference(shape).length < 1e-6 for line in lines)
    across = (-math.sin(math.radians(angle)), math.cos(math.radians(angle)))
    reaches = [(line.coords[0][0] * across[0] + line.coords[0][1] * across[1]) / spacing for line in lines]
    assert all(abs(reach - round(reach)) < 1e-6 for reach in reaches)


def test_nothing_is_hatched_where_there_is_nothing():
    """An empty shape has no hatching."""
    assert hatched(Point().buffer(0), 5, 45) == []


@given(st.lists(st.floats(0, 2500), max_size=30).map(sorted), st.floats(1, 60))
def test_figures_are_spread_without_changing_their_order(wanted, gap):
    """Figures keep their gap and their mean, and stay put where there is room already."""
    places = spread(wanted, gap)
    assert len(places) == len(wanted)
    assert all(after - before >= gap - 1e-6 for before, after in pairwise(places))
    assert sum(places) == pytest.approx(sum(wanted), abs=1e-6)
    if all(after - before >= gap for before, after in pairwise(wanted)):
        assert places == pytest.approx(wanted)


@given(st.text(min_size=1, max_size=80), st.floats(10, 100))
def test_long_words_are_cut_to_their_room(words, room):
    """A shortened text fits its room, and a text that fits is left alone."""
    shown = shortened(words, 2.5, room)
    assert width_of(shown, 2.5) <= room
    assert shown == words or width_of(words, 2.5) > room


@pytest.mark.parametrize(("angle", "read"), [(0, 0), (90, 90), (180, 0), (270, 90), (-90, 90), (100, -80)])
def test_words_read_from_the_bottom_or_the_right(angle, read):
    """Nothing stands on its head."""
    assert reading_angle(angle) == pytest.approx(read)


def test_lengths_are_written_as_a_tape_reads_them():
    """One decimal at most, and no needless zero."""
    tape = tape_of("mm")
    assert [tape.figure(value) for value in (2440.0, 880.44, 0.04, -0.04)] == ["2440", "880.4", "0", "0"]
    assert tape.figures(2440, 1220, 6) == "2440 × 1220 × 6"


@pytest.mark.parametrize(
    ("size", "scale"),
    [((2440, 1220), 10), ((2500, 1250), 10), ((3100, 1530), 15), ((600, 400), 5), ((40000, 2000), 200)],
)
def test_a_sheet_is_drawn_as_large_as_the_paper_takes(size, scale):
    """The scale is the largest usual one at which the sheet fits."""
    frame = SheetFrame(left=0, bottom=0, right=size[0], top=size[1], rows=1, key_rows=1)
    assert frame.scale == scale


def test_a_tiny_piece_bears_its_code_alone():
    """What does not fit is left to the list below the drawing."""
    piece = PIECES["transom-2"].model_copy(update={"outline": ((0, 0), (90, 0), (90, 60), (0, 60)), "holes": ()})
    label, centre = _fitting(piece, _labels(piece, "C2"), (), 10)
    assert [row.words for row in label] == ["C2"]
    assert centre == pytest.approx((45, 30), abs=1)
