"""Bodies of boxes find places, or are proven to have none."""

from collections.abc import Iterator, Sequence
from itertools import product

from hypothesis import given, settings
from hypothesis import strategies as st

from nesting.solving import Body, Box, Lying, Status, Way, arrange

EFFORT = 5.0


def moved(box: Box, x: int, y: int) -> Box:
    """Return a box moved."""
    return Box(box.x + x, box.y + y, box.width, box.height)


def overlap(one: Box, other: Box) -> bool:
    """Whether two boxes share more than an edge."""
    return one.x < other.right and other.x < one.right and one.y < other.top and other.y < one.top


def holds(room: Box, box: Box) -> bool:
    """Whether a box lies in the room."""
    return room.x <= box.x and room.y <= box.y and box.right <= room.right and box.top <= room.top


def is_sound(room: Box, bodies: Sequence[Body], places: Sequence[Lying]) -> bool:
    """Whether all reaches are in the room, and no box overlaps one of another body or a wall of its own."""
    laid = []
    for body, place in zip(bodies, places, strict=True):
        way = body.ways[place.way]
        if not holds(room, moved(way.reach, place.x, place.y)):
            return False
        laid.append([moved(box, place.x, place.y) for box in way.boxes])
        if any(overlap(box, wall) for box in laid[-1] for wall in body.walls):
            return False
    return not any(
        overlap(one, other)
        for k, boxes in enumerate(laid)
        for others in laid[:k]
        for one, other in product(boxes, others)
    )


def everywhere(room: Box, body: Body) -> Iterator[Lying]:
    """Yield every whole place of a body."""
    for index, way in enumerate(body.ways):
        for x in range(room.x - way.reach.x, room.right - way.reach.right + 1):
            for y in range(room.y - way.reach.y, room.top - way.reach.top + 1):
                yield Lying(index, x, y)


@st.composite
def ways(draw: st.DrawFn) -> Way:
    """Return two boxes side by side, or one, whose reach leaves out a margin."""
    left = Box(draw(st.integers(-1, 1)), draw(st.integers(-1, 1)), draw(st.integers(1, 2)), draw(st.integers(1, 3)))
    right = Box(left.right, left.y + draw(st.integers(-1, 1)), draw(st.integers(1, 2)), draw(st.integers(1, 2)))
    boxes = (left, right) if draw(st.booleans()) else (left,)
    return Way(draw(st.sampled_from(boxes)), boxes)


bodies = st.builds(
    Body,
    st.lists(ways(), min_size=1, max_size=2).map(tuple),
    st.sampled_from([(), (Box(1, 1, 1, 1),), (Box(0, 0, 2, 1), Box(3, 2, 4, 1))]),
)


@settings(max_examples=80)
@given(st.integers(2, 5), st.integers(2, 4), st.lists(bodies, min_size=1, max_size=3))
def test_places_are_found_if_and_only_if_there_are_any(width: int, height: int, wanted: list[Body]) -> None:
    """Against trying all whole places."""
    room = Box(0, 0, width, height)
    there_are = any(
        is_sound(room, wanted, places) for places in product(*(list(everywhere(room, body)) for body in wanted))
    )
    found = arrange(room, wanted, effort=EFFORT)
    assert found.found == there_are
    assert (found.status is Status.IMPOSSIBLE) == (not there_are)
    assert not there_are or is_sound(room, wanted, found.places)


def test_equal_bodies_may_lie_above_one_another() -> None:
    """Though the order of equal ones is fixed along x."""
    flat = Body((Way(Box(0, 0, 2, 1), (Box(0, 0, 2, 1),)),))
    found = arrange(Box(0, 0, 2, 3), [flat] * 3, effort=EFFORT)
    assert sorted((place.x, place.y) for place in found.places) == [(0, 0), (0, 1), (0, 2)]


def test_a_body_that_fits_in_no_way_is_refused_at_once() -> None:
    """Whatever the others."""
    long = Body((Way(Box(0, 0, 5, 1), (Box(0, 0, 5, 1),)),))
    assert arrange(Box(0, 0, 4, 4), [long], effort=0).status is Status.IMPOSSIBLE


def test_without_time_nothing_is_proven() -> None:
    """Nor are places found: 150 squares of 7 on 100 x 100."""
    square = Body((Way(Box(0, 0, 7, 7), (Box(0, 0, 7, 7),)),))
    assert arrange(Box(0, 0, 100, 100), [square] * 150, effort=0.0).status is Status.UNKNOWN


def test_nothing_to_place_has_its_places() -> None:
    """All none of them."""
    assert arrange(Box(0, 0, 1, 1), [], effort=1).found
