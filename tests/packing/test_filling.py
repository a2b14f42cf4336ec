import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from plain_geometry import ring, stars
from shapely.geometry import Point, Polygon

from nesting.effort import Budget, Effort
from nesting.packing import Container, Filling, Gaps, Item, Workshop, fill, is_feasible

NO_GAPS = Gaps()
QUARTER_TURNS = (0.0, 90.0, 180.0, 270.0)


def filled(container: Container, items: list[Item], gaps: Gaps = NO_GAPS, work: int = 3000, **how: object) -> Filling:
    """Fill with a fixed amount of work."""
    return fill(Workshop(gaps), container, items, Effort(Budget(work=work)), **how)  # type: ignore[arg-type]


def square_of(side: float) -> Container:
    """Return a square container."""
    return Container(shapely.box(0, 0, side, side))


def test_four_squares_fill_a_square_to_the_last_bit() -> None:
    """An exact fit is found."""
    items = [Item(shapely.box(0, 0, 50, 50))] * 4
    assert filled(square_of(100), items).complete


def test_a_tangram_comes_out() -> None:
    """Its seven pieces fill the square: two quarters, three eighths, two sixteenths of it (from memory)."""
    large, middle, small = (Polygon([(0, 0), (leg, 0), (0, leg)]) for leg in (70.710678, 50.0, 35.355339))
    slanted = (45.0, 135.0, 225.0, 315.0)
    square = Item(shapely.box(0, 0, 35.355339, 35.355339), (45.0,))
    parallelogram = Item(Polygon([(0, 0), (50, 0), (75, 25), (25, 25)]), QUARTER_TURNS)
    items = [
        *[Item(large, slanted)] * 2,
        Item(middle, QUARTER_TURNS),
        *[Item(small, slanted)] * 2,
        square,
        parallelogram,
        Item(parallelogram.polygon, QUARTER_TURNS, mirrored=True),
    ]
    seven = filled(square_of(100), items[:7], work=12_000)
    mirrored = filled(square_of(100), [*items[:6], items[7]], work=12_000)
    assert seven.complete or mirrored.complete


def test_small_parts_lie_in_the_holes_of_large_ones() -> None:
    """Four rings that fill the container, and four squares that can only lie within them."""
    items = [*[Item(ring(50, 30))] * 4, *[Item(shapely.box(0, 0, 28, 28))] * 4]
    assert filled(square_of(100), items).complete


def test_the_most_valuable_set_is_taken() -> None:
    """Two of three won't go in together; the third is worth more than both."""
    items = [Item(shapely.box(0, 0, 60, 60)), Item(shapely.box(0, 0, 60, 59)), Item(shapely.box(0, 0, 60, 58))]
    assert filled(square_of(100), items, values=[1.0, 1.0, 5.0]).left_out == (0, 1)


def test_a_mandatory_item_goes_before_all_others() -> None:
    """However little it is worth."""
    items = [Item(shapely.box(0, 0, 60, 60)), Item(shapely.box(0, 0, 60, 59))]
    assert filled(square_of(100), items, values=[100.0, 0.0], mandatory=frozenset({1})).left_out == (0,)


def test_what_is_too_large_for_the_container_is_left_out() -> None:
    """The others are laid."""
    items = [Item(shapely.box(0, 0, 101, 5), QUARTER_TURNS), Item(shapely.box(0, 0, 100, 5))]
    assert filled(square_of(100), items).left_out == (0,)


def test_parts_keep_their_gaps_from_each_other_from_faults_and_from_the_edge() -> None:
    """Three different ones."""
    gaps = Gaps(parts=4, faults=2, edge=1)
    fault = Point(50, 50).buffer(5)
    items = [Item(shapely.box(0, 0, 40, 40))] * 4
    filling = filled(Container(shapely.box(0, 0, 100, 100), (fault,)), items, gaps)
    assert filling.complete
    laid = [shapely.box(p.x, p.y, p.x + 40, p.y + 40) for p in filling.placements]
    assert min(one.distance(other) for k, one in enumerate(laid) for other in laid[:k]) >= 4 - 1e-6
    assert min(one.distance(fault) for one in laid) >= 2 - 1e-6
    assert all(shapely.box(1, 1, 99, 99).buffer(1e-6).covers(one) for one in laid)


