"""What can't be worked with is refused by number and reason before anything is laid; the rest is cleaned."""

import math

import pytest
import shapely
from shapely.geometry import Polygon

from nesting.effort import Budget, Effort
from nesting.packing import Container, Item, Workshop, arrange_together, fill, pack_several, pack_strip

SQUARE = Container(shapely.box(0, 0, 100, 100))
TEN = shapely.box(0, 0, 10, 10)


def every_way(polygon: Polygon) -> list[object]:
    """Lay the polygon twice, behind a sound square, in each way there is."""
    items, workshop = [Item(TEN), Item(polygon), Item(polygon)], Workshop()
    return [
        fill(workshop, SQUARE, items, Effort(Budget(work=50))),
        list(pack_several(workshop, items, [SQUARE] * 2, Effort(Budget(work=50))))[-1],
        list(pack_strip(workshop, items, 100, Effort(Budget(work=50))))[-1],
        arrange_together(workshop, [SQUARE], items, Effort(Budget(work=50))),
    ]


@pytest.mark.parametrize(
    ("points", "reason"),
    [
        ([(0, 0), (10, 10), (10, 0), (0, 10)], r"crosses or touches itself \(Self-intersection\[5 5\]\)"),
        ([(0, 0), (10, 0), (5, 5), (10, 10), (0, 10), (5, 5)], "crosses or touches itself"),
        ([(0, 0), (10, 0), (20, 0)], "encloses no area"),
        ([(0, 0), (10, 0), (0, 0), (10, 0)], "less than three corners"),
        ([(0, 0), (10, 0), (math.nan, 10)], "not a finite number"),
        ([(0, 0), (10, 0), (math.inf, 10)], "not a finite number"),
        ([(0, 0), (1e-9, 0), (1e-9, 1e-9), (0, 1e-9)], "1e-09 x 1e-09, is thinner than 0.0001"),
        ([(0, 0), (90, 0), (90, 1e-7)], "is thinner than 0.0001"),
    ],
)
def test_an_outline_that_makes_no_sense_is_refused_by_number(points: list[tuple[float, float]], reason: str) -> None:
    """In each way to lay it."""
    polygon, items = Polygon(points), [Item(TEN), Item(Polygon(points))]
    with pytest.raises(ValueError, match=f"item 1.*{reason}"):
        fill(Workshop(), SQUARE, items, Effort(Budget(work=0)))
    with pytest.raises(ValueError, match=f"item 1.*{reason}"):
        next(pack_several(Workshop(), items, [SQUARE], Effort(Budget(work=0))))
    with pytest.raises(ValueError, match=f"item 1.*{reason}"):
        next(pack_strip(Workshop(), items, 100, Effort(Budget(work=0))))
    with pytest.raises(ValueError, match=f"item 1.*{reason}"):
        arrange_together(Workshop(), [SQUARE], [Item(TEN), Item(polygon)], Effort(Budget(work=0)))


@pytest.mark.parametrize(
    "points",
    [
        [(0, 0), (0, 10), (10, 10), (10, 0)],
        [(0, 0), (5, 0), (10, 0), (10, 10), (5, 10), (0, 10)],
        [(0, 0), (0, 0), (10, 0), (10, 0), (10, 10), (0, 10), (0, 10)],
    ],
    ids=["clockwise", "corners on an edge", "corners twice"],
)
def test_an_outline_told_oddly_is_laid_like_any_other(points: list[tuple[float, float]]) -> None:
    """All copies find a place."""
    filling, several, strip, together = every_way(Polygon(points))
    assert filling.complete  # type: ignore[attr-defined]
    assert not several.left_out  # type: ignore[attr-defined]
    assert strip.length == pytest.approx(10, abs=1e-6)  # type: ignore[attr-defined]
    assert together is not None
    assert together.apart


def test_a_ring_that_touches_itself_is_taken_for_what_it_encloses() -> None:
    """A square with a hole whose outline runs in and out through one point of its edge."""
    drawn_in_one = Polygon([(0, 0), (10, 0), (10, 10), (0, 10), (0, 5), (5, 3), (5, 7), (0, 5)])
    (place,) = fill(Workshop(), SQUARE, [Item(drawn_in_one)], Effort(Budget(work=20))).placements
    assert place.item == 0


def test_without_a_container_or_an_item_that_is_said() -> None:
    """Whatever is to be laid."""
    effort = Effort(Budget(work=0))
    with pytest.raises(ValueError, match="there is no container"):
        next(pack_several(Workshop(), [Item(TEN)], [], effort))
    with pytest.raises(ValueError, match="there is no container"):
        arrange_together(Workshop(), [], [Item(TEN)], effort)
    with pytest.raises(ValueError, match="container 0: its outline encloses no area"):
        fill(Workshop(), Container(Polygon([(0, 0), (1, 0), (2, 0)])), [Item(TEN)], effort)
    with pytest.raises(ValueError, match="there are no items"):
        next(pack_strip(Workshop(), [], 100, effort))
    with pytest.raises(ValueError, match="a strip can't be nan wide"):
        next(pack_strip(Workshop(), [Item(TEN)], math.nan, effort))


def test_what_is_mandatory_must_be_there_and_have_room() -> None:
    """By number, and by area."""
    large = [Item(shapely.box(0, 0, 80, 80))] * 2
    with pytest.raises(ValueError, match="item 2 is mandatory, and there is none of that number"):
        fill(Workshop(), SQUARE, large, Effort(Budget(work=0)), mandatory=frozenset({2}))
    with pytest.raises(ValueError, match="the mandatory items have an area of 12800, and the container 10000"):
        fill(Workshop(), SQUARE, large, Effort(Budget(work=0)), mandatory=frozenset({0, 1}))


@pytest.mark.parametrize("size", [0.5, 1e7])
def test_small_and_large_units_serve_alike(size: float) -> None:
    """Nine squares of a third of the side fill a square, however large."""
    room, third = Container(shapely.box(0, 0, size, size)), shapely.box(0, 0, size / 3, size / 3)
    assert fill(Workshop(), room, [Item(third)] * 9, Effort(Budget(work=2000))).complete
