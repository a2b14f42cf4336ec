"""The curve of a fair batten held by nails: the natural cubic spline.

A thin batten through nails, its ends free, bends as a cubic between neighbouring nails with slope and curvature
continuous and no moment at the ends (small-slope beam theory; Schoenberg 1946, from memory).
"""

import math

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]


def curvatures(stations: Array, offsets: Array) -> Array:
    """Return the second derivative at each nail, zero at the free ends.

    Parameters
    ----------
    stations : array of n, strictly rising
    offsets : array of n
    """
    result = np.zeros(len(stations))
    if len(stations) < 3:
        return result
    spans, slopes = np.diff(stations), np.diff(offsets) / np.diff(stations)
    matrix = np.diag((spans[:-1] + spans[1:]) / 3) + np.diag(spans[1:-1] / 6, 1) + np.diag(spans[1:-1] / 6, -1)
    result[1:-1] = np.linalg.solve(matrix, np.diff(slopes))
    return result


def batten(stations: Array, offsets: Array, at: Array) -> Array:
    """Return the batten's offsets at the stations ``at``, which lie within the nails."""
    bend = curvatures(stations, offsets)
    span_of = np.clip(np.searchsorted(stations, at, side="right") - 1, 0, len(stations) - 2)
    left, right = stations[span_of], stations[span_of + 1]
    span = right - left
    a, b = (right - at) / span, (at - left) / span
    straight = a * offsets[span_of] + b * offsets[span_of + 1]
    return straight + ((a**3 - a) * bend[span_of] + (b**3 - b) * bend[span_of + 1]) * span**2 / 6


def sampled(stations: Array, offsets: Array, sag: float) -> Array:
    """Return points on the batten, shape (m, 2), every nail among them, its chords within ``sag`` of it.

    A chord of length c on a curve of second derivative k strays c**2 * k / 8 at most; k is linear between nails,
    so its greater end bounds it.
    """
    bend = np.abs(curvatures(stations, offsets))
    pieces = []
    for left, right, k in zip(stations, stations[1:], np.maximum(bend[:-1], bend[1:]), strict=False):
        count = max(1, math.ceil((right - left) * math.sqrt(k / (8 * sag))))
        pieces.append(np.linspace(left, right, count, endpoint=False))
    at = np.append(np.concatenate(pieces), stations[-1])
    return np.column_stack((at, batten(stations, offsets, at)))
