"""Where a panel may lie along a blank: its joints are then where the blank's scarfs are."""

from collections.abc import Sequence

from .reaching import HAIR, Intervals, Reach, without_open


def offsets_on_blank(reach: Reach, scarfs: Sequence[float], length: float) -> Intervals:
    """Return where along a blank the panel's first station may lie, the panel not turned end for end.

    A scarf either lies within the panel, and then keeps the panel's rules for joints, or its lap does not touch it.
    Turned end for end the panel is ``reach.mirrored()``.

    Parameters
    ----------
    scarfs : sequence of float
        Middles of the blank's laps, counted from its low end.
    length : float
        Length of the blank, less what a panel must keep from its ends.
    """
    most = length - reach.length
    if most < -HAIR:
        return ()
    half = reach.lap / 2
    barred = [(reach.start - half, reach.start + reach.spacing), (reach.end - reach.spacing, reach.end + half)]
    barred += [(start - half, end + half) for start, end in reach.zones]
    # A lap that only touches the panel's end from outside does it no harm.
    barred = [(max(low, reach.start - half), min(high, reach.end + half)) for low, high in barred]
    # A scarf at x lies at the panel's station start + x - offset.
    shut = [(reach.start + x - high, reach.start + x - low) for x in scarfs for low, high in barred if low < high]
    return without_open([(0.0, max(0.0, most))], shut)


def stations_on_blank(reach: Reach, scarfs: Sequence[float], offset: float) -> tuple[float, ...]:
    """Return the stations at which the scarfs lie within a panel so laid, from the low stations up."""
    stations = (reach.start + x - offset for x in sorted(scarfs))
    return tuple(station for station in stations if reach.start < station < reach.end)


def blank_scarfs(lengths: Sequence[float], lap: float) -> tuple[float, ...]:
    """Return the middles of the laps of sheets scarfed end to end, counted from the low end of the first.

    The i-th lies at the sum of the first i lengths less (i - 1/2) laps.
    """
    return tuple(sum(lengths[:i]) - (i - 0.5) * lap for i in range(1, len(lengths)))
