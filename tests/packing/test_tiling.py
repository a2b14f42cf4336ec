"""Items that fill containers to the last corner are laid like the pieces of a jigsaw."""

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, Polygon
from shapely.ops import split

from nesting.effort import Budget, Effort
from nesting.packing import Container, Item, is_feasible
from nesting.packing.corners import leftmost_corner
from nesting.packing.tiling import Tiling, can_tile, tile

EIGHTHS = tuple(45.0 * k for k in range(8))


def room(width: float, height: float, x: float = 0.0) -> Container:
    """Return a rectangle to be filled."""
    return Container(shapely.box(x, 0, x + width, height))


def squares(*sides: float) -> list[Item]:
    """Return squares with these sides."""
    return [Item(shapely.box(0, 0, side, side)) for side in sides]


def tiled(containers: list[Container], items: list[Item], work: int = 5000) -> Tiling | None:
    """Return a tiling after so much work; it is feasible."""
    assert can_tile(containers, items)
    places = tile(containers, items, Effort(Budget(work=work)))
    if places is not None:
        assert sorted(place.item for _, place in places) == list(range(len(items)))
        for number, container in enumerate(containers):
            here = [place for at, place in places if at == number]
            assert is_feasible(container, items, here, 0.0, 1e-6 * 100)
    return places


@pytest.mark.parametrize(
    ("width", "height", "sides"),
    [
        (33, 32, (18, 15, 14, 10, 9, 8, 7, 4, 1)),  # Moroń 1925
        (69, 61, (36, 33, 28, 25, 16, 9, 7, 5, 2)),  # from memory
    ],
)
def test_a_perfect_squared_rectangle_comes_out(width: int, height: int, sides: tuple[int, ...]) -> None:
    """Squares of different size that fill a rectangle."""
    assert tiled([room(width, height)], squares(*sides))


def test_a_tangram_comes_out_though_each_piece_may_be_turned_by_eighths() -> None:
    """Two quarters, three eighths and two sixteenths of the square (common practice)."""
    quarter, small = Polygon([(0, 0), (4, 0), (2, 2)]), Polygon([(0, 0), (2, 0), (1, 1)])
    eighths = [Polygon([(0, 0), (2, 0), (0, 2)]), shapely.box(0, 0, math.sqrt(2), math.sqrt(2))]
    slanted = Polygon([(0, 0), (2, 0), (3, 1), (1, 1)])
    pieces = [quarter, quarter, *eighths, slanted, small, small]
    assert tiled([room(4, 4)], [Item(piece, EIGHTHS) for piece in pieces])


def test_nothing_is_claimed_where_areas_agree_and_no_packing_exists() -> None:
    """The squares of sides 1 to 24 and the square of 70 (paper of FUN 2024, LIPIcs)."""
    assert tiled([room(70, 70)], squares(*range(1, 25)), work=150) is None


def test_when_all_was_tried_it_ends_before_the_work_is_spent() -> None:
    """Four rectangles of the right area, and no way to lie."""
    effort = Effort(Budget(work=10**9))
    assert (
        tile([room(4, 4)], [Item(shapely.box(0, 0, 1, 4)), Item(shapely.box(0, 0, 4, 1)), *squares(3)], effort) is None
    )
    assert effort.spent < 100


def test_several_containers_and_a_fault_are_filled() -> None:
    """A rectangle whose corner is taken, and one that lies elsewhere."""
    ell = Container(shapely.box(0, 0, 60, 40), (shapely.box(40, 20, 60, 40),))
    pieces = [shapely.box(0, 0, 40, 40), shapely.box(0, 0, 20, 20), shapely.box(0, 0, 25, 40), shapely.box(0, 0, 5, 40)]
    assert tiled([ell, room(30, 40, x=-500.0)], [Item(piece) for piece in pieces])


def test_a_container_that_is_not_filled_is_none_for_a_jigsaw() -> None:
    """A hair too little area, and items that must heed lines."""
    assert not can_tile([room(100, 100)], squares(99.9))
    assert not can_tile([room(100, 100)], [Item(shapely.box(0, 0, 100, 100), lines=(50.0,))])


def test_the_lower_edge_runs_on_as_far_as_its_corners_lie_straight() -> None:
    """Corners that lie on an edge do not end it."""
    corner = leftmost_corner(Polygon([(0, 0), (1, 0), (3, 0), (3, 2), (0, 5), (0, 1)]), 1e-6)
    assert (corner.lower.angle, corner.lower.length) == (0.0, 3.0)
    assert (corner.upper.angle, corner.upper.length) == (math.pi / 2, 5.0)


@given(st.lists(st.tuples(st.floats(10, 90), st.floats(10, 90)), min_size=1, max_size=5), st.randoms())
@settings(max_examples=25)
def test_a_square_cut_by_straight_cuts_is_put_together_again(cuts: list[tuple[float, float]], random: object) -> None:
    """Each cut goes through all pieces, from the west to the east or from the south to the north side."""
    pieces = [shapely.box(0, 0, 100, 100)]
    for number, (start, end) in enumerate(cuts):
        line = LineString([(-1, start), (101, end)] if number % 2 else [(start, -1), (end, 101)])
        pieces = [part for piece in pieces for part in shapely.get_parts(split(piece, line))]
    if min(piece.area / piece.length for piece in pieces) < 0.05:
        return  # slivers are for rounding
    random.shuffle(pieces)  # type: ignore[attr-defined]
    assert tiled([room(100, 100)], [Item(piece) for piece in pieces])
