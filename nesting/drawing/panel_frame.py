"""Where things stand on the drawing of one whole part, and at what scale it is drawn."""

import math
from dataclasses import dataclass

from .canvas import Point
from .sheet_frame import SCALES
from .title_block import TITLE_HEIGHT, TITLE_WIDTH
from .whole_part import WholePart

#: Millimetres on paper.
WIDTH, PART_WIDTH, PART_HEIGHT, LEFT = 270.0, 250.0, 90.0, 10.0
STRIP = 8.0
#: Above the part: its joints. Below it: where none may be, its stations, the boat's, and the rows of its neighbours.
ABOVE, ZONES, STATIONS, BOAT = 16.0, 6.5, 8.0, 5.0
WORDS, BAR, APART = 5.5, 5.0, 6.0
ROW = WORDS + BAR + APART
KEY_ROW = 5.0


def scale_for(length: float, width: float) -> float:
    """Return the largest usual scale at which a part of that size fits."""
    least = max(length / PART_WIDTH, width / PART_HEIGHT)
    return next((scale for scale in SCALES if scale >= least), 100 * math.ceil(least / 100))


@dataclass(frozen=True, kw_only=True)
class PanelFrame:
    """The rectangle that a part and its neighbours take along it, in the part's millimetres, and what is round it."""

    left: float
    right: float
    bottom: float
    top: float
    has_zones: bool
    has_boat: bool
    rows: int
    key_rows: int
    scale: float

    def paper(self, millimetres: float) -> float:
        """Return how much of the thing millimetres on paper are."""
        return millimetres * self.scale

    @property
    def stations(self) -> float:
        """Height at which the scale of stations runs."""
        return self.bottom - self.paper(3.0 + (ZONES if self.has_zones else 0.0))

    def row(self, index: int) -> float:
        """Return the upper edge of the row of a neighbour."""
        return self.stations - self.paper(STATIONS + (BOAT if self.has_boat else 0.0) + index * ROW)

    def bar(self, index: int) -> tuple[float, float]:
        """Return the lower and the upper edge of a neighbour's bar."""
        top = self.row(index) - self.paper(WORDS)
        return top - self.paper(BAR), top

    @property
    def key_corner(self) -> Point:
        """Upper left corner of the key to the lines."""
        return self.left - self.paper(LEFT), self.row(self.rows)

    @property
    def title_corner(self) -> Point:
        """Upper left corner of the title block."""
        x = self.left + self.paper(WIDTH - LEFT - TITLE_WIDTH - 0.5)
        return x, self.key_corner[1] - self.paper(self.key_rows * KEY_ROW + 1.0)

    @property
    def box(self) -> tuple[float, float, float, float]:
        """The whole drawing: left, bottom, right, top."""
        left = self.left - self.paper(LEFT)
        bottom = self.title_corner[1] - self.paper(TITLE_HEIGHT + 1.0)
        return left, bottom, left + self.paper(WIDTH), self.top + self.paper(ABOVE)


def panel_frame(part: WholePart, scale: float, key_rows: int) -> PanelFrame:
    """Return the frame round a part and its neighbours."""
    left, bottom, right, top = part.shape.bounds
    return PanelFrame(
        left=min([left, *(beside.reach[0] for beside in part.beside)]),
        right=max([right, *(beside.reach[1] for beside in part.beside)]),
        bottom=bottom,
        top=top,
        has_zones=bool(part.zones),
        has_boat=bool(part.boat_stations),
        rows=len(part.beside),
        key_rows=key_rows,
        scale=scale,
    )
