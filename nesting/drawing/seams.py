"""Scarfs that run along a blank, where they lie on a finished panel cut from it."""

from collections.abc import Iterator
from dataclasses import dataclass

import shapely
from shapely.geometry.base import BaseGeometry

from nesting.model import PanelPiece, Plan

from .canvas import Canvas
from .hatching import hatched, line_points
from .lettering import write_centred
from .placement import into_panel, shape_of
from .styles import HATCH, HIDDEN, SMALL


@dataclass(frozen=True)
class Seam:
    """One scarf along a blank as it lies on a copy of a panel: its lap and the lap's two edges, in its frame."""

    named: str
    lap: BaseGeometry
    edges: BaseGeometry


def seams_of(plan: Plan, name: str) -> Iterator[Seam]:
    """Yield the scarfs along blanks over which copies of a panel lie, each copy's from its blank's low end."""
    blanks = {blank.id: blank for blank in plan.blanks}
    for piece in plan.pieces:
        if not isinstance(piece, PanelPiece) or piece.part != name or piece.on not in blanks:
            continue
        for scarf in blanks[piece.on].scarfs:
            low, high = scarf.at - scarf.lap / 2, scarf.at + scarf.lap / 2
            begins, ends = scarf.begins, scarf.begins + scarf.width
            shape = shape_of(piece)
            if scarf.runs == "along" and shape.intersection(band := shapely.box(begins, low, ends, high)).area > 1.0:
                edges = shapely.multilinestrings(shapely.linestrings([[(begins, y), (ends, y)] for y in (low, high)]))
                lap, edges = (into_panel(shape.intersection(each), piece) for each in (band, edges))
                yield Seam(scarf.id, lap, edges)


def draw_seams(canvas: Canvas, plan: Plan, name: str) -> None:
    """Draw these scarfs on a panel: the lap hatched between its edges."""
    for seam in seams_of(plan, name):
        with canvas.group("joint", f"{seam.named}: scarf along"):
            canvas.lines(hatched(seam.lap, 1.8 * canvas.scale, 45.0), HATCH)
            canvas.lines(line_points(seam.edges), HIDDEN)
            left, _, right, top = seam.lap.bounds
            write_centred(canvas, seam.named, ((left + right) / 2, top + (1.0 + SMALL / 2) * canvas.scale), SMALL)
