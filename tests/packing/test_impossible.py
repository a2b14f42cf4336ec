"""What is proven not to fit, and that nothing is claimed of what fits."""

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import affinity
from shapely.geometry import LineString, Polygon, box
from shapely.ops import split

from nesting.effort import Budget, Effort
from nesting.packing import Attitude, Container, Item, Placement, Placer, Wanted, is_feasible, is_impossible
from tests.strategies import star_polygons

BOTH_WAYS = (Attitude(0), Attitude(180))
ALL_WAYS = tuple(Attitude(angle, mirrored) for angle in (0, 90, 180, 270) for mirrored in (False, True))
EFFORT = 0.01

#: What undoes each attitude: turning back, but mirroring and turning are undone by the same.
BACK = {way: way if way.mirrored else Attitude(-way.angle % 360) for way in ALL_WAYS}


def curved_strip(length: float, middle: float, end: float, sag: float) -> Polygon:
    """Return a strip about a parabola, as wide as ``middle`` amidships and as ``end`` at its ends."""
    x = np.linspace(0, length, 60)
    rise = 4 * x * (length - x) / length**2
    half = (end + (middle - end) * rise) / 2
    return Polygon([*zip(x, sag * rise - half, strict=True), *zip(x[::-1], (sag * rise + half)[::-1], strict=True)])


#: 205 wide, its box 272 high; six of them fill 92 % of a sheet of 2420 x 1200.
STRIP = curved_strip(2400, 205, 149, 95)


@pytest.mark.parametrize("copies", [5, 6])
def test_six_curved_strips_are_refuted_and_five_are_not(copies: int) -> None:
    """Nested one in another five need 278 + 4 x 211 of 1206 with a kerf of 6, six need 1333 (worked out by hand);
    mixed with turned ones six fit no better, which is the proof's to say, for their area would fit.
    """
    sheet = Container(box(0, 0, 2420, 1200))
    assert 6 * STRIP.area < 0.93 * sheet.outline.area
    assert is_impossible(sheet, [Wanted(STRIP, BOTH_WAYS)] * copies, 6) == (copies == 6)


def test_one_box_for_each_strip_proves_nothing() -> None:
    """The largest rectangles in six curved strips do fit."""
    sheet = Container(box(0, 0, 2420, 1200))
    assert not is_impossible(sheet, [Wanted(STRIP, BOTH_WAYS)] * 6, 6, boxes=(1,))


def test_a_knot_can_make_it_impossible() -> None:
    """Two squares of 60 lie side by side on 120 x 60, but not where a knot is; nor if only one of them minds it."""
    square = Wanted(box(0, 0, 60, 60), (Attitude(0),))
    knot = box(55, 25, 65, 35)
    minding = Wanted(square.polygon, square.attitudes, frozenset({"knot"}))
    bare, spoilt = Container(box(0, 0, 120, 60)), Container(box(0, 0, 120, 60), obstacles=(knot,))
    marked = Container(box(0, 0, 120, 60), marked=(("knot", knot),))
    assert not is_impossible(bare, [square, square], 0)
    assert is_impossible(spoilt, [square, square], 0)
    assert not is_impossible(marked, [square, square], 0)
    assert is_impossible(marked, [square, minding], 0)


def test_an_offcut_with_a_corner_gone_holds_less() -> None:
    """Of three squares of 50 in an angle of 100 x 100 less 50 x 50; a fourth would lie in the notch."""
    angle = Container(box(0, 0, 100, 100).difference(box(50, 50, 100, 100)))
    square = Wanted(box(0, 0, 50, 50), (Attitude(0),))
    assert not is_impossible(angle, [square] * 3, 0)
    assert is_impossible(angle, [square] * 4, 0)


def test_what_is_longer_than_the_container_is_refuted_in_the_attitudes_given() -> None:
    """Turned it would fit."""
    plank, sheet = box(0, 0, 100, 10), Container(box(0, 0, 50, 120))
    assert is_impossible(sheet, [Wanted(plank, BOTH_WAYS)], 0)
    assert not is_impossible(sheet, [Wanted(plank, ALL_WAYS)], 0)


def test_the_gap_counts_between_parts_and_not_at_the_edge() -> None:
    """Two of 50 on 103: a gap of 3 fits exactly, one of 3.1 does not."""
    squares = [Wanted(box(0, 0, 50, 50), (Attitude(0),))] * 2
    sheet = Container(box(0, 0, 103, 50))
    assert not is_impossible(sheet, squares, 3)
    assert is_impossible(sheet, squares, 3.1)


def test_what_passes_for_feasible_within_the_tolerance_is_not_refuted() -> None:
    """Two squares of 5.0004 on a length of 10 go less than a thousandth over its ends; of 5.01 they are refuted."""
    sheet, squares = Container(box(0, 0, 10, 5.0004)), [Item(box(0, 0, 5.0004, 5.0004))] * 2
    laid = [Placement(0, 0, -0.0004, 0), Placement(1, 0, 5, 0)]
    assert is_feasible(sheet, squares, laid, 0)
    assert not is_impossible(sheet, [Wanted.of(square) for square in squares], 0)
    assert is_impossible(sheet, [Wanted(box(0, 0, 5.01, 5), (Attitude(0),))] * 2, 0)


