"""Where the bars of a drawing of timber stand."""

import math
from dataclasses import dataclass

from .canvas import Point
from .sheet_frame import SCALES
from .title_block import TITLE_HEIGHT, TITLE_WIDTH

#: Millimetres on paper.
WIDTH, BARS = 270.0, 250.0
LEFT, TOP = 10.0, 1.0
HEADING, BAR, FIGURES = 9.0, 9.0, 17.0
ROW = HEADING + BAR + FIGURES
KEY_ROW = 5.0


@dataclass(frozen=True, kw_only=True)
class LengthsFrame:
    """Bars one under another: to scale along, all of one height across; figures may be ``longer`` than millimetres."""

    longest: float
    bars: int
    key_rows: int
    longer: float = 0.0

    @property
    def scale(self) -> float:
        """Millimetres of timber for one on paper, along the bars."""
        least = self.longest / BARS
        return next((scale for scale in SCALES if scale >= least), 100 * math.ceil(least / 100))

    @property
    def _row(self) -> float:
        return ROW + self.longer

    def bar(self, index: int) -> tuple[float, float]:
        """Return the lower and the upper edge of a bar."""
        top = -(TOP + index * self._row + HEADING) * self.scale
        return top - BAR * self.scale, top

    @property
    def key_corner(self) -> Point:
        """Upper left corner of the key to the lines."""
        return -LEFT * self.scale, -(TOP + self.bars * self._row) * self.scale

    @property
    def legend_corner(self) -> Point:
        """Upper left corner of the list of parts."""
        return self.key_corner[0], self.key_corner[1] - self.key_rows * KEY_ROW * self.scale

    def title_corner(self, legend: float) -> Point:
        """Return the upper left corner of the title block below a list that is ``legend`` high on paper."""
        left = (WIDTH - LEFT - TITLE_WIDTH - 0.5) * self.scale
        return left, self.legend_corner[1] - (legend + 1.0) * self.scale

    def box(self, legend: float) -> tuple[float, float, float, float]:
        """Return the whole drawing: left, bottom, right, top."""
        bottom = self.legend_corner[1] - (legend + TITLE_HEIGHT + 2.0) * self.scale
        return -LEFT * self.scale, bottom, (WIDTH - LEFT) * self.scale, 0.0
