"""Where joints can lie: an exact interval programme over stations."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

#: Stretches of stations, closed, apart and rising.
Intervals = tuple[tuple[float, float], ...]

#: Joints beyond this number mean that something else is wrong.
MOST_JOINTS = 40

#: Slack, in millimetres, that keeps float rounding from losing a window of a single point.
HAIR = 1e-9


@dataclass(frozen=True, kw_only=True)
class Reach:
    """A member to be joined, and what its joints must keep to.

    Attributes
    ----------
    start, end : float
        The member's first and last station.
    lap : float
        Length of each lap, 0 for a butt; a station is the middle of one.
    usable : float
        Longest piece that any stock gives, laps included.
    least_piece : float
        Least distance between joints, and from joint to end; never less than a band, so that bands keep apart.
    zones : sequence of (from, to)
        Stretches that no part of a band may enter; it may touch their ends.
    strap : float
        Length of the strap behind each butt, the station in its middle; 0 for a scarf.
    most_joints : int
        How many joints the member may have.
    """

    start: float
    end: float
    lap: float
    usable: float
    least_piece: float
    zones: Sequence[tuple[float, float]] = ()
    strap: float = 0.0
    most_joints: int = MOST_JOINTS

    @property
    def length(self) -> float:
        """Length of the member."""
        return self.end - self.start

    @property
    def band(self) -> float:
        """Length of what a joint takes up of the member, lap or strap."""
        return max(self.lap, self.strap)

    @property
    def spacing(self) -> float:
        """Least distance between stations."""
        return max(self.least_piece, self.band)

    def mirrored(self) -> "Reach":
        """Return the same member with its stations counted from the other end."""
        flip = self.start + self.end
        return replace(self, zones=tuple((flip - end, flip - start) for start, end in self.zones))

    def from_other_end(self, stations: Sequence[float]) -> tuple[float, ...]:
        """Return rising stations as they are counted in the mirrored member, rising; this is its own inverse."""
        flip = self.start + self.end
        return tuple(flip - station for station in reversed(stations))


def reached(reach: Reach) -> list[Intervals]:
    """Return, for k = 0, 1, ..., where the k-th joint can lie; stops once the end can be reached.

    The list ends with the first k from which the last piece reaches the end, so its length less one is the
    least number of joints; it is empty where no number of joints does.
    """
    layers: list[Intervals] = [((reach.start, reach.start),)]
    for count in range(min(reach.most_joints, MOST_JOINTS) + 1):
        if _reaches_end(layers[-1], reach, first=count == 0):
            return layers
        layers.append(_next(layers[-1], reach, first=count == 0))
        if not layers[-1]:
            return []
    return []


def least_joints(reach: Reach) -> int | None:
    """Return the least number of joints with which the member can be made, or None if no number does."""
    layers = reached(reach)
    return len(layers) - 1 if layers else None


def windows(reach: Reach, count: int) -> tuple[Intervals, ...]:
    """Return, for each of ``count`` joints, all stations at which it can lie in some valid division.

    Empty if that many joints can't be placed.
    """
    if count == 0 or count > reach.most_joints:
        return ()
    forward, backward = _layers(reach, count), _layers(reach.mirrored(), count)
    flip = reach.start + reach.end
    result = []
    for index in range(1, count + 1):
        returning = tuple((flip - b, flip - a) for a, b in reversed(backward[count + 1 - index]))
        result.append(_common(forward[index], returning))
    return tuple(result) if all(result) else ()


def stations_hold(stations: Sequence[float], reach: Reach) -> bool:
    """Whether joints at these stations keep all the rules."""
    if len(stations) > reach.most_joints:
        return False
    points = [reach.start, *stations, reach.end]
    half, half_band = reach.lap / 2, reach.band / 2
    if any(after - before < reach.spacing - HAIR for before, after in pairwise(points)) and stations:
        return False
    if any(s + half_band > a + HAIR and s - half_band < b - HAIR for s in stations for a, b in reach.zones):
        return False
    starts = [reach.start, *(s - half for s in stations)]
    ends = [*(s + half for s in stations), reach.end]
    return all(end - start <= reach.usable + HAIR for start, end in zip(starts, ends, strict=True))


def _layers(reach: Reach, count: int) -> list[Intervals]:
    layers: list[Intervals] = [((reach.start, reach.start),)]
    for index in range(count):
        layers.append(_next(layers[-1], reach, first=index == 0))
    return layers


def _next(layer: Intervals, reach: Reach, *, first: bool) -> Intervals:
    """Return where the next joint can lie after one in ``layer``."""
    furthest = reach.usable - (reach.lap / 2 if first else reach.lap)
    if reach.spacing > furthest + HAIR:  # no piece is both long enough and short enough
        return ()
    lowest, highest = reach.start + reach.spacing, reach.end - reach.spacing
    spans = [(max(a + reach.spacing, lowest), min(b + furthest, highest)) for a, b in layer]
    return _without(_merged([(a, b) for a, b in spans if a <= b + HAIR]), reach)


def _reaches_end(layer: Intervals, reach: Reach, *, first: bool) -> bool:
    last = layer[-1][1] if layer else -float("inf")
    return reach.end - last + (0 if first else reach.lap / 2) <= reach.usable + HAIR


def _merged(spans: list[tuple[float, float]]) -> list[tuple[float, float]]:
    merged: list[tuple[float, float]] = []
    for a, b in sorted(spans):
        if merged and a <= merged[-1][1]:
            merged[-1] = (merged[-1][0], max(merged[-1][1], b))
        else:
            merged.append((a, max(a, b)))
    return merged


def _without(spans: list[tuple[float, float]], reach: Reach) -> Intervals:
    """Take out the stations whose bands would enter a zone."""
    return without_open(spans, [(start - reach.band / 2, end + reach.band / 2) for start, end in reach.zones])


def without_open(spans: list[tuple[float, float]], barred: Sequence[tuple[float, float]]) -> Intervals:
    """Return what is left of closed spans when the insides of other stretches are taken out; their ends stay."""
    for low, high in barred:
        cut = [piece for a, b in spans for piece in ((a, min(b, low)), (max(a, high), b))]
        spans = _merged([(a, b) for a, b in cut if a <= b + HAIR])
    return tuple(spans)


def _common(one: Intervals, other: Intervals) -> Intervals:
    spans = [(max(a, c), min(b, d)) for a, b in one for c, d in other]
    return tuple(_merged([(a, b) for a, b in spans if a <= b + HAIR]))
