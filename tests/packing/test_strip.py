from concurrent.futures import Executor, ProcessPoolExecutor
from itertools import pairwise
from multiprocessing import get_context

import pytest
import shapely
from shapely.geometry import Polygon

from nesting.effort import Budget, Effort
from nesting.packing import (
    Container,
    Gaps,
    Item,
    Placement,
    StripLayout,
    Workshop,
    is_feasible,
    pack_strip,
    pack_strip_in_rounds,
)

NO_GAPS = Gaps()
TURNED = (0.0, 180.0)


def packed(items: list[Item], width: float, gaps: Gaps = NO_GAPS, work: int = 1500, seed: int = 0) -> list[StripLayout]:
    """Return all layouts that were found with a fixed amount of work."""
    return list(pack_strip(Workshop(gaps), items, width, Effort(Budget(work=work)), seed))


def test_two_equal_right_triangles_make_a_rectangle() -> None:
    """By a half turn, without mirroring."""
    triangle = Polygon([(0, 0), (40, 0), (0, 100)])
    best = packed([Item(triangle, TURNED)] * 2, 100)[-1]
    assert best.length == pytest.approx(40, abs=1e-4)


def test_six_squares_lie_two_abreast() -> None:
    """On a strip twice as wide: an exact fit."""
    assert packed([Item(shapely.box(0, 0, 50, 50))] * 6, 100)[-1].length == pytest.approx(150, abs=1e-4)


def test_every_layout_is_shorter_than_the_one_before_and_feasible() -> None:
    """With a gap between parts."""
    items = [Item(Polygon([(0, 0), (40, 10), (30, 60), (10, 30)]), TURNED)] * 5 + [Item(shapely.box(0, 0, 30, 20))] * 4
    layouts = packed(items, 100, Gaps(parts=2), work=1000)
    for layout in layouts:
        assert is_feasible(Container(shapely.box(0, 0, layout.length, 100)), items, layout.placements, 2)
    assert all(later.length < earlier.length for earlier, later in pairwise(layouts))


def test_the_same_seed_and_work_give_the_same_layouts() -> None:
    """To the last bit; another seed gives others."""
    items = [Item(Polygon([(0, 0), (40, 10), (30, 60), (10, 30)]), TURNED)] * 6
    first = packed(items, 100, work=2500, seed=1)
    assert packed(items, 100, work=2500, seed=1) == first
    assert packed(items, 100, work=2500, seed=2) != first


def test_without_any_work_there_is_still_a_layout() -> None:
    """All items lie somewhere."""
    items = [Item(shapely.box(0, 0, 30, 70))] * 3
    (layout,) = packed(items, 100, work=0)
    assert len(layout.placements) == 3


def test_an_item_wider_than_the_strip_is_refused_by_number() -> None:
    """In each of its attitudes."""
    items = [Item(shapely.box(0, 0, 30, 30)), Item(shapely.box(0, 0, 110, 120), (0.0, 90.0))]
    with pytest.raises(ValueError, match="item 1 is at least 110 wide, the strip 100"):
        packed(items, 100)


def test_rounds_give_the_same_layouts_whatever_the_number_of_workers() -> None:
    """Two chains, one after another and in two processes."""
    items = [Item(Polygon([(0, 0), (40, 10), (30, 60), (10, 30)]), TURNED)] * 6

    def found(executor: Executor | None) -> list[StripLayout]:
        return list(pack_strip_in_rounds(Workshop(), items, 100, Effort(Budget(work=1200)), seed=1, executor=executor))

    with ProcessPoolExecutor(2, mp_context=get_context("spawn")) as processes:
        together = found(processes)
    assert together == found(None)
    for layout in together:
        assert is_feasible(Container(shapely.box(0, 0, layout.length, 100)), items, layout.placements, 0)


def test_rounds_end_when_asked_to() -> None:
    """Though much work is left."""
    effort = Effort(Budget())
    for _ in pack_strip_in_rounds(Workshop(), [Item(shapely.box(0, 0, 30, 70))] * 3, 100, effort, chains=1):
        effort.stop()
    assert effort.stopped


def test_a_layout_is_bettered_from_where_it_is() -> None:
    """Six squares in a row, one of them turned; a start that is wrong is refused."""
    items = [Item(shapely.box(0, 0, 50, 50), TURNED)] * 6
    row = StripLayout(
        300.0, tuple(Placement(k, 0.0 if k else 180.0, 50.0 * k + (k == 0) * 50, (k == 0) * 50) for k in range(6))
    )
    first, *_, last = pack_strip(Workshop(), items, 100, Effort(Budget(work=1500)), start=row)
    assert first.length == pytest.approx(300)
    assert last.length == pytest.approx(150, abs=1e-4)
    with pytest.raises(ValueError, match="the start is not feasible"):
        next(pack_strip(Workshop(), items, 99, Effort(Budget(work=0)), start=StripLayout(290.0, row.placements)))
    with pytest.raises(ValueError, match="the start does not place each item once"):
        next(pack_strip(Workshop(), items[:2], 100, Effort(Budget(work=0)), start=row))
