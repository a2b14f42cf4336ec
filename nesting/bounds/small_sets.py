"""Few panels that no single sheet holds, as a proof from elsewhere says: then two are needed."""

from collections.abc import Callable, Sequence

import shapely
from shapely.geometry import Polygon

from .asked import Asked
from .least_taken import Taker
from .resources import Resources
from .stock_choice import Choice, Cut, costs_of

#: Panels, counting copies, that are few enough for such a proof.
MOST_PANELS = 10

#: Degrees by which panels may be turned, by how their grain is to run: two ways round each.
ANGLES = {"along": (0, 180), "across": (90, 270)}

#: An outline, and the degrees by which it may be turned.
Turnable = tuple[Polygon, tuple[int, ...]]

#: Whether it is proven that a room can't hold all of some outlines, which lie at least a gap apart.
Refuter = Callable[[Polygon, Sequence[Turnable], float], bool]


def nothing_refuted(room: Polygon, outlines: Sequence[Turnable], gap: float) -> bool:
    """Refute no set: for those who need no such proof."""
    del room, outlines, gap
    return False


class SmallSets:
    """Panels of which none may be joined, and what is refuted of them.

    They are looked at as if they could lie in faults and right at the edge of what trimming leaves of a sheet: what is
    impossible so is impossible in any plan.
    """

    def __init__(self, resources: Resources, takers: Sequence[Taker], refuted: Refuter) -> None:
        self._resources, self._takers, self._refuted = resources, takers, refuted
        self._outlines = _outlines(takers)
        self.has_refuted = False

    def refuting(self, choice: Choice) -> Cut | None:
        """Return a cut that a choice of one sheet fails: one of that kind is not enough; None if that isn't proven."""
        counts = choice.counts[: self._resources.joint]
        if not self._outlines or counts.sum() != 1:
            return None
        kind = int(counts.argmax())
        gap = self._takers[0].asked.job.workshop.gap
        if not self._refuted(self._resources.supplies[kind].usable, self._outlines, gap):
            return None
        self.has_refuted = True
        return self._more_than_one(kind)

    def _more_than_one(self, kind: int) -> Cut:
        """Return that sheets, those of one kind counting half, come to a whole one or more; times twice the copies."""
        copies = self._takers[0].asked.panel.quantity
        gives = [0] * len(costs_of(self._resources))
        for sheet in range(self._resources.joint):
            gives[sheet] = copies if sheet == kind else 2 * copies
        first, *others = (len(taker.manners) for taker in self._takers)
        return Cut(tuple(gives), ((2,) * first, *((0,) * manners for manners in others)))


def _outlines(takers: Sequence[Taker]) -> list[Turnable]:
    """Return all copies of all panels; nothing if they are many, or one may be joined or lie at any angle."""
    asked = [taker.asked for taker in takers]
    if sum(one.panel.quantity for one in asked) > MOST_PANELS:
        return []
    if any(one.rule is not None or one.panel.grain == "any" or one.panel.grain_tolerance > 0 for one in asked):
        return []
    return [(shape, ANGLES[one.panel.grain]) for one in asked for shape in _copies(one)]


def _copies(asked: Asked) -> list[Polygon]:
    """Return all copies of a panel as they are seen good face up: of a handed one every other is mirrored."""
    if not asked.panel.handed:
        return [asked.shape] * asked.panel.quantity
    mirrored = shapely.transform(asked.shape, lambda points: points * (1, -1))
    return [asked.shape, mirrored] * (asked.panel.quantity // 2)
