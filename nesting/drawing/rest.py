"""What of a sheet or blank is neither a piece nor an offcut to keep."""

from collections.abc import Iterator
from dataclasses import dataclass

import shapely
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from nesting.model import Blank, Plan, SheetOffcut
from nesting.outlines import shrunk

from .canvas import Canvas
from .datum import Container, parts_of_blanks, sheet_pieces
from .lettering import width_of, write_centred
from .placement import shape_of
from .styles import SMALL
from .tape import area

#: The least rest that is worth a name, square millimetres.
WORTH_NAMING = 5000.0


@dataclass(frozen=True, kw_only=True)
class Shares:
    """Square millimetres of a sheet or blank: ``whole`` is the sum of the others; the rest holds trim and kerf."""

    whole: float
    pieces: float
    for_blanks: float
    kept: float
    rest: float


def shares(plan: Plan, on: Container) -> Shares:
    """Return where the area of a sheet or blank goes."""
    whole = _wood(on).area
    pieces = sum(shape_of(piece).area for piece in sheet_pieces(plan, on.id))
    for_blanks = sum(part.area for part in _for_blanks(plan, on))
    kept = sum(Polygon(offcut.outline).area for offcut in _kept(plan, on))
    rest = whole - pieces - for_blanks - kept
    return Shares(whole=whole, pieces=pieces, for_blanks=for_blanks, kept=kept, rest=rest)


def shares_in_words(plan: Plan, on: Container) -> str:
    """Return the shares in percent, such as ``parts 71.0 %, kept 12.0 %, rest 17.0 %``."""
    share = shares(plan, on)
    said = (("parts", share.pieces), ("blanks", share.for_blanks), ("kept", share.kept), ("rest", share.rest))
    return ", ".join(f"{name} {100 * part / share.whole:.1f} %" for name, part in said if part or name == "rest")


def draw_rest(canvas: Canvas, plan: Plan, on: Container) -> None:
    """Write "rest", with its area, into each part of what is left that has room for the words."""
    with canvas.group("rest"):
        for part in _left(plan, on):
            _name(canvas, part)


def _name(canvas: Canvas, part: Polygon) -> None:
    centre = shapely.maximum_inscribed_circle(part, tolerance=2.0 * canvas.scale).coords[0]
    for words in (f"rest {area(part.area)}", "rest"):
        width, height = (width_of(words, SMALL) + 2.0) * canvas.scale, (SMALL + 1.6) * canvas.scale
        for angle, (along, up) in ((0.0, (width, height)), (90.0, (height, width))):
            box = shapely.box(centre[0] - along / 2, centre[1] - up / 2, centre[0] + along / 2, centre[1] + up / 2)
            if part.covers(box):
                write_centred(canvas, words, (float(centre[0]), float(centre[1])), SMALL, angle)
                return


def _left(plan: Plan, on: Container) -> Iterator[Polygon]:
    """Yield the parts of what is left by saw, trim, faults, pieces and offcuts, slivers left out."""
    workshop = plan.job.workshop
    wood = _wood(on)
    usable = wood if isinstance(on, Blank) else shrunk(wood, on.trim)
    taken: list[BaseGeometry] = [
        shape_of(piece).buffer(workshop.kerf.sheet + workshop.allowance, quad_segs=2)
        for piece in sheet_pieces(plan, on.id)
    ]
    taken += [Polygon(offcut.outline) for offcut in _kept(plan, on)]
    taken += [part.buffer(workshop.kerf.sheet, join_style="mitre") for part in _for_blanks(plan, on)]
    taken += [] if isinstance(on, Blank) else [Polygon(fault) for fault in on.faults]
    left = usable.difference(shapely.union_all(taken)) if taken else usable
    for part in getattr(left, "geoms", [left]):
        if isinstance(part, Polygon) and part.area >= WORTH_NAMING:
            yield part


def _wood(on: Container) -> Polygon:
    return Polygon(on.outline, () if isinstance(on, Blank) else on.holes)


def _for_blanks(plan: Plan, on: Container) -> list[Polygon]:
    """Return what of a sheet goes into blanks; nothing of a blank."""
    return [Polygon(member.outline) for _, member in parts_of_blanks(plan, on.id)]


def _kept(plan: Plan, on: Container) -> Iterator[SheetOffcut]:
    for offcut in plan.offcuts:
        if isinstance(offcut, SheetOffcut) and offcut.on == on.id and offcut.kept:
            yield offcut
