"""The title block: what the drawing is of, and a bar to check its scale by."""

from collections.abc import Sequence

from .canvas import Canvas, Point
from .lettering import millimetres, shortened
from .styles import BLACK, CUT, DIMENSION, MIDDLE, SMALL

#: Lengths of the scale bar, millimetres of the thing drawn, the best first; and the most it may take on paper.
BARS, BAR_ROOM = (500.0, 200.0, 100.0), 50.0


def draw_title_block(
    canvas: Canvas, corner: Point, size: tuple[float, float], title: str, lines: Sequence[str]
) -> None:
    """Draw a framed block, ``size`` on paper, below and to the right of ``corner``."""
    left, top = corner
    right, bottom = left + size[0] * canvas.scale, top - size[1] * canvas.scale
    room, inset = size[0] - 4.0, left + 2.0 * canvas.scale
    with canvas.group("title-block"):
        canvas.area([[(left, bottom), (right, bottom), (right, top), (left, top)]], CUT)
        y = top - (MIDDLE + 2.0) * canvas.scale
        canvas.text(shortened(title, MIDDLE, room), (inset, y), MIDDLE)
        for line in lines:
            y -= (SMALL + 1.8) * canvas.scale
            canvas.text(shortened(line, SMALL, room), (inset, y), SMALL)
        _draw_bar(canvas, (inset, bottom + 1.5 * canvas.scale))


def scale_words(scale: float) -> str:
    """Return the drawing scale in words that stay true on a resized print."""
    return f"scale 1:{millimetres(scale)} if printed at 100 %"


def _draw_bar(canvas: Canvas, corner: Point) -> None:
    """Draw a bar of a round length of the thing, half of it filled."""
    x, y = corner
    high = 1.2 * canvas.scale
    bar = next((bar for bar in BARS if bar / canvas.scale <= BAR_ROOM), BARS[-1])
    half = x + bar / 2
    canvas.area([[(x, y), (half, y), (half, y + high), (x, y + high)]], DIMENSION, tint=BLACK)
    canvas.area([[(half, y), (x + bar, y), (x + bar, y + high), (half, y + high)]], DIMENSION)
    canvas.text(f"{millimetres(bar)} mm", (x + bar + 2.0 * canvas.scale, y - 0.5 * canvas.scale), SMALL)
