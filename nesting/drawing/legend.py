"""Lists on a drawing: ruled columns of small letters."""

from collections.abc import Sequence
from dataclasses import dataclass

from .canvas import Canvas, Point
from .lettering import shortened
from .sheet_frame import LEGEND_ROW
from .styles import DIMENSION, SMALL


@dataclass(frozen=True)
class Column:
    """A column of a list; its width in millimetres on paper."""

    heading: str
    width: float


def draw_list(canvas: Canvas, corner: Point, columns: Sequence[Column], rows: Sequence[Sequence[str]]) -> None:
    """Draw a list below and to the right of ``corner``; what is too long for its column is cut short."""
    left, top = corner
    width = sum(column.width for column in columns) * canvas.scale
    headings = [column.heading for column in columns]
    for number, row in enumerate([headings, *rows]):
        y = top - (number + 1) * LEGEND_ROW * canvas.scale
        _draw_row(canvas, (left, y), columns, row)
        canvas.lines([[(left, y), (left + width, y)]], DIMENSION)


def _draw_row(canvas: Canvas, corner: Point, columns: Sequence[Column], cells: Sequence[str]) -> None:
    x, y = corner
    baseline = y + (LEGEND_ROW - SMALL) / 2 * canvas.scale
    for column, cell in zip(columns, cells, strict=True):
        canvas.text(shortened(cell, SMALL, column.width - 1.0), (x, baseline), SMALL)
        x += column.width * canvas.scale
