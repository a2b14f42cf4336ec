"""A panel's own stations turned into the boat's, so that neighbours can be compared."""

from collections.abc import Sequence


def boat_station(station: float, rows: Sequence[tuple[float, float]]) -> float:
    """Return the boat's station beside a panel's own, linear between rows and beyond the first and last.

    Parameters
    ----------
    rows : sequence of (own station, boat station), both rising
        Empty means that the panel's own stations are the boat's.
    """
    if not rows:
        return station
    index = next((i for i, row in enumerate(rows[1:-1], 1) if station < row[0]), len(rows) - 1)
    (own, boat), (next_own, next_boat) = rows[index - 1], rows[index]
    return boat + (station - own) * (next_boat - boat) / (next_own - own)
