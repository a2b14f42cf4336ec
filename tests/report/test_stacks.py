"""Which sheets are laid on one another and sawn together."""

import pytest
from one_sheet_plan import lying, one_sheet_plan
from sample_plan import sample_plan
from shapely import affinity
from shapely.geometry import Polygon, box

from nesting.model import UsedSheet
from nesting.report import stacked_in_words, stacks

SIZE = (2440, 1220)
KNEE = Polygon([(0, 0), (300, 0), (60, 200), (0, 200)])


def two_sheets(shapes, laid):
    """Return a plan whose second sheet holds the same parts as they are laid on it."""
    plan = one_sheet_plan(shapes, SIZE)
    length, width = SIZE
    outline = ((0, 0), (length, 0), (length, width), (0, width))
    second = UsedSheet(id="S2", stock="ply", source="buy", outline=outline, trim=0)
    pieces = tuple(lying(name, laid(shape), on="S2") for name, shape in shapes.items())
    return plan.model_copy(update={"used": (*plan.used, second), "pieces": (*plan.pieces, *pieces)})


LAID = {"knee": affinity.translate(KNEE, 100, 50), "shelf": box(700, 80, 1500, 400)}


@pytest.mark.parametrize(
    ("scales", "turned_over", "end_for_end", "words"),
    [
        ((1, 1), False, False, "S2 is laid out like S1: stack it on top, good faces up, and cut both."),
        ((-1, -1), False, True, "good faces up, turned end for end"),
        ((1, -1), True, False, "turned over about its long edge"),
        ((-1, 1), True, True, "turned over end for end, good faces together"),
    ],
)
def test_layouts_that_are_alike_are_stacked(scales, turned_over, end_for_end, words):
    """Equal, turned by half a turn, or mirrored either way about the middle of the sheet."""
    plan = two_sheets(LAID, lambda shape: affinity.scale(shape, *scales, origin=(1220, 610)))
    (stacked,) = stacks(plan)
    assert (stacked.name, stacked.under) == ("S2", "S1")
    assert (stacked.turned_over, stacked.end_for_end) == (turned_over, end_for_end)
    assert words in stacked_in_words(plan)[0]


def test_a_layout_that_is_off_by_a_millimetre_is_not_stacked():
    """Close is not equal: one of the two would be spoilt."""
    assert stacks(two_sheets(LAID, lambda shape: affinity.translate(shape, 1, 0))) == ()


def test_other_parts_of_the_same_shape_are_not_stacked():
    """Parts are told apart by their names, and an empty sheet is like no other."""
    assert stacks(sample_plan()) == ()
