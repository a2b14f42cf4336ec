"""Layouts on strips and in bins are checked without what made them."""

from collections.abc import Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchmarks.data import Bin, BinInstance, IrregularItem, Rectangle, RectangularInstance, StripInstance
from benchmarks.verifying import (
    Laid,
    LaidRectangle,
    as_laid,
    bins_faults,
    rectangles_faults,
    strip_density,
    strip_faults,
    strip_length,
)

TRIANGLE = IrregularItem(((0, 0), (40, 0), (0, 30)), 2, (0.0, 180.0))
SQUARE = IrregularItem(((0, 0), (10, 0), (10, 10), (0, 10)), 1, None)
STRIP = StripInstance("two triangles and a square", "ours", 30, (TRIANGLE, SQUARE))
BINS = BinInstance("the same", "ours", "ours", 40, 30, (TRIANGLE, SQUARE), optimum=2)

#: Two triangles make a rectangle by a half turn (no mirroring), the square lies beside it, turned by 90 degrees.
LAYOUT = (Laid(0, 0, 0, 0), Laid(0, 180, 40, 30), Laid(1, 90, 50, 0))


def changed(index: int, laid: Laid) -> tuple[Laid, ...]:
    """Return the layout with one placement exchanged."""
    return (*LAYOUT[:index], laid, *LAYOUT[index + 1 :])


def test_a_layout_whose_parts_touch_is_sound() -> None:
    """And its length and density are taken from where the parts lie."""
    assert strip_faults(STRIP, LAYOUT) == []
    assert strip_length(STRIP, LAYOUT) == pytest.approx(50)
    assert strip_density(STRIP, LAYOUT) == pytest.approx(100 * 1300 / 1500)


def test_mirrored_comes_before_turned_before_moved() -> None:
    """(40, 0) stays on the axis, turns up, and moves."""
    assert set(as_laid(TRIANGLE.polygon, Laid(0, 90, 1, 2, mirrored=True)).exterior.coords) == {
        (1.0, 2.0), (1.0, 42.0), (31.0, 2.0),
    }  # fmt: skip


@pytest.mark.parametrize(
    ("layout", "told"),
    [
        (LAYOUT[:2], "item 1 is there 0 times, not 1"),
        ((*LAYOUT, LAYOUT[2]), "item 1 is there 2 times, not 1"),
        ((*LAYOUT, Laid(7, 0, 0, 0)), "item 7 is there 1 times, not 0"),
        (changed(2, Laid(1, 90, 60, 20)), ""),
        (changed(2, Laid(1, 90, 49.99, 0)), "placements 1 and 2 overlap"),
        (changed(1, Laid(0, 180, 39.999, 30)), "placements 0 and 1 overlap"),
        (changed(1, Laid(0, 180, 40, 30.001)), "placement 1 is not within 50 x 30"),
        (changed(0, Laid(0, 0, -0.001, 0)), "placement 0 is not within"),
        (changed(1, Laid(0, 179.9, 40, 30)), "item 0 lies at 179.9 degrees"),
        (changed(1, Laid(0, -180, 40, 30)), ""),
        (changed(2, Laid(1, 0, 45, 10, mirrored=True)), "item 1 is mirrored"),
        (changed(2, Laid(1, 0, 5, 5)), "placements 0 and 2 overlap"),
    ],
)
def test_each_damage_to_a_strip_is_told(layout: Sequence[Laid], told: str) -> None:
    """Or nothing, where the layout is as good as before."""
    found = strip_faults(STRIP, layout)
    assert told in "\n".join(found)
    assert bool(found) == bool(told)


@given(st.floats(-1e-4, 1e-4))
def test_depth_decides_whether_parts_overlap(depth: float) -> None:
    """Deeper than a millionth of the width of the strip: told, however long the common edge; less deep: not."""
    side = IrregularItem(((0, -5), (10, -5), (10, 5), (0, 5)), 2, None)
    strip = StripInstance("two squares", "ours", 30, (side,))
    first, second = Laid(0, 0, 10, 10), Laid(0, 0, 20 - depth, 10)
    faults = strip_faults(strip, (first, second))
    assert bool(faults) == (depth > 30e-6) or abs(depth - 30e-6) < 1e-9


def test_bins_are_checked_one_by_one() -> None:
    """The square has a bin of its own."""
    assert bins_faults(BINS, [LAYOUT[:2], [Laid(1, 0, 0, 0)]]) == []
    assert bins_faults(BINS, [LAYOUT[:2], [Laid(1, 0, 31, 0)]]) == ["bin 2: placement 0 is not within 40 x 30"]
    assert bins_faults(BINS, [LAYOUT[:2]]) == ["item 1 is there 0 times, not 1"]


def test_steps_may_be_allowed_that_the_file_does_not() -> None:
    """Papers commonly allow quarter turns."""
    wide = BinInstance("wide", "ours", "ours", 90, 40, (TRIANGLE,))
    bins = [[Laid(0, 0, 0, 0), Laid(0, 90, 80, 0)]]
    assert bins_faults(wide, bins) == ["bin 1: item 0 lies at 90 degrees"]
    assert bins_faults(wide, bins, steps_of=90) == []
    assert "bin 1: item 0 lies at 1 degrees" in bins_faults(wide, [[bins[0][0], Laid(0, 91, 80, 0)]], steps_of=90)


RECTANGLES = RectangularInstance(
    "three", "ours", "ours", (Bin(10, 10, 1, None), Bin(4, 4, 1, 1)), (Rectangle(10, 4, 2), Rectangle(4, 2, 1)), False
)
SOUND = [(0, (LaidRectangle(0, 0, 0), LaidRectangle(0, 0, 4))), (1, (LaidRectangle(1, 0, 2),))]


def test_rectangles_that_touch_are_sound() -> None:
    """Whole numbers need no tolerance."""
    assert rectangles_faults(RECTANGLES, SOUND) == []


@pytest.mark.parametrize(
    ("bins", "told"),
    [
        (SOUND[:1], "item 1 is there 0 times, not 1"),
        ([*SOUND, (1, ())], "2 bins of kind 1 are used, 1 are there"),
        ([SOUND[0], (1, (LaidRectangle(1, 1, 2),))], "bin 2: placement 0 is not within it"),
        ([SOUND[0], (1, (LaidRectangle(1, 0, 0, turned=True),))], "bin 2: placement 0 is turned"),
        ([(0, (LaidRectangle(0, 0, 0), LaidRectangle(0, 0, 3))), SOUND[1]], "bin 1: placements 0 and 1 overlap"),
    ],
)
def test_each_damage_to_rectangles_is_told(bins: list[tuple[int, tuple[LaidRectangle, ...]]], told: str) -> None:
    """Quantities, stock, edges, turning, overlap."""
    assert told in rectangles_faults(RECTANGLES, bins)