def test_an_item_with_lines_lies_with_them_on_the_containers() -> None:
    """At x where its own line meets the container's."""
    items = [Item(shapely.box(0, 0, 120, 30), (0.0, 180.0), lines=(50.0,)), Item(shapely.box(0, 0, 60, 20))]
    filling = filled(Container(shapely.box(0, 0, 200, 60), lines=(100.0,)), items)
    where = {placement.item: placement for placement in filling.placements}
    assert where[0].x in (50.0, 150.0)


def test_only_those_avoid_a_mark_that_say_so() -> None:
    """A mark covers half the container: one of two halves can only lie there."""
    container = Container(shapely.box(0, 0, 100, 50), marked=(("dent", shapely.box(0, 0, 50, 50)),))
    half = shapely.box(0, 0, 50, 50)
    assert filled(container, [Item(half, avoids=frozenset({"dent"})), Item(half)]).complete
    assert not filled(container, [Item(half, avoids=frozenset({"dent"}))] * 2).complete


def test_a_start_is_kept_if_it_cannot_be_bettered() -> None:
    """With no work at all what was there is handed back."""
    items = [Item(shapely.box(0, 0, 60, 60))]
    before = filled(square_of(100), items).placements
    assert filled(square_of(100), items, work=0, start=before).placements == before


def test_the_same_seed_and_work_give_the_same_filling_whatever_came_before() -> None:
    """Also in a workshop that has filled other containers."""
    items = [Item(ring(40, 15), QUARTER_TURNS)] * 5 + [Item(Polygon([(0, 0), (60, 0), (20, 30)]), QUARTER_TURNS)] * 5
    workshop = Workshop(Gaps(parts=1))
    container = square_of(110)
    first = fill(workshop, container, items, Effort(Budget(work=1500)), seed=3)
    fill(workshop, square_of(140), items[::-1], Effort(Budget(work=200)), seed=4)
    assert fill(workshop, container, items, Effort(Budget(work=1500)), seed=3) == first


def test_a_filling_ends_when_asked_to() -> None:
    """What has been found is handed back."""
    effort = Effort(Budget())
    effort.stop()
    items = [Item(shapely.box(0, 0, 60, 60))] * 3
    assert fill(Workshop(), square_of(100), items, effort).left_out


@settings(max_examples=15, deadline=None)
@given(st.lists(stars(), min_size=1, max_size=6), st.sampled_from((0.0, 3.0)), st.integers(0, 3))
def test_every_filling_is_feasible(polygons: list[Polygon], gap: float, seed: int) -> None:
    """Whatever the shapes; an L-shaped container with a fault."""
    size = max(polygon.length for polygon in polygons) / 2
    outline = Polygon([(0, 0), (2 * size, 0), (2 * size, size), (size, size), (size, 2 * size), (0, 2 * size)])
    container = Container(outline, (Point(size / 2, size / 2).buffer(size / 10),))
    items = [Item(polygon, (0.0, 37.5, 180.0)) for polygon in polygons]
    filling = filled(container, items, Gaps(parts=gap), work=300, seed=seed)
    assert is_feasible(container, items, filling.placements, gap)
    assert sorted([*filling.left_out, *(p.item for p in filling.placements)]) == list(range(len(items)))


def test_no_work_lays_nothing_that_overlaps() -> None:
    """A budget of nothing gives a filling of nothing, or of what fits at once."""
    items = [Item(shapely.box(0, 0, 60, 60))] * 3
    assert len(filled(square_of(100), items, work=0).placements) <= 1


def test_only_one_square_of_more_than_half_its_side_goes_into_a_square() -> None:
    """Though the area would let three in."""
    assert len(filled(square_of(100), [Item(shapely.box(0, 0, 51, 51))] * 3).placements) == 1
