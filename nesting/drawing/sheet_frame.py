"""Where everything stands on the drawing of one sheet or blank, and at what scale it is drawn."""

import math
from dataclasses import dataclass

from .canvas import Point
from .datum import Container
from .tape import figure_room
from .title_block import TITLE_HEIGHT, TITLE_WIDTH

#: Drawing scales, 1 to these: those of ISO 5455 with 15 and 25 between, so that common sheets fill an A4 page.
SCALES = (5, 10, 15, 20, 25, 50, 100)

#: Millimetres on paper. A sheet of 2500 x 1250 at 1:10 and its figures go on A4 lying down.
WIDTH = 270.0
STOCK_WIDTH, STOCK_HEIGHT = 250.0, 125.0
LEFT, TOP = 14.5, 14.0
FIGURES = 18.0
KEY_ROW, LEGEND_ROW = 5.0, 5.0

#: The list of pieces takes so much of the width, the key to the lines what is left beside it.
LIST_WIDTH = 184.0
KEY_WIDTH = WIDTH - LIST_WIDTH


@dataclass(frozen=True, kw_only=True)
class SheetFrame:
    """The stock's enclosing rectangle, in its own millimetres, and what stands round it.

    ``above`` is room on paper that is kept between the stock and its overall length, and ``longer`` what figures need
    beyond the room of millimetres.
    """

    left: float
    bottom: float
    right: float
    top: float
    rows: int
    key_rows: int
    above: float = 0.0
    longer: float = 0.0

    @property
    def scale(self) -> float:
        """Millimetres of stock for one on paper."""
        least = max((self.right - self.left) / (STOCK_WIDTH - self.longer), (self.top - self.bottom) / STOCK_HEIGHT)
        return next((scale for scale in SCALES if scale >= least), 100 * math.ceil(least / 100))

    @property
    def size(self) -> tuple[float, float]:
        """Length and width of the stock."""
        return self.right - self.left, self.top - self.bottom

    def paper(self, millimetres: float) -> float:
        """Return how much of the thing millimetres on paper are."""
        return millimetres * self.scale

    def beyond(self, right: float, up: float) -> Point:
        """Return a point by its distance on paper from the stock's lower left corner."""
        return self.left + self.paper(right), self.bottom + self.paper(up)

    @property
    def key_corner(self) -> Point:
        """Upper left corner of the key to the lines, beside the list of pieces."""
        return self.beyond(LIST_WIDTH - self._left, -self._figures)

    @property
    def legend_corner(self) -> Point:
        """Upper left corner of the list of pieces."""
        return self.beyond(-self._left, -self._figures)

    @property
    def title_corner(self) -> Point:
        """Upper left corner of the title block, which stands at the lower right of the drawing."""
        return self.beyond(WIDTH - self._left - TITLE_WIDTH - 0.5, TITLE_HEIGHT + 0.5 - self._below)

    @property
    def box(self) -> tuple[float, float, float, float]:
        """The whole drawing: left, bottom, right, top."""
        left, bottom = self.beyond(-self._left, -self._below)
        return left, bottom, left + self.paper(WIDTH), self.top + self.paper(self.above + TOP)

    @property
    def _left(self) -> float:
        return LEFT + self.longer

    @property
    def _figures(self) -> float:
        return FIGURES + self.longer

    @property
    def _below(self) -> float:
        """Height on paper of what stands below the stock."""
        lists = max(self.key_rows * KEY_ROW, (self.rows + 1) * LEGEND_ROW)
        return self._figures + lists + TITLE_HEIGHT + 2.0


def frame_round(container: Container, *, rows: int, key_rows: int, above: float = 0.0) -> SheetFrame:
    """Return the frame round a sheet or blank, with room for so many rows of the list and of the key."""
    xs, ys = [x for x, _ in container.outline], [y for _, y in container.outline]
    return SheetFrame(
        left=min(xs),
        bottom=min(ys),
        right=max(xs),
        top=max(ys),
        rows=rows,
        key_rows=key_rows,
        above=above,
        longer=figure_room(),
    )