def test_nothing_wanted_is_never_impossible() -> None:
    """Nor is what is smaller than a step of the grid."""
    assert not is_impossible(Container(box(0, 0, 1, 1)), [], 0)
    assert not is_impossible(Container(box(0, 0, 1e6, 1)), [Wanted(box(0, 0, 1e-3, 1e-3), BOTH_WAYS)] * 9, 0)


def test_a_tangram_is_not_refuted() -> None:
    """Its pieces fill the square (from memory), so nothing is to spare."""
    a = 100.0
    pieces = [
        [(0, 0), (a, 0), (a / 2, a / 2)],
        [(0, 0), (a / 2, a / 2), (0, a)],
        [(a, 0), (a, a / 2), (3 * a / 4, a / 4)],
        [(a / 2, a / 2), (3 * a / 4, a / 4), (a, a / 2), (3 * a / 4, 3 * a / 4)],
        [(a / 2, a / 2), (3 * a / 4, 3 * a / 4), (a / 4, 3 * a / 4)],
        [(0, a), (a / 4, 3 * a / 4), (3 * a / 4, 3 * a / 4), (a / 2, a)],
        [(a, a / 2), (a, a), (a / 2, a)],
    ]
    assert sum(Polygon(piece).area for piece in pieces) == pytest.approx(a * a)
    square = Container(box(0, 0, a, a))
    assert not is_impossible(
        square, [Wanted(Polygon(piece), ALL_WAYS) for piece in pieces], 0, effort=EFFORT, boxes=(6,)
    )


@st.composite
def jigsaws(draw: st.DrawFn) -> tuple[Polygon, list[Polygon]]:
    """Return a sheet and the pieces into which straight cuts divide it."""
    width, height = draw(st.integers(50, 400)), draw(st.integers(50, 300))
    sheet = box(0, 0, width, height)
    pieces = [sheet]
    for _ in range(draw(st.integers(1, 3))):
        a, b, c, d = (draw(st.floats(0.1, 0.9)) for _ in range(4))
        cut = LineString([(a * width, -1), (b * width, height + 1)] if draw(st.booleans()) else
                         [(-1, c * height), (width + 1, d * height)])  # fmt: skip
        pieces = [part for piece in pieces for part in split(piece, cut).geoms]
    return sheet, pieces


@settings(max_examples=20)
@given(jigsaws(), st.sampled_from([0.0, 0.0005, 0.5, 6.0]), st.data())
def test_a_jigsaw_is_never_refuted(jigsaw: tuple[Polygon, list[Polygon]], gap: float, data: st.DataObject) -> None:
    """Its pieces, drawn in by half the gap, fill the sheet to the last when they are turned back."""
    sheet, pieces = jigsaw
    wanted = []
    for piece in pieces:
        sawn = piece.buffer(-gap / 2, join_style="mitre")
        if isinstance(sawn, Polygon) and not sawn.is_empty:
            attitude = data.draw(st.sampled_from(ALL_WAYS))
            wanted.append(Wanted(attitude.of(sawn), (BACK[attitude], Attitude(90))))
    assert not is_impossible(Container(sheet), wanted, gap, effort=EFFORT, boxes=(6,))


@settings(max_examples=12)
@given(
    st.lists(star_polygons(least=20, most=90), min_size=1, max_size=5),
    st.sampled_from([0.0, 3.0]),
    st.sampled_from([(0,), (0, 180), (0, 90, 180, 270)]),
    st.booleans(),
)
def test_what_has_been_placed_is_never_refuted(
    shapes: list[Polygon], gap: float, angles: tuple[int, ...], spoilt: bool
) -> None:
    """Whatever the plain placer puts on an offcut with a corner gone and a knot, and no more than that."""
    outline = box(0, 0, 420, 260).difference(Polygon([(420, 260), (300, 260), (420, 150)]))
    sheet = Container(outline, obstacles=(box(40, 40, 55, 60),) if spoilt else ())
    items = [Item(shape, angles) for shape in shapes]
    placed = Placer(gap, Effort(Budget())).fill(sheet, items)
    assert is_feasible(sheet, items, placed, gap)
    assert not is_impossible(sheet, [Wanted.of(items[one.item]) for one in placed], gap, effort=EFFORT, boxes=(6,))


def test_a_larger_share_of_the_same_is_refuted_as_well() -> None:
    """Copies are added until it is refuted, and stay refuted."""
    wedge = Wanted(affinity.scale(curved_strip(100, 20, 5, 30), 1, 1), BOTH_WAYS)
    sheet = Container(box(0, 0, 102, 70))
    refuted = [is_impossible(sheet, [wedge] * copies, 1, effort=0.2, boxes=(6,)) for copies in range(1, 7)]
    assert all(not earlier or later for earlier, later in pairwise(refuted))
    assert refuted[-1]
    assert not refuted[0]
