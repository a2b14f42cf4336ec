"""Panels seen as bars: at each place along a sheet the chords there have to go abreast within its width.

Sheets stood on end are bars of their width, and every chord of a panel an item to be cut from one: what no such cutting
of bars can do, no layout can (the bar relaxation; Scheithauer, "LP-based bounds for the container and multi-container
loading problem", 1999, from memory). The values of chords that show it are those of the dual of its linear programme.
"""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from nesting.solving import maximize_linear

from .least_taken import Taker
from .resources import Floats, Resources
from .stock_choice import Choice, Cut, cut_of
from .valuing import FINE, Valuing

#: Widths that may get a value of their own, at most.
MOST_WIDTHS = 14

#: Chords narrower than this share of the widest sheet count by their width alone.
NARROW = 1 / 12

#: Rounds of pricing for one choice.
MOST_ROUNDS = 12

#: A width is worth at most this many times itself.
DEAREST = 4.0

#: Share by which what is needed must be more than what there is.
SHORT = 1e-6


class Pattern(NamedTuple):
    """Widths that go abreast on a kind of sheet, how many of each, and the height that is left."""

    kind: int
    counts: Floats
    left: float


class Bars:
    """Values of chords, and what sheets and panels are worth by them; it remembers every pattern seen."""

    def __init__(self, resources: Resources, takers: Sequence[Taker]) -> None:
        self.resources = resources
        self.takers = takers
        gap = takers[0].asked.job.workshop.gap
        self._heights = [supply.width + gap for supply in resources.supplies]
        self._lengths = np.array([supply.length + gap for supply in resources.supplies])
        self.widths, self._demand, self._loose = _demands(takers, max(self._heights))
        self._patterns: list[Pattern] = []

    def refuting(self, choice: Choice) -> Cut | None:
        """Return a cut that a choice of sheets fails; None if none was found."""
        if len(self.widths) == 0:
            return None
        counts = choice.counts[: self.resources.joint]
        for _ in range(MOST_ROUNDS):
            valuing, worth = self._values(counts)
            if valuing is None:
                return None
            best = [valuing.best_across(height) for height in self._heights]
            cut = self._cut(valuing, np.array([most for most, _, _ in best]), choice)
            if cut is not None:
                return cut
            better = [k for k, (most, _, _) in enumerate(best) if counts[k] and most > worth[k] + 1e-6]
            if not better:
                return None
            self._patterns += [Pattern(k, best[k][1], best[k][2]) for k in better]
        return None

    def _cut(self, valuing: Valuing, across: Floats, choice: Choice) -> Cut | None:
        """Return the cut by these values, if the choice fails it."""
        resources, counts = self.resources, choice.counts[: self.resources.joint]
        prices = np.zeros(resources.size)
        prices[: resources.joint] = 1.0
        taken = [np.array(taker.valued(valuing).by_manner(prices)) @ prices for taker in self.takers]
        needed = sum(float(worth @ made) for worth, made in zip(taken, choice.made, strict=True))
        each = resources.each.copy()
        each[: resources.joint] = across * self._lengths
        if needed - float(each[: resources.joint] @ counts) <= SHORT * needed:
            return None
        return cut_of(resources, prices, each, taken)

    def _values(self, counts: Floats) -> tuple[Valuing | None, Floats]:
        """Return the values at which all chords are worth most above what sheets hold by the patterns seen."""
        widths, kinds = len(self.widths), len(self._heights)
        scale = max(self._heights)
        supply = counts * self._lengths
        objective = np.concatenate([self._demand * self.widths, [self._loose], -supply * scale])
        rows = []
        for pattern in self._patterns:
            row = np.zeros(widths + 1 + kinds)
            row[:widths] = pattern.counts * self.widths / scale
            row[widths] = pattern.left / scale
            row[widths + 1 + pattern.kind] = -1.0
            rows.append(row)
        for kind, height in enumerate(self._heights):
            row = np.zeros(widths + 1 + kinds)
            row[widths], row[widths + 1 + kind] = height / scale, -1.0
            rows.append(row)
        upper = np.concatenate([np.full(widths, DEAREST), [1.0], np.full(kinds, np.inf)])
        found = maximize_linear(objective / objective.max(), rows, upper)
        if found is None or float(found @ objective) <= SHORT * float(self._demand @ self.widths):
            return None, np.zeros(kinds)
        values = np.maximum(found[:widths], 0.0) * self.widths
        return Valuing(float(max(0.0, found[widths])), self.widths, values), found[widths + 1 :] * scale


def _demands(takers: Sequence[Taker], height: float) -> tuple[Floats, Floats, float]:
    """Return widths, the length over which chords are at least so wide and no wider step, and the area of all else."""
    stretches = [_stretches(taker) for taker in takers]
    chords = np.concatenate([[0.0], *(chord for chord, _ in stretches)])
    widths = _steps(chords[chords >= height * NARROW])
    demand, loose = np.zeros(len(widths)), 0.0
    for taker, (chord, length) in zip(takers, stretches, strict=True):
        step = np.searchsorted(widths, chord, side="right") - 1
        copies = taker.asked.panel.quantity
        np.add.at(demand, step[step >= 0], copies * length[step >= 0])
        loose += copies * float((chord * length)[step < 0].sum())
        loose += copies * taker.asked.area if len(chord) == 0 else 0.0
    return widths, demand, loose


def _stretches(taker: Taker) -> tuple[Floats, Floats]:
    """Return the chords of a panel, a gap included, and how long each is; nothing for one that lies otherwise."""
    asked = taker.asked
    profile, gap = asked.abreast, asked.job.workshop.gap
    if profile is None:
        return np.zeros(0), np.zeros(0)
    chords = np.minimum(profile.first, profile.last) + gap
    lengths = np.diff(profile.corners)
    return chords, lengths * (1 + gap / max(profile.end - profile.start, 1.0))


def _steps(chords: Floats) -> Floats:
    """Return widths, rounded down, that stand for these chords: all of them, or some evenly among them."""
    found = np.unique(np.floor(chords * FINE + 1e-6) / FINE)
    if len(found) <= MOST_WIDTHS:
        return found
    return np.unique(found[np.linspace(0, len(found) - 1, MOST_WIDTHS).astype(int)])
