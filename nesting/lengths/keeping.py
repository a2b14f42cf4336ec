"""What is left of a length may be worth keeping: an offcut is a further piece that nobody asked for."""

from fractions import Fraction
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:  # a first plan, which values offcuts too, does not wait for compiled loops
    from .filling import Whole


def worth(value: Fraction, length: int, keep_from: int) -> int:
    """Return what an offcut is worth, in whole cents: nothing if it is too short to be kept."""
    return int(value * length) if value and length >= keep_from else 0


class Keeping:
    """How offcuts enter a knapsack: one piece of any length from ``least`` on, with its kerf, at a rate for the unit.

    The rate, in whole units, is rounded up, so that no filling is worth more than it is said to be.
    """

    def __init__(self, value: Fraction, scale: int, kerf: int, keep_from: int) -> None:
        self.rate = -int(-value * scale // 1)
        self.kerf, self.least = kerf, kerf + keep_from

    def with_offcut(self, best: "Whole") -> "Whole":
        """Return the best values within each room if what the strips leave may be kept, from those of strips alone.

        ``best`` must not fall as the room grows.
        """
        if self.rate == 0 or len(best) <= self.least:
            return best
        rooms = np.arange(len(best), dtype=np.int64)
        beside = np.maximum.accumulate(best - self.rate * rooms)
        made = best.copy()
        made[self.least :] = np.maximum(
            made[self.least :], beside[: len(best) - self.least] + self.rate * (rooms[self.least :] - self.kerf)
        )
        return made

    def room_of_strips(self, best: "Whole", room: int) -> int:
        """Return the room that strips fill where the rest of ``room`` is kept; all of it if nothing is."""
        if self.rate == 0 or room < self.least:
            return room
        beside = best[: room - self.least + 1] - self.rate * np.arange(room - self.least + 1)
        place = int(beside.argmax())
        return place if int(beside[place]) + self.rate * (room - self.kerf) > int(best[room]) else room
