"""Where the joints of several divided panels may lie that keep apart: stations to the millimetre, by a solver."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise, product
from typing import Any

from ortools.sat.python import cp_model

from nesting.joints import Reach, boat_station, least_joints
from nesting.solving import Status, minimize

#: Deterministic solver time for one question.
EFFORT = 0.5

#: Joints of a panel at most, beyond the least number that it takes by itself.
JOINTS_MORE = 2

#: Parts of a millimetre in which boat stations are compared.
FINE = 10

#: What slopes of maps are scaled by before they are rounded to whole numbers.
SHARP = 1_000_000


@dataclass(frozen=True)
class Panels:
    """Panels that are divided, and by how much the joints of some of them keep apart.

    Attributes
    ----------
    names : tuple of str
    reaches : tuple of Reach
        What the joints of each keep to.
    maps : tuple of (own station, boat station) rows
        Of each; empty where its own stations are the boat's.
    shifts : tuple of (place, place, shift)
        Pairs of panels by their places among these.
    given : tuple of float
        The longest piece of each that sheets give, whether it can be handled or not; empty if none is longer than its
        reach says.
    handled : float
        The longest piece that can be handled.
    """

    names: tuple[str, ...]
    reaches: tuple[Reach, ...]
    maps: tuple[tuple[tuple[float, float], ...], ...]
    shifts: tuple[tuple[int, int, float], ...]
    given: tuple[float, ...] = ()
    handled: float = math.inf

    @property
    def most_joints(self) -> tuple[int, ...]:
        """How many joints each may have."""
        return tuple(min((least_joints(reach) or 0) + JOINTS_MORE, reach.most_joints) for reach in self.reaches)

    def with_reach(self, place: int, reach: Reach) -> "Panels":
        """Return the same with another reach of one panel."""
        reaches = (*self.reaches[:place], reach, *self.reaches[place + 1 :])
        return replace(self, reaches=reaches)

    def with_shift(self, place: int, shift: float) -> "Panels":
        """Return the same with another shift of one pair."""
        one, other, _ = self.shifts[place]
        return replace(self, shifts=(*self.shifts[:place], (one, other, shift), *self.shifts[place + 1 :]))


def stations_apart(panels: Panels, most: Sequence[int]) -> tuple[tuple[float, ...], ...] | None:
    """Return stations, each whole millimetres from its panel's start, that keep all rules; None if none were found.

    Parameters
    ----------
    most : sequence of int
        How many joints each panel may have.
    """
    model = _Model(panels, most, slack=0.0)
    answer = minimize(model.model, effort=EFFORT)
    if not answer.found:
        return None
    return tuple(
        tuple(reach.start + answer.values[f"s{p}/{k}"] for k in range(count) if answer.values[f"a{p}/{k}"])
        for p, (reach, count) in enumerate(zip(panels.reaches, most, strict=True))
    )


def is_impossible(panels: Panels, most: Sequence[int]) -> bool:
    """Whether it is proven that no stations keep all rules, whole millimetres or not, with so many joints at most.

    Stations moved to whole millimetres differ by half of one, so every rule is eased by a millimetre.
    """
    return minimize(_Model(panels, most, slack=1.0).model, effort=EFFORT).status is Status.IMPOSSIBLE


@dataclass(frozen=True)
class Divided:
    """Asks whether divided panels can keep their joints apart, with so many joints in each at most.

    Attributes
    ----------
    names : tuple of str
    most : tuple of int
        How many joints each may have.
    longer, shorter : tuple of float
        By how much pieces of each might be longer than its reach says, and its laps shorter: what is called impossible
        is so with these too.
    """

    names: tuple[str, ...]
    most: tuple[int, ...]
    longer: tuple[float, ...]
    shorter: tuple[float, ...]

    @property
    def scope(self) -> str:
        """How far a proof goes, in words."""
        counts = ", ".join(f'{count} in "{name}"' for name, count in zip(self.names, self.most, strict=True))
        return f"That is proven for up to so many joints: {counts}"

    def is_impossible(self, panels: Panels) -> bool:
        """Whether it is proven that the panels' joints can't keep all rules."""
        eased = (
            replace(reach, usable=reach.usable + longer, lap=reach.lap - shorter)
            for reach, longer, shorter in zip(panels.reaches, self.longer, self.shorter, strict=True)
        )
        return is_impossible(replace(panels, reaches=tuple(eased)), self.most)

    def is_possible(self, panels: Panels) -> bool:
        """Whether joints were found that keep all rules."""
        return stations_apart(panels, self.most) is not None


class _Model:
    """The question put to the solver."""

    def __init__(self, panels: Panels, most: Sequence[int], slack: float) -> None:
        self.model, self.slack = cp_model.CpModel(), slack
        self._there: list[list[cp_model.IntVar]] = []
        self._boat: list[list[Any]] = []
        # By how many units boat stations may be wrong: rounded, and a hair more for rounded slopes.
        self._wrong = [
            2 if rows or FINE * r.start % 1 else 0 for r, rows in zip(panels.reaches, panels.maps, strict=True)
        ]
        for place, (reach, count) in enumerate(zip(panels.reaches, most, strict=True)):
            self._add_panel(place, reach, panels.maps[place], count)
        for one, other, shift in panels.shifts:
            slope = max(steepest(panels.maps[one]), steepest(panels.maps[other]))
            self._keep_apart(one, other, shift - slack * slope)

    def _add_panel(self, place: int, reach: Reach, rows: Sequence[tuple[float, float]], count: int) -> None:
        model, length = self.model, reach.length
        at = [model.new_int_var(0, math.ceil(length), f"s{place}/{k}") for k in range(count)]
        there = [model.new_bool_var(f"a{place}/{k}") for k in range(count)]
        self._there.append(there)
        self._boat.append([self._along_boat(station, reach, rows) for station in at])
        first, between = reach.usable - reach.lap / 2, reach.usable - reach.lap
        if length > reach.usable + self.slack:
            model.add_bool_or(there)
        for k, (station, here) in enumerate(zip(at, there, strict=True)):
            self._bound(station, reach.spacing, length - reach.spacing, here)
            if k == 0:
                self._bound(station, -math.inf, first, here)
            else:
                model.add_implication(here, there[k - 1])
                self._bound(station - at[k - 1], reach.spacing, between, here)
            last = [here] if k == count - 1 else [here, ~there[k + 1]]
            self._bound(station, length - first, math.inf, *last)
            for start, end in reach.zones:
                self._keep_off(station, start - reach.start - reach.band / 2, end - reach.start + reach.band / 2, here)

    def _bound(self, value: Any, low: float, high: float, *when: Any) -> None:
        if math.isfinite(low):
            self.model.add(value >= math.ceil(low - self.slack)).only_enforce_if(*when)
        if math.isfinite(high):
            self.model.add(value <= math.floor(high + self.slack)).only_enforce_if(*when)

    def _keep_off(self, station: cp_model.IntVar, low: float, high: float, here: cp_model.IntVar) -> None:
        below = self.model.new_bool_var("")
        self._bound(station, -math.inf, low, here, below)
        self._bound(station, high, math.inf, here, ~below)

    def _along_boat(self, station: cp_model.IntVar, reach: Reach, rows: Sequence[tuple[float, float]]) -> Any:
        """Return the boat station beside a station, wrong by a unit at the most: linear between every two rows."""
        if not rows:
            return FINE * station + round(FINE * reach.start)
        ends = [round(FINE * boat_station(at, rows)) for at in (reach.start, math.ceil(reach.length) + reach.start)]
        along = self.model.new_int_var(min(ends) - 1, max(ends) + 1, "")
        own = [row[0] - reach.start for row in rows]
        within = [self.model.new_bool_var("") for _ in pairwise(rows)]
        self.model.add_exactly_one(within)
        for place, ((one, other), here) in enumerate(zip(pairwise(rows), within, strict=True)):
            low = -math.inf if place == 0 else own[place]
            high = math.inf if place == len(within) - 1 else own[place + 1]
            self._bound(station, low, high, here)
            slope = (other[1] - one[1]) / (other[0] - one[0])
            steep, offset = round(SHARP * FINE * slope), round(SHARP * FINE * (one[1] - slope * own[place]))
            off = SHARP * along - steep * station - offset
            self.model.add(off <= SHARP).only_enforce_if(here)
            self.model.add(off >= -SHARP).only_enforce_if(here)
        return along

    def _keep_apart(self, one: int, other: int, shift: float) -> None:
        wrong = self._wrong[one] + self._wrong[other]
        least = math.ceil(FINE * shift) + (wrong if self.slack == 0 else -wrong)
        pairs = product(
            zip(self._boat[one], self._there[one], strict=True), zip(self._boat[other], self._there[other], strict=True)
        )
        for (a, here), (b, there) in pairs if shift > 0 else ():
            after = self.model.new_bool_var("")
            self.model.add(a - b >= least).only_enforce_if(here, there, after)
            self.model.add(b - a >= least).only_enforce_if(here, there, ~after)


def steepest(rows: Sequence[tuple[float, float]]) -> float:
    """Return how many millimetres of the boat one of the panel is at the most, one at the least."""
    pairs = pairwise(rows)
    return max([1.0, *((b[1] - a[1]) / (b[0] - a[0]) for a, b in pairs)])
