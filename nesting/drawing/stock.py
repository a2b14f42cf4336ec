"""The bare sheet: its outline, what is trimmed off, its faults and the run of its grain."""

from collections.abc import Sequence

import shapely
from shapely.geometry import Polygon

from nesting.model import Plan, UsedSheet
from nesting.outlines import shrunk

from .arrows import draw_double_arrow
from .canvas import Canvas, Point
from .hatching import hatched
from .lettering import width_of, write_centred
from .sheet_frame import SheetFrame
from .styles import EDGE, FAULT, FAULT_HATCH, SMALL, TRIM


def draw_stock(canvas: Canvas, sheet: UsedSheet) -> None:
    """Draw a sheet before anything is cut from it."""
    with canvas.group("stock"):
        canvas.area([sheet.outline, *sheet.holes], EDGE, name=sheet.id)
        if sheet.trim:
            _draw_trim(canvas, sheet)
        for fault in sheet.faults:
            _draw_fault(canvas, Polygon(fault))


def name_faults(canvas: Canvas, sheet: UsedSheet, words: Sequence[str], pieces: Sequence[Polygon]) -> None:
    """Write what each fault is beside it where there is room; the key tells what the hatching means where not."""
    for fault, name in zip(sheet.faults, words, strict=True):
        place = _place_beside(Polygon(fault), width_of(name, SMALL), sheet, pieces, canvas.scale)
        if place:
            write_centred(canvas, name, place, SMALL)


def fault_words(plan: Plan, sheet: UsedSheet) -> list[str]:
    """Return what each fault of a sheet is called: one that does not go through names its face."""
    stock = next((stock for stock in plan.job.sheets if stock.name == sheet.stock), None)
    sides = [fault.side for fault in stock.faults] if stock else []
    if len(sides) != len(sheet.faults):
        return ["fault"] * len(sheet.faults)
    return [{"both": "fault", "good": "fault, good face", "back": "fault, back"}[side] for side in sides]


def draw_grain(canvas: Canvas, frame: SheetFrame, arrows: str) -> None:
    """Draw the run of the face grain above the sheet, along its x axis, and say to what arrows within pieces point."""
    y = frame.top + frame.paper(frame.above + 10.5)
    draw_double_arrow(canvas, (frame.left, y), (frame.left + frame.paper(20.0), y))
    at = (frame.left + frame.paper(22.0), y - frame.paper(SMALL / 2))
    canvas.text(f"face grain; all pieces lie good face up; {arrows}", at, SMALL)


def _draw_trim(canvas: Canvas, sheet: UsedSheet) -> None:
    inner = shrunk(Polygon(sheet.outline, sheet.holes), sheet.trim)
    for part in getattr(inner, "geoms", [inner]):
        if not part.is_empty:
            canvas.area([list(ring.coords)[:-1] for ring in (part.exterior, *part.interiors)], TRIM)


def _draw_fault(canvas: Canvas, fault: Polygon) -> None:
    with canvas.group("fault", "fault"):
        for angle in (45.0, 135.0):
            canvas.lines(hatched(fault, 2.0 * canvas.scale, angle), FAULT_HATCH)
        canvas.area([list(fault.exterior.coords)[:-1]], FAULT)


def _place_beside(
    fault: Polygon, width: float, sheet: UsedSheet, pieces: Sequence[Polygon], scale: float
) -> Point | None:
    """Return a free place for words of a width: above, below, right or left; None if there is none."""
    half_width, half_height = width / 2 * scale, SMALL / 2 * scale
    left, low, right, high = (float(value) for value in fault.bounds)
    x, y, off = (left + right) / 2, (low + high) / 2, 1.0 * scale
    beside = off + half_width
    above = off + half_height
    wood = Polygon(sheet.outline, sheet.holes)
    for place in ((x, high + above), (x, low - above), (right + beside, y), (left - beside, y)):
        words = shapely.box(
            place[0] - half_width, place[1] - half_height, place[0] + half_width, place[1] + half_height
        )
        if wood.covers(words) and not any(piece.intersects(words) for piece in pieces):
            return place
    return None
