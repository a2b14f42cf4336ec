"""Pieces that lean: turned off their grain direction by a few degrees, where that is allowed and helps."""

import math
from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon

from nesting.model import TOLERANCE

from .stock import Stock

Array = NDArray[np.float64]

#: Decimals of a degree to which a lean is told; over a whole sheet what is rounded away is a hundredth of a millimetre.
DECIMALS = 3

#: Degrees between the leans that are looked at.
STEP = 0.05

#: A lean that leaves more than this share of a piece's box is not worth its marking out, nor a second look at every
#: place.
WORTH = 0.97


def useful_leans(shape: Polygon, tolerance: float, stocks: Sequence[Stock]) -> tuple[float, ...]:
    """Return the leans, in degrees, at which a piece that lies true as ``shape`` is worth trying.

    These are: none at all; the one at which its box is smallest, if much smaller; and the least one at which it fits a
    kind of sheet that it otherwise does not. What fits no sheet is left out, and what fits most kinds comes first.

    Parameters
    ----------
    tolerance : float
        Degrees by which the piece may lean, either way.
    """
    leans = np.concatenate([leans_within(tolerance), _flush(shape, tolerance)])
    leans = leans[np.argsort(np.abs(leans), kind="stable")]
    boxes = boxes_at(shape, leans)
    fits = np.array([np.all(boxes <= np.array(stock.size) + TOLERANCE, axis=1) for stock in stocks])
    kept = _smallest(boxes)
    for fitting in fits:
        if fitting.any() and not fitting[kept].any():
            kept.append(int(np.argmax(fitting)))
    # Sorting is stable: of leans that fit as many kinds of sheet, none at all stays first.
    kept.sort(key=lambda index: -int(fits[:, index].sum()))
    return tuple(float(leans[index]) for index in kept if fits[:, index].any()) or (0.0,)


def longest_leaning(length: float, width: float, height: float, tolerance: float) -> float:
    """Return the longest rectangle of a height that, leaning or not, fits into a box of that length and width.

    That is the greatest L with L cos t + height sin t <= length and L sin t + height cos t <= width for a lean t.
    """
    leans = np.radians(leans_within(tolerance))
    leans = leans[leans > 0]
    cos, sin = np.cos(leans), np.sin(leans)
    longest = np.minimum((length - height * sin) / cos, (width - height * cos) / sin)
    return float(np.max(longest, initial=length))


def leans_within(tolerance: float) -> Array:
    """Return steps from minus to plus ``tolerance`` degrees, its ends and zero among them; none is beyond it."""
    # A hair more, since 2.3 x 1000 is a hair less than 2300.
    most = math.floor(tolerance * 10**DECIMALS + 1e-6) / 10**DECIMALS
    steps = np.append(np.arange(0.0, most, STEP), most)
    return np.unique(np.round(np.concatenate([-steps, steps]), DECIMALS))


def boxes_at(shape: Polygon, leans: Array) -> Array:
    """Return length and width of a shape's box at each lean; shape (n, 2)."""
    points = shapely.get_coordinates(shape.convex_hull)
    cos, sin = np.cos(np.radians(leans))[:, None], np.sin(np.radians(leans))[:, None]
    x, y = points[:, 0] * cos - points[:, 1] * sin, points[:, 0] * sin + points[:, 1] * cos
    return np.column_stack([np.ptp(x, axis=1), np.ptp(y, axis=1)])


def _flush(shape: Polygon, tolerance: float) -> Array:
    """Return the leans that lay a side of the hull along an edge of the sheet: there the box is smallest."""
    sides = np.diff(shapely.get_coordinates(shape.convex_hull), axis=0)
    slants = np.degrees(np.arctan2(sides[:, 1], sides[:, 0]))
    leans: Array = np.round(45 - (slants + 45) % 90, DECIMALS)
    return leans[np.abs(leans) <= tolerance]


def _smallest(boxes: Array) -> list[int]:
    """Return the index of no lean, the first, and that of the smallest box if it is much smaller."""
    areas = boxes[:, 0] * boxes[:, 1]
    best = int(np.argmin(areas))
    return [0, best] if areas[best] < WORTH * areas[0] else [0]
