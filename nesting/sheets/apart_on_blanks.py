"""Where the joints of several panels from blanks may lie that keep apart: how each slides along one, by a solver."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise, product
from typing import Any

from ortools.sat.python import cp_model

from nesting.joints import Reach, boat_station, offsets_on_blank, stations_on_blank
from nesting.solving import Answer, Status, minimize

from .keeping_apart import EFFORT, FINE, SHARP, Panels, steepest
from .stock import Stock

#: Fine units by which a boat station may be wrong: rounded, and a hair for rounded slopes.
WRONG = 2

#: Millimetres by which every rule is eased where nothing is to be possible: as much as rounding could ever spoil.
SLACK = 1.0


@dataclass(frozen=True)
class Slide:
    """A panel that slides along a blank: its joints at ``stations``, and at any ``room`` or less above them."""

    stations: tuple[float, ...]
    room: float


@dataclass(frozen=True)
class FromBlanks:
    """Asks whether panels cut from blanks can keep their joints apart.

    ``blanks`` are those on which each may lie, none of them longer than ``longest`` if there is such a limit.
    """

    blanks: tuple[tuple[Stock, ...], ...]
    longest: float | None

    @property
    def scope(self) -> str:
        """How far a proof goes, in words."""
        count = len({blank.index for several in self.blanks for blank in several})
        limit = f", no longer than the {self.longest:g} that can be handled" if self.longest else ""
        return f"That is proven for panels cut whole from any of the {count} kinds of blank that are looked at{limit}"

    def is_impossible(self, panels: Panels) -> bool:
        """Whether it is proven that the panels' joints can't keep all rules."""
        return self._model(panels, SLACK).answer.status is Status.IMPOSSIBLE

    def is_possible(self, panels: Panels) -> bool:
        """Whether joints were found that keep all rules."""
        return self.stations(panels) is not None

    def stations(self, panels: Panels) -> tuple[tuple[float, ...], ...] | None:
        """Return stations of each panel's joints that keep all rules; None if none were found."""
        model = self._model(panels, 0.0)
        return model.stations() if model.answer.found else None

    def _model(self, panels: Panels, slack: float) -> "_Model":
        several = zip(panels.reaches, self.blanks, panels.maps, strict=True)
        return _Model(panels, [_slides(reach, blanks, rows, slack) for reach, blanks, rows in several], slack)


def _slides(
    reach: Reach, blanks: Sequence[Stock], rows: Sequence[tuple[float, float]], slack: float
) -> tuple[Slide, ...]:
    """Return how a panel may slide, in stretches over which its boat stations rise evenly."""
    found = [slide for slide in _along_blanks(reach, blanks, slack) if len(slide.stations) <= reach.most_joints]
    if reach.length <= reach.usable + slack:
        found.append(Slide((), 0.0))
    even = (part for slide in found for part in _parted(slide, [own for own, _ in rows]))
    return tuple(dict.fromkeys(even))


def _along_blanks(reach: Reach, blanks: Sequence[Stock], slack: float) -> Iterator[Slide]:
    zones = tuple((start + slack, end - slack) for start, end in reach.zones if end - start > 2 * slack)
    for stock in blanks:
        if stock.blank is None:
            continue
        least = max(0.0, reach.least_piece - slack)
        own = replace(reach, zones=zones, least_piece=least, lap=stock.blank.lap)
        for turned in (False, True):
            as_laid = own.mirrored() if turned else own
            for low, high in offsets_on_blank(as_laid, stock.lines, stock.size[0] + slack):
                at = low if turned else high
                there = stations_on_blank(as_laid, stock.lines, at)
                stations = own.from_other_end(there) if turned else there
                yield Slide(tuple(round(s, 6) for s in stations), round(high - low, 6))


def _parted(slide: Slide, knots: Sequence[float]) -> Iterator[Slide]:
    """Yield a slide in parts, over none of which a joint passes a knot."""
    cuts = {knot - s for knot in knots for s in slide.stations if 0 < knot - s < slide.room}
    if not cuts:
        yield slide
        return
    for begin, end in pairwise([0.0, *sorted(cuts), slide.room]):
        yield Slide(tuple(s + begin for s in slide.stations), end - begin)


