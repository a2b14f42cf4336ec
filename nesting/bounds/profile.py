"""How wide a panel is at each of its stations, exactly: the chord as a piecewise linear function."""

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon
from shapely.geometry.polygon import orient

Floats = NDArray[np.float64]

#: Stretches whose chords are added up at once; keeps memory small for outlines of many points.
CHUNK = 256


@dataclass(frozen=True)
class Profile:
    """Chords of an outline: over stretch k, from ``corners[k]`` to ``corners[k + 1]``, linear between two values.

    ``first[k]`` and ``last[k]`` are the chords at its ends as seen from inside, so that a step is told from both sides.
    """

    corners: Floats
    first: Floats
    last: Floats

    @property
    def start(self) -> float:
        """First station."""
        return float(self.corners[0])

    @property
    def end(self) -> float:
        """Last station."""
        return float(self.corners[-1])

    def cut_at(self, stations: Floats) -> tuple[Floats, Floats, Floats]:
        """Return the corners with these stations among them, and the chords at both ends of each stretch between."""
        knots = np.union1d(self.corners, np.clip(stations, self.start, self.end))
        k = np.searchsorted(self.corners, knots[:-1], side="right") - 1
        rise = (self.last[k] - self.first[k]) / np.diff(self.corners)[k]
        return (
            knots,
            self.first[k] + rise * (knots[:-1] - self.corners[k]),
            self.first[k] + rise * (knots[1:] - self.corners[k]),
        )

    def least(self, starts: Floats, ends: Floats) -> Floats:
        """Return the least chord over each stretch, steps at its ends too; nought where it leaves the panel.

        Parameters
        ----------
        starts, ends : ndarray of shape (n,)
        """
        knots, first, last = self.cut_at(np.concatenate([starts, ends]))
        before, after = np.append(np.inf, last), np.append(first, np.inf)
        low = np.searchsorted(knots, np.clip(starts, self.start, self.end))
        high = np.searchsorted(knots, np.clip(ends, self.start, self.end))
        within = np.append(np.minimum(first, last), [np.inf, np.inf])
        found = np.minimum.reduceat(within, np.stack([low, np.maximum(high, low + 1)], axis=1).ravel())[::2]
        found = np.where(high > low, found, np.inf)
        at_ends = np.minimum(np.minimum(before[low], after[low]), np.minimum(before[high], after[high]))
        inside = (starts >= self.start) & (ends <= self.end)
        return np.where(inside, np.maximum(np.minimum(found, at_ends), 0.0), 0.0)


def profile_of(shape: Polygon) -> Profile:
    """Return the chords square to the x axis: over each stretch between corners, edges above less edges below."""
    left, right = _edges(orient(shape))
    corners = np.unique(shapely.get_coordinates(shape)[:, 0])
    ends = [
        _chords(left, right, corners[k : k + CHUNK], corners[k + 1 : k + CHUNK + 1])
        for k in range(0, len(corners) - 1, CHUNK)
    ]
    first, last = (np.maximum(0.0, np.concatenate(column)) for column in zip(*ends, strict=True))
    return Profile(corners, first, last)


def _edges(shape: Polygon) -> tuple[Floats, Floats]:
    """Return both ends of every edge, in the order of rings that have the panel on their left."""
    rings = [shapely.get_coordinates(ring) for ring in (shape.exterior, *shape.interiors)]
    return np.vstack([ring[:-1] for ring in rings]), np.vstack([ring[1:] for ring in rings])


def _chords(tail: Floats, head: Floats, start: Floats, end: Floats) -> tuple[Floats, Floats]:
    """Return the chords at both ends of stretches that no edge ends within."""
    start, end = start[: len(end)], end
    low, high = np.minimum(tail[:, 0], head[:, 0]), np.maximum(tail[:, 0], head[:, 0])
    run = head[:, 0] - tail[:, 0]
    slope = np.divide(head[:, 1] - tail[:, 1], run, out=np.zeros_like(run), where=run != 0)
    spans = (low[:, None] <= start) & (high[:, None] >= end)
    # With the panel on its left an edge that runs backward bounds it from above.
    sign = np.where(spans, -np.sign(run)[:, None], 0.0)

    def at(stations: Floats) -> Floats:
        heights = tail[:, 1][:, None] + slope[:, None] * (stations - tail[:, 0][:, None])
        total: Floats = (sign * heights).sum(axis=0)
        return total

    return at(start), at(end)
