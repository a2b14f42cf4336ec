"""Pieces and straps as they lie on a sheet or blank, each with its joints and its label."""

from shapely.geometry.base import BaseGeometry

from nesting.model import Plan, SheetOffcut
from nesting.outlines import grown_outside, ring_points

from .canvas import Canvas
from .codes import piece_codes
from .datum import Container, SheetPiece, extents, parts_of_blanks, sheet_pieces
from .dimensions import draw_corners, draw_datum, draw_overall, draw_running
from .joint_ends import Crossing, JointEnd, crossings, joint_ends
from .labels import FORWARD, described, draw_label
from .laps import Box, draw_crossing, draw_end, taken_by_crossing, taken_by_end
from .offcuts import draw_offcut
from .placement import shape_of
from .sheet_frame import SheetFrame
from .stock import draw_grain
from .styles import ALLOWED, CUT, TINTS


def draw_pieces(canvas: Canvas, plan: Plan, on: Container) -> None:
    """Draw all that is cut from a sheet or blank."""
    codes, ends, across = piece_codes(plan), joint_ends(plan), crossings(plan)
    for piece in sheet_pieces(plan, on.id):
        code = codes[piece.id]
        with canvas.group("piece", f"{code}: {piece.part}, {described(piece)}"):
            if plan.job.workshop.allowance:
                canvas.area(_rings_of(grown_outside(shape_of(piece), plan.job.workshop.allowance)), ALLOWED)
            canvas.area(_rings(piece), CUT, tint=TINTS[piece.hand], name=piece.id)
            _draw_joints(canvas, piece, ends[piece.id], across[piece.id])
            taken = _taken(piece, ends[piece.id], across[piece.id], canvas.scale)
            draw_label(canvas, piece, code, taken, plan.job.panel(piece.part).forward)


def draw_offcuts(canvas: Canvas, plan: Plan, on: Container) -> None:
    """Draw the offcuts that are kept."""
    for offcut in plan.offcuts:
        if isinstance(offcut, SheetOffcut) and offcut.on == on.id and offcut.kept:
            draw_offcut(canvas, offcut, on)


def draw_figures(canvas: Canvas, plan: Plan, frame: SheetFrame, on: Container) -> None:
    """Draw the run of the grain, the overall size, and where pieces and parts of blanks lie from the datum corner."""
    pieces = sheet_pieces(plan, on.id)
    members = [member for _, member in parts_of_blanks(plan, on.id)]
    places = [extents(one.outline, on) for one in (*pieces, *members)]
    with canvas.group("dimensions"):
        draw_grain(canvas, frame, _arrows_in_words(plan, on))
        draw_overall(canvas, frame)
        draw_running(canvas, frame, [(place.left, place.bottom) for place in places])
        draw_corners(canvas, [shape_of(piece) for piece in pieces])
        draw_datum(canvas, frame)


def _arrows_in_words(plan: Plan, on: Container) -> str:
    """Return to what the arrows within pieces point."""
    forward = {plan.job.panel(piece.part).forward is not None for piece in sheet_pieces(plan, on.id)}
    if forward == {True}:
        return "arrows in pieces point forward"
    if forward == {True, False}:
        return f"arrows in pieces point to rising stations, or forward ({FORWARD})"
    return "arrows in pieces point to their rising stations"


def named_pieces(plan: Plan, on: Container) -> str:
    """Return the codes of what is cut from a sheet or blank, from the bottom up, then its parts for blanks."""
    codes = piece_codes(plan)
    named = [codes[piece.id] for piece in sheet_pieces(plan, on.id)]
    named += [f"a part for blank {blank.id}" for blank, _ in parts_of_blanks(plan, on.id)]
    return ", ".join(named) or "no piece"


def _rings(piece: SheetPiece) -> list[tuple[tuple[float, float], ...]]:
    return [piece.outline, *(() if piece.kind == "strap" else piece.holes)]


def _rings_of(shape: BaseGeometry) -> list[tuple[tuple[float, float], ...]]:
    """Return the rings of a polygon, the outer one first."""
    return [ring_points(ring) for ring in (shape.exterior, *shape.interiors)]


def _draw_joints(canvas: Canvas, piece: SheetPiece, ends: tuple[JointEnd, ...], across: tuple[Crossing, ...]) -> None:
    for end in ends:
        draw_end(canvas, piece, end)
    for crossing in across:
        draw_crossing(canvas, piece, crossing)


def _taken(piece: SheetPiece, ends: tuple[JointEnd, ...], across: tuple[Crossing, ...], scale: float) -> list[Box]:
    """Return what of a piece its joints take up on the drawing."""
    by_ends = [taken_by_end(end, scale) for end in ends]
    return by_ends + [taken_by_crossing(piece, crossing, scale) for crossing in across]