class _Model:
    """The question put to the solver."""

    def __init__(self, panels: Panels, slides: Sequence[Sequence[Slide]], slack: float) -> None:
        self.model, self._slack, self._slides = cp_model.CpModel(), slack, slides
        self._there: list[list[Any]] = []
        self._boat: list[list[Any]] = []
        self._wrong = [0 if _is_fine(*each) else WRONG for each in zip(slides, panels.maps, strict=True)]
        for place, (several, rows) in enumerate(zip(slides, panels.maps, strict=True)):
            self._add_panel(place, several, rows)
        for one, other, shift in panels.shifts:
            eased = shift - slack * max(steepest(panels.maps[one]), steepest(panels.maps[other]))
            self._keep_apart(one, other, eased)
        self.answer: Answer = minimize(self.model, effort=EFFORT)

    def stations(self) -> tuple[tuple[float, ...], ...]:
        """Return where the joints lie that were found."""
        values = self.answer.values
        chosen = [
            (next(slide for k, slide in enumerate(several) if values[f"slide {place}/{k}"]), values[f"by {place}"])
            for place, several in enumerate(self._slides)
        ]
        return tuple(tuple(s + min(by / FINE, slide.room) for s in slide.stations) for slide, by in chosen)

    def _add_panel(self, place: int, slides: Sequence[Slide], rows: Sequence[tuple[float, float]]) -> None:
        model, most = self.model, max((len(slide.stations) for slide in slides), default=0)
        taken = [model.new_bool_var(f"slide {place}/{k}") for k in range(len(slides))]
        model.add_exactly_one(taken)
        by = model.new_int_var(0, max((self._room(slide) for slide in slides), default=0), f"by {place}")
        boat = [model.new_int_var(-(10**9), 10**9, "") for _ in range(most)]
        there = [model.new_bool_var("") for _ in range(most)]
        for slide, here in zip(slides, taken, strict=True):
            model.add(by <= self._room(slide)).only_enforce_if(here)
            for k, joint in enumerate(there):
                if k >= len(slide.stations):
                    model.add_implication(here, ~joint)
                    continue
                model.add_implication(here, joint)
                start, slope = _even(slide.stations[k], slide.room, rows)
                off = SHARP * boat[k] - round(SHARP * slope) * by - round(SHARP * FINE * start)
                hair = SHARP if self._wrong[place] else 0
                model.add_linear_constraint(off, -hair, hair).only_enforce_if(here)
        self._there.append(there)
        self._boat.append(boat)

    def _room(self, slide: Slide) -> int:
        return math.ceil(FINE * slide.room) if self._slack else math.floor(FINE * slide.room)

    def _keep_apart(self, one: int, other: int, shift: float) -> None:
        wrong = self._wrong[one] + self._wrong[other]
        least = math.ceil(FINE * shift) + (-wrong if self._slack else wrong)
        joints = [list(zip(self._boat[place], self._there[place], strict=True)) for place in (one, other)]
        for (a, here), (b, there) in product(*joints) if shift > 0 else ():
            after = self.model.new_bool_var("")
            self.model.add(a - b >= least).only_enforce_if(here, there, after)
            self.model.add(b - a >= least).only_enforce_if(here, there, ~after)


def _is_fine(slides: Sequence[Slide], rows: Sequence[tuple[float, float]]) -> bool:
    """Whether boat stations are whole fine units."""
    stations = [FINE * station for slide in slides for station in slide.stations]
    return not rows and all(abs(station - round(station)) < 1e-6 for station in stations)


def _even(station: float, room: float, rows: Sequence[tuple[float, float]]) -> tuple[float, float]:
    """Return the boat station of a joint, and by how much it rises for a millimetre that the panel slides."""
    start = boat_station(station, rows)
    return start, (boat_station(station + room, rows) - start) / room if room > 0 else 1.0
