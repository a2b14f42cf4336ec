"""The key: what each kind of line on a drawing means."""

from collections.abc import Iterator, Sequence

from nesting.model import Plan

from .canvas import Canvas, Point
from .lettering import width_of
from .styles import ALLOWED, BEVEL, CUT, FAULT, FEATHER, HIDDEN, KEEP, REGISTER, SMALL, STATION, TICK, TRIM, Line
from .tape import figure

#: Millimetres on paper: the sample of a line, and the gap after its words.
SAMPLE, GAP = 11.0, 5.0

Entry = tuple[Line, str]

SCARFS: tuple[Entry, ...] = (
    (FEATHER, "thin edge of bevel"),
    (HIDDEN, "bevel begins, underneath"),
    (BEVEL, "bevel begins, on top"),
    (STATION, "middle of lap"),
)
BUTTS: tuple[Entry, ...] = ((HIDDEN, "strap behind reaches to here"),)
SCARFS_OF_BLANKS: tuple[Entry, ...] = (
    (FEATHER, "glue line on the good face"),
    (HIDDEN, "glue line on the back"),
    (STATION, "middle of lap"),
)
TRIMMED: Entry = (TRIM, "trim to here")
KEPT: Entry = (KEEP, "offcut to keep")
FAULTY: Entry = (FAULT, "fault, kept off if it would show")


def sawn(plan: Plan) -> tuple[Entry, ...]:
    """Return on which side of which line the saw goes, and what it takes."""
    workshop = plan.job.workshop
    kerf = f"kerf {figure(workshop.kerf.sheet)}"
    if not workshop.allowance:
        return ((CUT, f"the part: saw outside, {kerf}"),)
    return ((CUT, "finished line: plane to it"), (ALLOWED, f"saw outside this, {kerf}"))


def key_rows(entries: Sequence[Entry], width: float) -> int:
    """Return how many rows of a given width on paper the entries take."""
    return max((row + 1 for _, row, _ in _flow(entries, width)), default=0)


def draw_key(canvas: Canvas, corner: Point, entries: Sequence[Entry], width: float, row_height: float) -> None:
    """Draw the entries one after another, in as many rows as they need."""
    for (line, words), row, along in _flow(entries, width):
        x = corner[0] + along * canvas.scale
        y = corner[1] - (row + 0.5) * row_height * canvas.scale
        canvas.lines(_sample(line, (x, y), canvas.scale), line)
        canvas.text(words, (x + (SAMPLE + 1.5) * canvas.scale, y - SMALL / 2 * canvas.scale), SMALL)


def _sample(line: Line, start: Point, scale: float) -> list[list[Point]]:
    """Return a line such as those on the drawing: a register mark is short, and drawn from both edges."""
    (x, y), end, short = start, start[0] + SAMPLE * scale, TICK * scale
    if line == REGISTER:
        return [[(x, y), (x + short, y)], [(end - short, y), (end, y)]]
    return [[(x, y), (end, y)]]


def _flow(entries: Sequence[Entry], width: float) -> Iterator[tuple[Entry, int, float]]:
    """Yield each entry with its row and its distance from the left."""
    row, along = 0, 0.0
    for entry in entries:
        takes = SAMPLE + 1.5 + width_of(entry[1], SMALL)
        if along and along + takes > width:
            row, along = row + 1, 0.0
        yield entry, row, along
        along += takes + GAP
