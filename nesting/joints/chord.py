"""How wide a panel is at a station, and the least width over a stretch, exactly."""

import shapely
from shapely.geometry import LineString, MultiPolygon, Polygon

#: Distance from a corner at which the width just beside it is read, in millimetres.
BESIDE = 1e-7


def chord(panel: Polygon, station: float) -> float:
    """Return the total length of the line square to the x axis that lies on the panel."""
    _, low, _, high = panel.bounds
    line = LineString([(station, low - 1), (station, high + 1)])
    return float(panel.intersection(line).length)


def least_chord(panel: Polygon, start: float, end: float) -> float:
    """Return the least chord for stations from ``start`` to ``end``.

    Between neighbouring corners the chord is linear, so its least value lies at or beside a corner or at an end
    of the stretch. Beside a step it is read a hair away, and may be wrong by the slope there times that hair.
    """
    corners = shapely.get_coordinates(panel)[:, 0]
    within = corners[(corners >= start) & (corners <= end)]
    near = [s for corner in within for s in (corner - BESIDE, corner, corner + BESIDE) if start <= s <= end]
    stations = {start, end, *near}
    return min(chord(panel, station) for station in stations)


def between(panel: Polygon, start: float, end: float) -> Polygon | MultiPolygon:
    """Return the part of the panel with stations from ``start`` to ``end``; open-ended with infinities."""
    west, south, east, north = panel.bounds
    cut = panel.intersection(shapely.box(max(start, west - 1), south - 1, min(end, east + 1), north + 1))
    # Where a step of the outline lies exactly at an end, the cut also holds that line, which is no material.
    parts = [part for part in shapely.get_parts(cut) if isinstance(part, Polygon)]
    return parts[0] if len(parts) == 1 else MultiPolygon(parts)
