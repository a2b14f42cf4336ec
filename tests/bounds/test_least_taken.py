"""The least that a panel takes at given prices is never more than any division takes, and near what the best does."""

from itertools import combinations, pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from nesting.bounds.asked import asked_of
from nesting.bounds.least_taken import taker_of
from nesting.bounds.resources import Resources, resources_of
from nesting.bounds.supply import supply_of
from nesting.model import Job
from tests.jobs import PLY, job, panel

GAP, LAP, SPACING = 3.0, 48.0, 450.0
SHEETS = (PLY, {**PLY, "name": "large", "size": [3100, 1530], "price": "139.00"})
WIDTH = 200.0


def side(length: float, zone: tuple[float, float]) -> Job:
    """Return a job of one panel 200 wide, to be divided, with one zone that joints keep off."""
    return job(
        panel("side", length, WIDTH, joint="scarf", no_joint=[list(zone)]), sheets=SHEETS, workshop={"way": "divided"}
    )


def brute(length: float, zone: tuple[float, float], prices: tuple[float, float], joint: float) -> float:
    """Return the least cost over all divisions with up to two joints at stations on a grid of 50.

    A piece costs the cheapest price of area of a sheet that is long enough, half a gap all around it counted; a joint
    costs its 2.00 + 6.00 x 0.2 = 3.20.
    """
    stations = [s for s in np.arange(SPACING, length - SPACING + 1, 50.0) if _off_zone(s, zone)]
    divisions = [list(d) for count in (0, 1, 2) for d in combinations(stations, count)]
    return min(_cost(length, d, prices) + 320 * joint * len(d) for d in divisions if _apart(d))


def _off_zone(station: float, zone: tuple[float, float]) -> bool:
    return station + LAP / 2 <= zone[0] or station - LAP / 2 >= zone[1]


def _apart(stations: list[float]) -> bool:
    return all(b - a >= SPACING for a, b in pairwise(stations))


def _cost(length: float, stations: list[float], prices: tuple[float, float]) -> float:
    starts = [0.0, *(s - LAP / 2 for s in stations)]
    ends = [*(s + LAP / 2 for s in stations), length]
    return sum(_piece(b - a, prices) for a, b in zip(starts, ends, strict=True))


def _piece(length: float, prices: tuple[float, float]) -> float:
    long_enough = [price for most, price in zip((2420.0, 3080.0), prices, strict=True) if length <= most]
    return min(long_enough, default=np.inf) * (length + GAP) * (WIDTH + GAP)


def vector(resources: Resources, prices: tuple[float, float], joint: float) -> np.ndarray:
    """Return prices of area on both sheets and of joints."""
    found = np.zeros(resources.size)
    found[:2], found[resources.joint] = prices, joint
    return found


@settings(max_examples=20)
@given(
    st.integers(26, 58).map(lambda n: 100.0 * n),
    st.integers(8, 30).map(lambda n: 100.0 * n),
    st.integers(0, 6).map(lambda n: 100.0 * n),
    st.tuples(st.floats(0, 3), st.floats(0, 3)),
    st.floats(0, 500),
)
def test_no_division_takes_less(
    length: float, start: float, run: float, prices: tuple[float, float], joint: float
) -> None:
    """Nor much less than the best on a grid of 50: cells, two joints, a few square centimetres allowed."""
    zone = (start, start + run + 1)
    asked = side(length, zone)
    resources = resources_of(asked, asked.panels, [supply_of(asked, sheet) for sheet in asked.sheets])
    taker = taker_of(asked_of(asked, asked.panels[0], resources))
    paid = vector(resources, prices, joint)
    least, best = float(taker.least(paid) @ paid), brute(length, zone, prices, joint)
    assert least <= best + 1e-6 * (1 + best)
    if np.isfinite(best):
        between = abs(prices[0] - prices[1]) * (WIDTH + GAP) * 2 * 2 * 100
        assert least == pytest.approx(best, abs=between + 50 * max(prices) + 700 * joint + max(prices) * 4000)
