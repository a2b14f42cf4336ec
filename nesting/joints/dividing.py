"""A panel divided at stations into pieces that carry their laps, or that meet square with a strap behind."""

import math
from collections.abc import Sequence

from shapely.geometry import Polygon
from shapely.geometry.polygon import orient

from .chord import between


class DividingError(ValueError):
    """A panel can't be divided at these stations."""


def divide(panel: Polygon, stations: Sequence[float], lap: float, strap: float = 0.0) -> tuple[Polygon, ...]:
    """Return the pieces of a panel from the low stations up, neighbours overlapping by one lap.

    The scarf at station s covers the band from s - lap/2 to s + lap/2, square to the x axis; both its pieces
    reach over the whole of it. At a butt the lap is 0 and the pieces meet at s; the band is then that of the strap.

    Parameters
    ----------
    stations : sequence of float, rising
        Middles of the laps, in the panel's own stations.
    strap : float
        Length of the strap behind each butt; 0 for scarfs.

    Raises
    ------
    DividingError
        If a piece or a band would be in several parts or hold a hole: such a lap can't be planed, nor lap or strap
        glued.
    """
    for station in stations:
        _require_sound_band(panel, station, max(lap, strap))
    starts = [-math.inf, *(station - lap / 2 for station in stations)]
    ends = [*(station + lap / 2 for station in stations), math.inf]
    return tuple(_piece(panel, start, end) for start, end in zip(starts, ends, strict=True))


def straps_behind(panel: Polygon, stations: Sequence[float], strap: float) -> tuple[Polygon, ...]:
    """Return the straps behind butts at these stations, in the panel's frame: its own outline half a strap each way.

    Raises
    ------
    DividingError
        If a strap would be in several parts or hold a hole.
    """
    for station in stations:
        _require_sound_band(panel, station, strap)
    return tuple(_piece(panel, station - strap / 2, station + strap / 2) for station in stations)


def has_sound_band(panel: Polygon, station: float, length: float) -> bool:
    """Whether the lap or strap of that length at a station is one plain region across the panel."""
    band = between(panel, station - length / 2, station + length / 2)
    return isinstance(band, Polygon) and not band.is_empty and not band.interiors


def _require_sound_band(panel: Polygon, station: float, length: float) -> None:
    if not has_sound_band(panel, station, length):
        raise DividingError(f"at station {station:g} the lap or strap would not be one plain region across the panel")


def _piece(panel: Polygon, start: float, end: float) -> Polygon:
    piece = between(panel, start, end)
    if not isinstance(piece, Polygon) or piece.is_empty:
        raise DividingError(f"between stations {start:g} and {end:g} the panel is not in one piece")
    return orient(piece)
