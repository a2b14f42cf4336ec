"""The title block: what the drawing is of, a bar to check its scale by, and the fields that ISO 7200 asks for.

Of its fields owner, date of issue, creator's and approver's names are left to the pen: a plan knows none of them
(mandatory fields of ISO 7200:2004 from memory).
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from .canvas import Canvas, Point
from .lettering import millimetres, shortened, width_of
from .styles import BLACK, CUT, DIMENSION, MIDDLE, SMALL
from .tape import INCH, figure, unit

#: Millimetres on paper: the block is as wide as the standard has it (from memory); what it is of stands at its left,
#: fields at its right; the height of a field and of what names it.
TITLE_WIDTH, TITLE_HEIGHT = 180.0, 25.0
FIELDS, FIELD, NAMED = 86.0, 7.5, 1.8

#: Lengths of the scale bar, millimetres of the thing drawn, the best first; and the most it may take on paper.
BARS = {"mm": (500.0, 200.0, 100.0), "inches": (24 * INCH, 12 * INCH, 6 * INCH, 3 * INCH)}
BAR_ROOM = 25.0


@dataclass(frozen=True, kw_only=True)
class TitleBlock:
    """What stands in the block: ``kind`` of drawing, ``number`` by which it is found, its place among the sheets.

    Of a line that is told in several ways the first that has room is written. The scale holds ``along`` the thing
    only, or every way.
    """

    title: str
    lines: Sequence[str | tuple[str, ...]]
    kind: str
    number: str
    sheet: str = ""
    along: bool = False


def draw_title_block(canvas: Canvas, corner: Point, block: TitleBlock) -> None:
    """Draw the block below and to the right of ``corner``."""
    left, top = corner
    right, bottom = left + TITLE_WIDTH * canvas.scale, top - TITLE_HEIGHT * canvas.scale
    middle, fields = right - FIELDS * canvas.scale, bottom + 2 * FIELD * canvas.scale
    with canvas.group("title-block"):
        canvas.area([[(left, bottom), (right, bottom), (right, top), (left, top)]], CUT)
        canvas.lines([[(middle, top), (middle, bottom)]], DIMENSION)
        _draw_lines(canvas, block, (left + 2.0 * canvas.scale, top))
        along = "along" if block.along else ""
        _draw_bar(canvas, (middle + 2.0 * canvas.scale, (fields + top) / 2 - 0.6 * canvas.scale), along)
        _draw_fields(canvas, block, (middle, fields))


def _draw_lines(canvas: Canvas, block: TitleBlock, corner: Point) -> None:
    """Write the title and what the drawing is of, line by line."""
    left, top = corner
    room, y = TITLE_WIDTH - FIELDS - 4.0, top - (MIDDLE + 1.7) * canvas.scale
    canvas.text(shortened(block.title, MIDDLE, room), (left, y), MIDDLE)
    for line in block.lines:
        y -= (SMALL + 1.9) * canvas.scale
        canvas.text(_fitting(line, room), (left, y), SMALL)


def _fitting(line: str | tuple[str, ...], room: float) -> str:
    choices = (line,) if isinstance(line, str) else line
    fit = (words for words in choices if width_of(words, SMALL) <= room)
    return next(fit, shortened(choices[-1], SMALL, room))


def _draw_fields(canvas: Canvas, block: TitleBlock, corner: Point) -> None:
    """Draw two rows of fields below a corner, each field with its name above what stands in it."""
    left, top = corner
    upper = (("type", block.kind, 33.0), ("number", block.number, 33.0), ("sheet", block.sheet, 20.0))
    lower = (("owner", "", 24.0), ("drawn by", "", 21.0), ("approved by", "", 21.0), ("date", "", 20.0))
    for row, fields in enumerate((upper, lower)):
        y = top - row * FIELD * canvas.scale
        canvas.lines([[(left, y), (left + FIELDS * canvas.scale, y)]], DIMENSION)
        for (name, words, width), along in zip(fields, _starts([field[2] for field in fields]), strict=True):
            x = left + along * canvas.scale
            if along:
                canvas.lines([[(x, y), (x, y - FIELD * canvas.scale)]], DIMENSION)
            canvas.text(name, (x + canvas.scale, y - (NAMED + 0.7) * canvas.scale), NAMED)
            said = shortened(words, SMALL, width - 2.0)
            canvas.text(said, (x + canvas.scale, y - (FIELD - 1.0) * canvas.scale), SMALL)


def _starts(widths: Sequence[float]) -> Iterator[float]:
    start = 0.0
    for width in widths:
        yield start
        start += width


def _draw_bar(canvas: Canvas, corner: Point, along: str) -> None:
    """Draw a bar of a round length of the thing, half of it filled, and the scale beside it."""
    x, y = corner
    high = 1.2 * canvas.scale
    bars = BARS[unit()]
    bar = next((bar for bar in bars if bar / canvas.scale <= BAR_ROOM), bars[-1])
    half, after = x + bar / 2, x + bar + 2.0 * canvas.scale
    canvas.area([[(x, y), (half, y), (half, y + high), (x, y + high)]], DIMENSION, tint=BLACK)
    canvas.area([[(half, y), (x + bar, y), (x + bar, y + high), (half, y + high)]], DIMENSION)
    words = " ".join(filter(None, (f"{figure(bar)} {unit()}; 1:{millimetres(canvas.scale)}", along, "at 100 %")))
    canvas.text(words, (after, y - 0.5 * canvas.scale), SMALL)
