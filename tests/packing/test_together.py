"""All of a set of items in several containers at once."""

import shapely

from nesting.effort import Budget, Effort
from nesting.packing import (
    Arrangement,
    Container,
    Gaps,
    Item,
    Placement,
    Places,
    Workshop,
    arrange_together,
    is_feasible,
)

SQUARE = Container(shapely.box(0, 0, 100, 100))
HALF = Item(shapely.box(0, 0, 100, 50))


def arranged(items: list[Item], containers: list[Container], work: int = 300, start: Places = ()) -> Arrangement | None:
    """Return what was found with a fixed amount of work."""
    return arrange_together(Workshop(Gaps()), containers, items, Effort(Budget(work=work)), start=start)


def test_four_halves_lie_in_two_squares() -> None:
    """Two in each, apart, and none overlaps another."""
    found = arranged([HALF] * 4, [SQUARE] * 2)
    assert found is not None
    assert found.apart
    assert found.overlap == 0
    assert sorted(number for number, _ in found.places) == [0, 0, 1, 1]


def test_what_does_not_fit_together_is_told_with_its_overlaps() -> None:
    """Three halves in one square: each has a place, and some overlap."""
    found = arranged([HALF] * 3, [SQUARE])
    assert found is not None
    assert not found.apart
    assert found.overlap > 0
    assert len(found.places) == len(found.overlaps) == 3


def test_an_item_larger_than_every_container_has_no_arrangement() -> None:
    """Not even one that overlaps."""
    assert arranged([Item(shapely.box(0, 0, 101, 50))], [SQUARE]) is None


def test_an_item_that_begins_outside_is_brought_inside() -> None:
    """As when a piece has grown since it was laid."""
    grown = Item(shapely.box(0, 0, 90, 50))
    found = arranged([grown], [SQUARE], start=((0, Placement(0, 0, 40, 70)),))
    assert found is not None
    assert found.apart
    assert is_feasible(SQUARE, [grown], [place for _, place in found.places], 0)


def test_items_stay_where_they_begin_if_they_are_apart_there() -> None:
    """Nothing is moved without need."""
    start = ((0, Placement(0, 0, 0, 50)), (0, Placement(1, 0, 0, 0)))
    found = arranged([HALF] * 2, [SQUARE], start=start)
    assert found is not None
    assert [place.y for _, place in found.places] == [50, 0]
