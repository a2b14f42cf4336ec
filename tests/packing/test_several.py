import pytest
import shapely
from shapely.geometry import Point, Polygon

from nesting.effort import Budget, Effort
from nesting.packing import Container, Gaps, Item, Laid, Placement, SeveralLayouts, Workshop, is_feasible, pack_several
from nesting.packing.verifying import laid

NO_GAPS = Gaps()
SQUARE = Container(shapely.box(0, 0, 100, 100))


def packed(
    items: list[Item], containers: list[Container], gaps: Gaps = NO_GAPS, work: int = 4000, **how: object
) -> SeveralLayouts:
    """Return the last layout found with a fixed amount of work."""
    effort = Effort(Budget(work=work))
    return list(pack_several(Workshop(gaps), items, containers, effort, **how))[-1]  # type: ignore[arg-type]


def test_ten_squares_of_more_than_half_the_side_need_ten_containers() -> None:
    """Though the area would let three do."""
    layout = packed([Item(shapely.box(0, 0, 51, 51))] * 10, [SQUARE] * 12, work=2000)
    assert (layout.cost, len(layout.laid), layout.left_out) == (10, 10, ())


def test_eight_squares_of_half_the_side_fill_two_containers() -> None:
    """To the last bit."""
    assert packed([Item(shapely.box(0, 0, 50, 50))] * 8, [SQUARE] * 4).cost == 2


def test_unequal_containers_with_a_fault_hold_what_fits_them() -> None:
    """An L, and a square with a hole in the middle of it."""
    ell = Container(Polygon([(0, 0), (100, 0), (100, 40), (40, 40), (40, 100), (0, 100)]))
    faulty = Container(shapely.box(0, 0, 80, 80), (Point(40, 40).buffer(10),))
    items = [Item(shapely.box(0, 0, 28, 28))] * 7
    layout = packed(items, [ell, faulty], Gaps(parts=1, faults=1))
    assert not layout.left_out
    for one in layout.laid:
        assert is_feasible((ell, faulty)[one.container], items, one.placements, 1)


def test_the_dearest_container_that_can_be_spared_is() -> None:
    """One of the two is enough."""
    items = [Item(shapely.box(0, 0, 100, 50)), Item(shapely.box(0, 0, 40, 50))]
    layout = packed(items, [SQUARE, Container(shapely.box(0, 0, 101, 101))], costs=[5.0, 2.0])
    assert len(layout.laid) == 1


def test_what_finds_no_place_is_told() -> None:
    """When there are too few containers."""
    assert packed([Item(shapely.box(0, 0, 60, 60))] * 3, [SQUARE] * 2, work=100).left_out == (2,)


def test_an_item_that_fits_nowhere_is_named_with_its_size() -> None:
    """At once."""
    items = [Item(shapely.box(0, 0, 10, 10)), Item(shapely.box(0, 0, 130, 20), (0.0, 90.0))]
    with pytest.raises(ValueError, match="item 1, 130 x 20, fits into no container"):
        packed(items, [SQUARE])


def test_the_same_seed_and_work_give_the_same_layouts() -> None:
    """To the last bit."""
    items = [Item(Polygon([(0, 0), (60, 0), (20, 45)]), (0.0, 180.0))] * 9
    assert packed(items, [SQUARE] * 3, seed=4, work=800) == packed(items, [SQUARE] * 3, seed=4, work=800)


def test_hundreds_of_items_are_laid_on_a_grid_first_and_then_in_parts() -> None:
    """Feasible layouts with gaps and faults; a better one than the first is found."""
    triangle, ell = Polygon([(0, 0), (16, 0), (0, 12)]), Polygon([(0, 0), (14, 0), (14, 4), (4, 4), (4, 14), (0, 14)])
    items = [Item(polygon, (0.0, 180.0)) for polygon in (triangle, ell)] * 155
    faulty = Container(shapely.box(0, 0, 122, 122), (Point(50, 50).buffer(3),))
    effort, gaps = Effort(Budget(work=2000)), Gaps(parts=0.2, faults=0.5, edge=1)
    layouts = list(pack_several(Workshop(gaps), items, [faulty] * 12, effort))
    for layout in layouts:
        assert sorted(p.item for one in layout.laid for p in one.placements) == list(range(310))
        for one in layout.laid:
            assert is_feasible(faulty, items, one.placements, 0.2)
    assert len(layouts) > 1


def test_a_layout_is_bettered_from_where_it_is() -> None:
    """Two squares, each turned by half a turn in a container of its own, fit into one; a wrong start is refused."""
    items = [Item(shapely.box(0, 0, 50, 100), (0.0, 180.0))] * 2
    start = SeveralLayouts(tuple(Laid(k, (Placement(k, 180.0, 60.0, 100.0),)) for k in range(2)), cost=0)
    first, *_, last = pack_several(Workshop(), items, [SQUARE] * 3, Effort(Budget(work=500)), start=start)
    assert (first.laid, first.cost, last.cost) == (start.laid, 2, 1)
    wrong = SeveralLayouts((Laid(0, (Placement(0, 180.0, 60.0, 100.0), Placement(1, 180.0, 61.0, 100.0))),), cost=0)
    with pytest.raises(ValueError, match="the start is not feasible"):
        next(pack_several(Workshop(), items, [SQUARE] * 3, Effort(Budget(work=0)), start=wrong))
    with pytest.raises(ValueError, match="the start does not tell of each item once"):
        next(pack_several(Workshop(), items, [SQUARE], Effort(Budget(work=0)), start=SeveralLayouts((), 0)))


def test_what_is_laid_keeps_its_gap_to_parts_that_lie_there_already() -> None:
    """A part in the middle of each container; faults need no gap."""
    there = Point(50, 50).buffer(20)
    around = SQUARE.around([there], 3)
    items = [Item(shapely.box(0, 0, 25, 25))] * 8
    (*_, layout) = pack_several(Workshop(Gaps(parts=3)), items, [around] * 3, Effort(Budget(work=300)))
    laid_there = [laid(items, place) for one in layout.laid for place in one.placements]
    assert len(laid_there) == 8
    assert all(shape.distance(there) >= 3 - 0.001 for shape in laid_there)
