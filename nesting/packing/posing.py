"""Turns items and containers into the arrays of a search."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from shapely.geometry import Polygon

from nesting.effort import Effort

from .arrays import Around, Layout
from .discs import DISCS
from .prepared_shape import Look
from .pushing import Pusher
from .searching import Search
from .workshop import Gaps, Option, Workshop


@dataclass(frozen=True)
class Fixed:
    """What lies fast in a container: a part, a fault or a notch of the outline; moved by (x, y)."""

    look: Look
    container: int
    is_part: bool = False
    x: float = 0.0
    y: float = 0.0


@dataclass(frozen=True)
class Wanted:
    """An item that may be moved: its options and its area."""

    options: tuple[Option, ...]
    area: float


def pose(
    workshop: Workshop,
    wanted: Sequence[Wanted],
    outlines: Sequence[Polygon],
    fixed: Sequence[Fixed],
    effort: Effort,
    seed: int,
    harmless: Sequence[tuple[int, int]] = (),
    allowed: Sequence[frozenset[int]] | None = None,
) -> Search:
    """Return a search in which nothing is placed yet.

    Parameters
    ----------
    wanted, outlines, fixed
        The items, the containers, and what lies fast in them.
    harmless : sequence of (item, number in ``fixed``)
        Which may overlap.
    allowed : sequence of set of int, or None
        In which containers each item may lie; None for all.
    """
    tables = workshop.tables([want.options for want in wanted], [(one.look, one.is_part) for one in fixed])
    areas = np.array([*(want.area for want in wanted), *(one.look.shape.area for one in fixed)])
    n, movable = len(areas), len(wanted)
    first = tables.option[:-1]
    looks = {look: k for k, look in reversed(list(enumerate(_looks(wanted, fixed))))}
    weight = np.ones((n, n))
    for item, number in harmless:
        weight[item, movable + number] = weight[movable + number, item] = 0.0
    mean = float(areas[:movable].mean())
    layout = Layout(
        x=np.array([*np.zeros(movable), *(one.x for one in fixed)], np.float64),
        y=np.array([*np.zeros(movable), *(one.y for one in fixed)], np.float64),
        look=np.array([*tables.option_look[first], *(looks[one.look] for one in fixed)], np.int64),
        container=np.array([*np.full(movable, -1), *(one.container for one in fixed)], np.int64),
        choice=np.array([*first, *np.full(len(fixed), -1)], np.int64),
        weight=weight,
        factor=np.minimum((areas / mean) ** 0.25, 3.0),
        depth=np.zeros((n, n)),
        loss=np.zeros((n, n)),
        room=np.array([_room(outline, workshop.gaps) for outline in outlines]),
        allowed=_allowed(movable, len(outlines), allowed),
        chance=np.array([_mixed(seed)], np.uint64),
        movable=movable,
    )
    unit = float((layout.room[:, 3] - layout.room[:, 1]).max()) / 100
    fixed_x = np.array([bool(want.options[0].moves) for want in wanted])
    angles = tuple(option.look.attitude.angle for want in wanted for option in want.options)
    around = Around.of(n, len(outlines), DISCS)
    pusher = Pusher(tables, around, fixed_x, unit, lambda: effort.out_of_time)
    return Search(tables, layout, around, pusher, float(np.sqrt(mean)), effort, angles)


def _looks(wanted: Sequence[Wanted], fixed: Sequence[Fixed]) -> list[Look]:
    """Return all looks in the order in which the workshop numbers them."""
    every = [option.look for want in wanted for option in want.options] + [one.look for one in fixed]
    return list(dict.fromkeys(every))


def _allowed(items: int, containers: int, allowed: Sequence[frozenset[int]] | None) -> NDArray[np.bool_]:
    if allowed is None:
        return np.ones((items, containers), np.bool_)
    return np.array([[number in those for number in range(containers)] for those in allowed], np.bool_)


def _room(outline: Polygon, gaps: Gaps) -> NDArray[np.float64]:
    west, south, east, north = outline.bounds
    return np.array([west + gaps.edge, south + gaps.edge, east - gaps.edge, north - gaps.edge])


def _mixed(seed: int) -> int:
    """Return a random state that differs in all bits from one seed to the next (splitmix64, Steele et al. 2014)."""
    state = (seed + 1) * 0x9E3779B97F4A7C15 % 2**64
    state = (state ^ state >> 30) * 0xBF58476D1CE4E5B9 % 2**64
    state = (state ^ state >> 27) * 0x94D049BB133111EB % 2**64
    return (state ^ state >> 31) or 1
