"""Arrows."""

import math

from .canvas import Canvas, Point
from .styles import ARROW

#: Length of an arrow head and half its width, millimetres on paper.
HEAD, HALF_HEAD = 2.2, 0.7


def draw_arrow(canvas: Canvas, tail: Point, tip: Point) -> None:
    """Draw an arrow with a head at its tip."""
    canvas.lines([[tail, tip]], ARROW)
    _draw_head(canvas, tail, tip)


def draw_double_arrow(canvas: Canvas, one: Point, other: Point) -> None:
    """Draw an arrow with a head at each end."""
    draw_arrow(canvas, one, other)
    _draw_head(canvas, other, one)


def _draw_head(canvas: Canvas, tail: Point, tip: Point) -> None:
    angle = math.atan2(tip[1] - tail[1], tip[0] - tail[0])
    cos, sin = math.cos(angle) * canvas.scale, math.sin(angle) * canvas.scale
    back = (tip[0] - HEAD * cos, tip[1] - HEAD * sin)
    sides = [(back[0] - side * sin, back[1] + side * cos) for side in (HALF_HEAD, -HALF_HEAD)]
    canvas.area([[tip, *sides]], None, tint=ARROW.colour)
