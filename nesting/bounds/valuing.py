"""What a chord of a piece is worth across a sheet: by its width alone, or more where few such go abreast."""

import math
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from .profile import Profile
from .resources import Floats

Places = NDArray[np.int64]

#: Steps to a millimetre in which chords and sheets are measured: chords rounded down, sheets up.
FINE = 10

#: Millimetres by which the chords at the ends of a stretch must differ to be told apart.
LEVEL = 1e-3


@dataclass(frozen=True)
class Valuing:
    """A value for every width: ``slope`` times the width, or that of the widest step within it if that is more.

    Values never fall as widths grow. ``widths`` rise, whole steps of 1 / ``FINE`` millimetres.
    """

    slope: float = 1.0
    widths: Floats = field(default_factory=lambda: np.zeros(0))
    values: Floats = field(default_factory=lambda: np.zeros(0))

    @property
    def by_width(self) -> bool:
        """Whether it is the width itself, times the slope: sums along a panel are then areas."""
        return len(self.widths) == 0

    def of(self, widths: Floats) -> Floats:
        """Return the value of each width."""
        steps = np.concatenate([[0.0], np.maximum.accumulate(self.values)])
        within = np.searchsorted(self.widths, widths, side="right")
        worth: Floats = np.maximum(steps[within], self.slope * np.maximum(widths, 0.0))
        return worth

    def best_across(self, height: float) -> tuple[float, Floats, float]:
        """Return the most that widths are worth which add up to ``height`` at the most: a knapsack, the rest by slope.

        With it how many there are of each step, and the height that is left.
        """
        room = math.ceil(height * FINE)
        most = self.slope * np.arange(room + 1) / FINE
        last = np.full(room + 1, -1)
        for k, value in enumerate(self.values):
            step = self._step(k)
            for _ in range(room // step):
                better = most[:-step] + value > most[step:] + 1e-12
                most[step:][better] = (most[:-step] + value)[better]
                last[step:][better] = k
        counts, left = self._counts(last, room)
        # What a better sum was not taken for is made up for.
        return float(most[room]) + 1e-9, counts, left

    def _step(self, k: int) -> int:
        return round(float(self.widths[k]) * FINE)

    def _counts(self, last: Places, room: int) -> tuple[Floats, float]:
        counts = np.zeros(len(self.widths))
        while last[room] >= 0:
            k = int(last[room])
            counts[k] += 1
            room -= self._step(k)
        return counts, room / FINE

    def sums(self, profile: Profile, gap: float, stations: Floats) -> Floats:
        """Return the value of all chords, each with a gap, between the first station and each of these.

        Over a stretch in which the chord grows evenly from a to b the mean value is that over all widths between.
        """
        knots, first, last = profile.cut_at(stations)
        low, high = np.minimum(first, last) + gap, np.maximum(first, last) + gap
        spread = np.maximum(high - low, LEVEL)
        mean = np.where(high - low > LEVEL, (self._primitive(high) - self._primitive(low)) / spread, self.of(low))
        whole = np.concatenate([[0.0], np.cumsum(np.diff(knots) * mean)])
        found: Floats = whole[np.searchsorted(knots, np.clip(stations, knots[0], knots[-1]))]
        return found

    def _primitive(self, widths: Floats) -> Floats:
        """Return the integral of values from nought to each width."""
        knots = np.unique(np.concatenate([[0.0], *self._bends()]))
        middles = (knots[1:] + knots[:-1]) / 2
        steps = np.concatenate([self.of(middles), self.of(knots[-1:] + 1.0)])
        rising = np.concatenate([self._by_slope(middles), self._by_slope(knots[-1:] + 1.0)])
        # Between two bends the value is either level or the slope itself.
        parts = np.where(rising[:-1], self.slope * (knots[1:] ** 2 - knots[:-1] ** 2) / 2, steps[:-1] * np.diff(knots))
        whole = np.concatenate([[0.0], np.cumsum(parts)])
        k = np.clip(np.searchsorted(knots, widths, side="right") - 1, 0, len(knots) - 1)
        into = widths - knots[k]
        rest = np.where(rising[k], self.slope * (widths**2 - knots[k] ** 2) / 2, steps[k] * into)
        integral: Floats = whole[k] + rest
        return integral

    def _bends(self) -> list[Floats]:
        """Return the widths at which values step, and those at which the slope overtakes a step."""
        steps = np.maximum.accumulate(self.values) if len(self.values) else self.values
        return [self.widths, steps / self.slope if self.slope > 0 else np.zeros(0)]

    def _by_slope(self, widths: Floats) -> NDArray[np.bool_]:
        """Return whether the slope decides the value of each width."""
        decides: NDArray[np.bool_] = self.of(widths) <= self.slope * widths * (1 + 1e-12)
        return decides
