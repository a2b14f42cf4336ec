"""The ways to cut one panel from a blank: where along it, and so with its joints at which stations."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import groupby
from typing import NamedTuple

from nesting.joints import Intervals, Reach, boat_station, has_sound_band, offsets_on_blank, stations_on_blank
from nesting.model import Job

from .blanks import has_room_for
from .parts import Part
from .pieces import across_scarfs
from .stations import spread
from .stock import Stock
from .variants import Variant

#: Station tuples kept for one panel on each blank, besides those at its ends.
MOST_TUPLES = 6

#: Millimetres within which stations are the same.
SAME = 1e-6


class Place(NamedTuple):
    """A stretch of offsets at which a panel, perhaps turned end for end, may lie along a blank."""

    blank: Stock
    reach: Reach
    turned: bool
    offsets: Intervals


def joined_variants(part: Part, job: Job) -> tuple[Variant, ...]:
    """Return ways to cut a panel from a blank across its scarfs, those with the fewest joints first."""
    if part.rule is None or part.panel.grain == "across":
        return ()
    places = list(_places(part))
    tuples = [stations for stations in _likely(part, places) if _sound(part, stations)]
    return tuple(_variant(part, stations, places, job) for stations in tuples)


def blanks_across(part: Part) -> tuple[Stock, ...]:
    """Return the blanks on which a panel may lie across scarfs, as far as joint and widths go."""
    if part.rule is None or part.panel.grain == "across":
        return ()
    return tuple(blank for blank in part.blanks if _joins(part, blank) and has_room_for(part, blank))


def joined_at(part: Part, stations: tuple[float, ...], job: Job) -> Variant | None:
    """Return the panel cut from blanks with its joints at these stations, or None if it lies on none so."""
    if not stations or not _sound(part, stations):
        return None
    variant = _variant(part, stations, list(_places(part)), job)
    return variant if variant.pieces[0].stocks else None


def _places(part: Part) -> Iterator[Place]:
    for blank in blanks_across(part):
        if blank.blank is None:
            continue
        reach = replace(part.reach, lap=blank.blank.lap)
        for turned in (False, True):
            as_laid = reach.mirrored() if turned else reach
            offsets = offsets_on_blank(as_laid, blank.lines, blank.size[0])
            if offsets:
                yield Place(blank, as_laid, turned, offsets)


def _joins(part: Part, blank: Stock) -> bool:
    return blank.blank is not None and blank.blank.joint == part.panel.joint


def _likely(part: Part, places: Sequence[Place]) -> list[tuple[float, ...]]:
    """Return station tuples for each blank, those with the fewest joints first, then one more.

    They are where the panel lies as near to either end of the blank as it may, and some evenly spread.
    """
    found = {place: [s for s in _of_place(place) if s or part.is_wide] for place in places}
    least = min((len(stations) for several in found.values() for stations in several), default=0)
    most = min(least + 1, part.reach.most_joints)
    likely = set[tuple[float, ...]]()
    for _, alike in groupby(places, key=lambda place: place.blank.index):
        several = [[s for s in found[place] if len(s) <= most] for place in alike]
        likely.update(stations for tuples in several for stations in (tuples[:1] + tuples[-1:]))
        likely.update(spread(sorted({stations for tuples in several for stations in tuples}), MOST_TUPLES))
    return sorted(likely, key=lambda stations: (len(stations), stations))


def _of_place(place: Place) -> Iterator[tuple[float, ...]]:
    """Yield the station tuples at the ends of each stretch of offsets and evenly between, along the blank."""
    for low, high in place.offsets:
        for quarter in range(5):
            yield _stations(place, low + (high - low) * quarter / 4)


def _stations(place: Place, offset: float) -> tuple[float, ...]:
    """Return the panel's own stations, rounded far below the tolerance so that equal ones are found equal."""
    there = stations_on_blank(place.reach, place.blank.lines, offset)
    return tuple(round(station, 7) for station in _as_laid(place, there))


def _sound(part: Part, stations: tuple[float, ...]) -> bool:
    """Whether the panel has one plain region across it at each lap."""
    return all(has_sound_band(part.shape, station, part.reach.lap) for station in stations)


def _variant(part: Part, stations: tuple[float, ...], places: Sequence[Place], job: Job) -> Variant:
    blanks = frozenset(place.blank.index for place in places if _allows(place, stations))
    return Variant(
        panel=part.index,
        stations=stations,
        boat_stations=tuple(boat_station(station, part.panel.boat_stations) for station in stations),
        pieces=across_scarfs(part, stations, blanks, job.rank(part.panel.grade)),
        joint_cost=0,
        way="joined",
    )


def _allows(place: Place, stations: tuple[float, ...]) -> bool:
    """Whether a panel can lie there with its joints at exactly these stations."""
    if not stations:
        return any(not stations_on_blank(place.reach, place.blank.lines, low) for low, _ in place.offsets)
    first = min(_as_laid(place, stations))
    for line in place.blank.lines:
        offset = place.reach.start + line - first
        if not any(low - SAME <= offset <= high + SAME for low, high in place.offsets):
            continue
        there = _stations(place, offset)
        if len(there) == len(stations) and all(abs(a - b) <= SAME for a, b in zip(there, stations, strict=True)):
            return True
    return False


def _as_laid(place: Place, stations: Sequence[float]) -> tuple[float, ...]:
    """Return stations counted as the panel lies, perhaps turned end for end; this is its own inverse."""
    return place.reach.from_other_end(stations) if place.turned else tuple(stations)
