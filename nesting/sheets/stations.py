"""Stations at which dividing a panel is worth trying."""

from collections.abc import Iterator, Sequence

from nesting.joints import HAIR, Intervals, Reach, least_joints, stations_hold, windows

#: Station tuples kept for one panel with its least number of joints, and with one more: enough for choice, few
#: enough that shapes come up again and what is known of them is of use.
MOST_TUPLES = (12, 6)

#: Up to so many joints all combinations of likely stations are looked at.
FEW_JOINTS = 2


def station_tuples(reach: Reach, sheet_lengths: Sequence[float]) -> list[tuple[float, ...]]:
    """Return station tuples that keep all rules, those with the least number of joints first, then one more.

    Parameters
    ----------
    sheet_lengths : sequence of float
        Longest pieces that the several kinds of sheet give: a joint where a full sheet ends is worth trying.
    """
    least = least_joints(reach)
    if least is None:
        return []
    if least == 0:
        return [()]
    found: list[tuple[float, ...]] = []
    for count, most in zip((least, least + 1), MOST_TUPLES, strict=True):
        found += spread(list(_tuples(reach, count, sheet_lengths)), most)
    return found


def _tuples(reach: Reach, count: int, sheet_lengths: Sequence[float]) -> Iterator[tuple[float, ...]]:
    places = windows(reach, count)
    if not places:
        return
    if count <= FEW_JOINTS:
        yield from _rising([_candidates(reach, window, count, sheet_lengths) for window in places], reach)
    else:
        yield from dict.fromkeys(_at_share(reach, places, quarter / 4) for quarter in range(5))


def _at_share(reach: Reach, places: Sequence[Intervals], share: float) -> tuple[float, ...]:
    """Lay one joint after another, each at the same share of the stations that the last one leaves to it.

    A window holds only stations from which the rest can be made, so this never ends in a blind alley.
    """
    stations: list[float] = []
    for window in places:
        low = stations[-1] + reach.spacing if stations else reach.start
        high = stations[-1] + reach.usable - reach.lap if stations else reach.end
        left = [(max(a, low), min(b, high)) for a, b in window if max(a, low) <= min(b, high) + HAIR]
        stations.append(_point_at(left, share))
    return tuple(stations)


def _point_at(spans: Sequence[tuple[float, float]], share: float) -> float:
    """Return the point that leaves that share of the total length of the spans below it."""
    below = share * sum(max(0.0, b - a) for a, b in spans)
    for a, b in spans:
        if below <= b - a:
            tenth = round(a + below, 1)
            return tenth if a <= tenth <= b else a + below
        below -= max(0.0, b - a)
    return spans[-1][1]


def _candidates(reach: Reach, window: Intervals, count: int, sheet_lengths: Sequence[float]) -> list[float]:
    """Return stations within a window, rounded to a tenth of a millimetre where the window allows it."""
    wanted = [*_even_shares(reach, count), *_full_sheets(reach, count, sheet_lengths)]
    for low, high in window:
        wanted += [low + (high - low) * quarter / 4 for quarter in range(5)]
    tenths = {round(station, 1) for station in wanted}
    inside = {s for s in tenths if any(low <= s <= high for low, high in window)}
    return sorted(inside or {low for low, _ in window})


def _even_shares(reach: Reach, count: int) -> Iterator[float]:
    length = reach.length
    for pieces in (count + 1, count + 2):
        yield from (reach.start + length * k / pieces for k in range(1, pieces))


def _full_sheets(reach: Reach, count: int, sheet_lengths: Sequence[float]) -> Iterator[float]:
    """Yield where full pieces end, laid from either end of the panel."""
    for usable in sheet_lengths:
        for full in range(1, count + 1):
            reached = full * usable - (full - 1) * reach.lap - reach.lap / 2
            yield reach.start + reached
            yield reach.end - reached


def _rising(
    points: Sequence[Sequence[float]], reach: Reach, begun: tuple[float, ...] = ()
) -> Iterator[tuple[float, ...]]:
    """Yield the station tuples that keep all rules, one station from each list."""
    if len(begun) == len(points):
        if stations_hold(begun, reach):
            yield begun
        return
    for station in points[len(begun)]:
        if not begun or station - begun[-1] >= reach.spacing - HAIR:
            yield from _rising(points, reach, (*begun, station))


def spread(tuples: list[tuple[float, ...]], most: int) -> list[tuple[float, ...]]:
    """Return at most that many, evenly spread, the first and the last among them."""
    if len(tuples) <= most:
        return tuples
    return [tuples[round(k * (len(tuples) - 1) / (most - 1))] for k in range(most)]
