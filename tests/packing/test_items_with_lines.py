"""Items with lines of their own lie on the container's lines, and on no other."""

from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import box

from nesting.effort import Budget, Effort
from nesting.packing import Container, Item, Placement, Placer, is_feasible

BLANK = Container(box(0, 0, 1000, 300), (), (), (400.0, 700.0))


def placed(items: list[Item], container: Container = BLANK) -> tuple[Placement, ...]:
    """Return what finds a place, one unit apart."""
    return Placer(1, Effort(Budget())).fill(container, items)


def test_an_item_slides_until_its_line_is_on_a_line() -> None:
    """Its line at 100 can lie on 400 only: on 700 it would reach over 400 with no line there."""
    (place,) = placed([Item(box(0, 0, 420, 50), lines=(310.0,))])
    assert place.x + 310 in (400.0, 700.0)
    assert is_feasible(BLANK, [Item(box(0, 0, 420, 50), lines=(310.0,))], [place], 1)


def test_two_lines_must_match_two_lines() -> None:
    """300 apart on the container: 300 apart on the item fits, 250 does not."""
    assert placed([Item(box(0, 0, 600, 50), lines=(150.0, 450.0))])
    assert not placed([Item(box(0, 0, 600, 50), lines=(150.0, 400.0))])


def test_an_item_may_be_turned_to_find_its_line() -> None:
    """As drawn it would stick out at the low end; turned end for end it lies on 400."""
    item = Item(box(0, 0, 650, 50), angles=(0, 180), lines=(600.0,))
    (place,) = placed([item], Container(box(0, 0, 1000, 300), (), (), (400.0,)))
    assert place.angle == 180
    assert place.x - 600 == 400


def test_a_place_off_the_lines_is_not_feasible() -> None:
    """The check by geometry alone sees it."""
    item = Item(box(0, 0, 420, 50), lines=(310.0,))
    assert not is_feasible(BLANK, [item], [Placement(0, 0, 91.0, 0.0)], 1)


@settings(max_examples=20)
@given(st.lists(st.tuples(st.integers(100, 900), st.integers(20, 120), st.integers(10, 90)), min_size=1, max_size=6))
def test_whatever_is_placed_is_feasible(sizes: list[tuple[int, int, int]]) -> None:
    """With lines at any share of the length."""
    items = [
        Item(box(0, 0, length, width), angles=(0, 180), lines=(round(length * share / 100, 1),))
        for length, width, share in sizes
    ]
    placements = placed(items)
    assert is_feasible(BLANK, items, placements, 1)
