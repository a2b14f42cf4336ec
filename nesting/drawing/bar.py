"""What all bars of timber have: figures below, words within, what is left over."""

from collections.abc import Sequence

from nesting.model import LengthOffcut

from .canvas import Canvas, Point
from .dimensions import PITCH, spread
from .lettering import width_of, write_centred
from .styles import BLACK, DIMENSION, KEEP, MIDDLE, SMALL
from .tape import figure

#: The lower and the upper edge of a bar.
Edges = tuple[float, float]


def draw_start(canvas: Canvas, edges: Edges) -> None:
    """Draw the ring at the end from which distances are measured."""
    canvas.circle((0.0, edges[0]), 1.6, DIMENSION)
    canvas.circle((0.0, edges[0]), 0.6, None, tint=BLACK)


def draw_offcut(canvas: Canvas, offcut: LengthOffcut, edges: Edges) -> None:
    """Draw what is left of a bar, framed if it is kept."""
    size = figure(offcut.end - offcut.start)
    if offcut.kept:
        inset = 0.9 * canvas.scale
        within = (edges[0] + inset, edges[1] - inset)
        canvas.area([rectangle(offcut.start + inset, offcut.end - inset, within)], KEEP)
    fate = "keep" if offcut.kept else "rest"
    write_within(canvas, (f"{fate} {size}", size), offcut.start, offcut.end, edges)


def write_within(canvas: Canvas, choices: Sequence[str], left: float, right: float, edges: Edges) -> None:
    """Write the first choice that fits between two places at the first height at which it does; else nothing."""
    room = (right - left) / canvas.scale - 1.0
    for words in choices:
        for height in (MIDDLE, SMALL):
            if width_of(words, height) <= room:
                write_centred(canvas, words, ((left + right) / 2, sum(edges) / 2), height)
                return


def draw_figures(canvas: Canvas, cuts: Sequence[float], edges: Edges) -> None:
    """Write the running distance of every cut below the bar."""
    low, distances = edges[0], sorted({round(cut, 1) for cut in cuts})
    for distance, place in zip(distances, spread(distances, PITCH * canvas.scale), strict=True):
        leader = [(distance, low), (distance, low - 1.5 * canvas.scale), (place, low - 4.0 * canvas.scale)]
        canvas.lines([leader], DIMENSION)
        at = (place + SMALL / 2 * canvas.scale, low - 4.5 * canvas.scale)
        canvas.text(figure(distance), at, SMALL, anchor="end", angle=90.0)


def rectangle(start: float, end: float, edges: Edges) -> list[Point]:
    """Return the corners of a stretch of a bar."""
    low, high = edges
    return [(start, low), (end, low), (end, high), (start, high)]


def across_bar(x: float, edges: Edges) -> list[Point]:
    """Return the line right across a bar."""
    return [(x, edges[0]), (x, edges[1])]
