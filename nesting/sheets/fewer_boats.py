"""A job of many equal boats as one of a few: sheets that serve these serve all, as many times over."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from .parts import Part
from .selecting import Selection, selection
from .tasks import Task


@dataclass(frozen=True, eq=False)
class FewerBoats:
    """A task of which everything is wanted ``times`` times."""

    task: Task
    times: int

    @property
    def pieces(self) -> int:
        """How many pieces there are at the least."""
        return sum(
            part.hands[kind.hand]
            for part, several in zip(self.task.parts, self.task.variants, strict=True)
            for kind in min(several, key=lambda variant: len(variant.pieces)).pieces
        )

    def for_all(self, few: Selection, parts: Sequence[Part]) -> Selection:
        """Return what is good for a few boats as many times over, for all parts of the whole job."""
        return selection(parts, few.variants, few.layouts * self.times)


def fewer_boats(task: Task, most_pieces: int) -> tuple[FewerBoats, ...]:
    """Return a task for each number of equal boats that the job is a multiple of, most boats first.

    None has more pieces than that.
    Sheets of which there are only so many serve no task: they would have to be shared out among the boats.
    """
    stocks = tuple(s for s in task.stocks if all(member.sheet.available is None for member in s.members))
    there = {stock.index for stock in stocks}
    variants = tuple(tuple(variant for variant in several if variant.fits(there)) for several in task.variants)
    if not all(variants):
        return ()
    boats = math.gcd(*(count for part in task.parts for count in part.hands.values()))
    tasks = [
        FewerBoats(replace(task, stocks=stocks, variants=variants, parts=_shared(task.parts, times)), times)
        for times in range(2, boats + 1)
        if boats % times == 0
    ]
    return tuple(few for few in tasks if few.pieces <= most_pieces)


def _shared(parts: Sequence[Part], times: int) -> tuple[Part, ...]:
    """Return the parts, of each hand only one in so many copies."""
    return tuple(
        replace(part, panel=part.panel.model_copy(update={"quantity": part.panel.quantity // times})) for part in parts
    )
