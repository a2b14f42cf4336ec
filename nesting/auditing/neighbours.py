"""Whether the joints of neighbouring panels, or strips, keep their shift, and those of matched strips agree."""

from collections.abc import Iterator, Sequence
from itertools import product

import numpy as np

from nesting.model import TOLERANCE, Neighbours, Strip

from .findings import Finding
from .register import Register


def neighbours(register: Register) -> Iterator[Finding]:
    """Yield neighbours of which any two copies have joints too near: panels in boat stations, strips in their own."""
    for pair in register.job.neighbours:
        if all(name in register.panels for name in pair.between):
            yield from _panels(pair, register)
        if all(name in register.strips for name in pair.between):
            yield from _strips(pair, register)
    for strip in register.strips.values():
        if strip.matched:
            yield from _matched(strip, register)


def _matched(strip: Strip, register: Register) -> Iterator[Finding]:
    """Yield pairs, the first copy and the second and so on, whose joints are not at the same stations."""
    own = [joint for joint in register.plan.joints if joint.part == strip.name]
    for copy in range(1, strip.quantity, 2):
        one, other = (sorted(j.station for j in own if j.copy_number == number) for number in (copy, copy + 1))
        if len(one) != len(other) or any(abs(a - b) > TOLERANCE for a, b in zip(one, other, strict=True)):
            where = f'copies {copy} and {copy + 1} of strip "{strip.name}"'
            told = [", ".join(f"{station:g}" for station in stations) or "none" for stations in (one, other)]
            yield Finding("not-matched", where, f"they are matched, yet the joints of one lie at {told[0]}, {told[1]}")


def _strips(pair: Neighbours, register: Register) -> Iterator[Finding]:
    first, second = ([joint for joint in register.plan.joints if joint.part == name] for name in pair.between)
    for one, other in product(first, second):
        copies = (one.part, one.copy_number), (other.part, other.copy_number)
        if copies[0] < copies[1] or (copies[0] > copies[1] and one.part != other.part):
            apart = abs(one.station - other.station)
            if apart < pair.shift - TOLERANCE:
                where = f'joints "{one.id}" and "{other.id}"'
                yield Finding("shift-too-small", where, f"they are {apart:g} apart, the shift is {pair.shift:g}")


def _panels(pair: Neighbours, register: Register) -> Iterator[Finding]:
    first, second = (_boat_stations(name, register) for name in pair.between)
    for one, other in product(first, second):
        if abs(one - other) < pair.shift - TOLERANCE:
            where = f'neighbours "{pair.between[0]}" and "{pair.between[1]}"'
            reason = f"joints at boat stations {one:g} and {other:g} are less than {pair.shift:g} apart"
            yield Finding("shift-too-small", where, reason)


def _boat_stations(name: str, register: Register) -> list[float]:
    """Return the boat stations of all joints of all copies of a panel, each once."""
    rows = register.panels[name].boat_stations
    own = {joint.station for joint in register.plan.joints if joint.part == name}
    return sorted(boat_station(station, rows) for station in own)


def boat_station(station: float, rows: Sequence[tuple[float, float]]) -> float:
    """Return the boat station of a panel's own: linear between the rows, and on beyond the first and last."""
    if len(rows) < 2:
        return station
    own, boat = np.asarray(rows, dtype=float).T
    if own[0] <= station <= own[-1]:
        return float(np.interp(station, own, boat))
    near, other = (0, 1) if station < own[0] else (-1, -2)
    slope = (boat[near] - boat[other]) / (own[near] - own[other])
    return float(boat[near] + (station - own[near]) * slope)
