import pytest
import shapely
from shapely.geometry import Point, Polygon

from nesting.effort import Budget, Effort
from nesting.packing import Container, Gaps, Item, SeveralLayouts, Workshop, is_feasible, pack_several

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
