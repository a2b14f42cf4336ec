"""Sets of rectangles are packed, or proven not to fit."""

from collections.abc import Sequence
from itertools import combinations, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import box

from nesting.packing import PlacedRectangle, Rectangle, pack_rectangles
from nesting.solving import Status


def squares(*sides: int) -> list[Rectangle]:
    """Return squares of these sides."""
    return [Rectangle(side, side) for side in sides]


def is_sound(
    room: tuple[float, float], wanted: Sequence[Rectangle], places: Sequence[PlacedRectangle], gap: float
) -> bool:
    """Whether all lie in the room and the gap apart, to within a millionth."""
    laid = []
    for one, place in zip(wanted, places, strict=True):
        width, height = (one.height, one.width) if place.turned else (one.width, one.height)
        laid.append(box(place.x, place.y, place.x + width, place.y + height))
    inside = box(-1e-6, -1e-6, room[0] + 1e-6, room[1] + 1e-6)
    apart = all(
        one.distance(other) >= gap - 1e-6 and one.intersection(other).area < 1e-3
        for one, other in combinations(laid, 2)
    )
    return (
        apart
        and all(inside.covers(one) for one in laid)
        and not any(p.turned and not o.may_turn for o, p in zip(wanted, places, strict=True))
    )


@pytest.mark.parametrize(
    ("room", "sides"),
    [
        ((33, 32), (18, 15, 14, 10, 9, 8, 7, 4, 1)),
        ((69, 61), (36, 33, 28, 25, 16, 9, 7, 5, 2)),
        ((112, 112), (50, 42, 37, 35, 33, 29, 27, 25, 24, 19, 18, 17, 16, 15, 11, 9, 8, 7, 6, 4, 2)),
    ],
)
def test_squares_of_different_size_that_fill_a_rectangle_are_packed(
    room: tuple[int, int], sides: tuple[int, ...]
) -> None:
    """Moroń 1925; the second from memory; Duijvestijn 1978."""
    assert sum(side * side for side in sides) == room[0] * room[1]
    found = pack_rectangles(room, squares(*sides), effort=10)
    assert found.status is Status.OPTIMAL
    assert is_sound(room, squares(*sides), found.places, 0)


def test_one_side_shorter_it_is_impossible() -> None:
    """The same squares in 33 x 31.999: their area is too large; and 34 x 31, which is too small by one side."""
    sides = squares(18, 15, 14, 10, 9, 8, 7, 4, 1)
    assert pack_rectangles((33, 31.999), sides).status is Status.IMPOSSIBLE
    assert pack_rectangles((34, 31), sides).status is Status.IMPOSSIBLE


def test_two_squares_larger_than_half_a_sheet_need_two_sheets() -> None:
    """51 + 51 > 100, though the area of three would fit (worked out by hand)."""
    assert pack_rectangles((100, 100), squares(51, 51)).status is Status.IMPOSSIBLE
    assert pack_rectangles((102, 100), squares(51, 51)).status is Status.OPTIMAL


def test_the_squares_from_1_to_24_are_never_said_to_fill_the_square_of_70() -> None:
    """Their areas agree, but no packing exists (LIPIcs FUN 2024.28); the proof takes longer than this."""
    assert pack_rectangles((70, 70), squares(*range(1, 25)), effort=0.05).status in (Status.UNKNOWN, Status.IMPOSSIBLE)


def test_k_squares_of_side_k_are_never_refuted_in_the_square_of_36() -> None:
    """For k from 1 to 8 they fit exactly (known); whether places are found is a matter of time."""
    sides = squares(*(k for k in range(1, 9) for _ in range(k)))
    assert sum(one.width**2 for one in sides) == 36 * 36
    assert pack_rectangles((36, 36), sides, effort=0.05).status is not Status.IMPOSSIBLE


def test_turning_is_done_only_where_it_may() -> None:
    """A plank of 100 x 10 on 10 x 100."""
    assert pack_rectangles((10, 100), [Rectangle(100, 10)]).status is Status.IMPOSSIBLE
    assert pack_rectangles((10, 100), [Rectangle(100, 10, may_turn=True)]).places == (PlacedRectangle(0, 0, True),)


@pytest.mark.parametrize(
    ("gap", "status"), [(0, Status.OPTIMAL), (3, Status.OPTIMAL), (3.002, Status.IMPOSSIBLE), (3.0001, Status.UNKNOWN)]
)
def test_a_gap_is_kept_between_but_not_at_the_edge(gap: float, status: Status) -> None:
    """Two of 50 on 103; what is finer than a thousandth is rounded up for the answer and down for the proof."""
    found = pack_rectangles((103, 50), squares(50, 50), gap)
    assert found.status is status
    assert not found.places or is_sound((103, 50), squares(50, 50), found.places, gap)


def test_corners_may_be_nearer_along_an_axis_than_the_gap() -> None:
    """Two squares of 50 corner to corner on 107.1 x 107.1 are 10.04 apart as the crow flies, 7.1 along each axis."""
    found = pack_rectangles((107.1, 107.1), squares(50, 50), 10)
    assert found.status is Status.UNKNOWN


def possible(room: tuple[int, int], wanted: Sequence[Rectangle]) -> bool:
    """Whether some whole places of all are sound."""
    options = []
    for one in wanted:
        ways = [(one.width, one.height, False), *([(one.height, one.width, True)] if one.may_turn else [])]
        options.append(
            [
                PlacedRectangle(x, y, turned)
                for width, height, turned in ways
                for x, y in product(range(int(room[0] - width) + 1), range(int(room[1] - height) + 1))
            ]
        )
    return any(is_sound(room, wanted, places, 0) for places in product(*options))


@settings(max_examples=40)
@given(
    st.tuples(st.integers(2, 5), st.integers(2, 5)),
    st.lists(st.builds(Rectangle, st.integers(1, 4), st.integers(1, 4), st.booleans()), min_size=1, max_size=3),
)
def test_status_is_exact_for_small_sets(room: tuple[int, int], wanted: list[Rectangle]) -> None:
    """Against trying all whole places: whole figures need no others."""
    found = pack_rectangles(room, wanted)
    assert (found.status is Status.OPTIMAL) == possible(room, wanted)
    assert found.status in (Status.OPTIMAL, Status.IMPOSSIBLE)
    assert not found.places or is_sound(room, wanted, found.places, 0)
