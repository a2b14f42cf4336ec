"""A panel divided at stations into pieces that carry their laps."""

import math
from collections.abc import Sequence

from shapely.geometry import Polygon
from shapely.geometry.polygon import orient

from .chord import between


class DividingError(ValueError):
    """A panel can't be divided at these stations."""


def divide(panel: Polygon, stations: Sequence[float], lap: float) -> tuple[Polygon, ...]:
    """Return the pieces of a panel from the low stations up, neighbours overlapping by one lap.

    The joint at station s covers the band from s - lap/2 to s + lap/2, square to the x axis; both its pieces
    reach over the whole of it.

    Parameters
    ----------
    stations : sequence of float, rising
        Middles of the laps, in the panel's own stations.

    Raises
    ------
    DividingError
        If a piece or a band would be in several parts or hold a hole: such a lap can't be planed or glued.
    """
    for station in stations:
        _require_sound_band(panel, station, lap)
    starts = [-math.inf, *(station - lap / 2 for station in stations)]
    ends = [*(station + lap / 2 for station in stations), math.inf]
    return tuple(_piece(panel, start, end) for start, end in zip(starts, ends, strict=True))


def has_sound_band(panel: Polygon, station: float, lap: float) -> bool:
    """Whether the lap at a station is one plain region across the panel."""
    band = between(panel, station - lap / 2, station + lap / 2)
    return isinstance(band, Polygon) and not band.is_empty and not band.interiors


def _require_sound_band(panel: Polygon, station: float, lap: float) -> None:
    if not has_sound_band(panel, station, lap):
        raise DividingError(f"at station {station:g} the lap would not be one plain region across the panel")


def _piece(panel: Polygon, start: float, end: float) -> Polygon:
    piece = between(panel, start, end)
    if not isinstance(piece, Polygon) or piece.is_empty:
        raise DividingError(f"between stations {start:g} and {end:g} the panel is not in one piece")
    return orient(piece)
