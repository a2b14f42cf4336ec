"""The drawing of one blank: the sheets that it is made of, its scarfs, and the pieces to be cut from it."""

import math

from shapely.geometry import Polygon

from nesting.model import Blank, Plan

from .canvas import Canvas
from .datum import made_blank, sheet_pieces
from .dimensions import dimensions_in_words
from .key import KEPT, SCARFS_OF_BLANKS, Entry, draw_key, key_rows, sawn
from .laps import draw_scarf
from .layout_title import layout_title
from .members import ABOVE, draw_members, rows_of
from .piece_list import draw_piece_list
from .pieces import draw_figures, draw_offcuts, draw_pieces, named_pieces
from .register_marks import draw_marks_of_scarf, key_of_marks
from .rest import draw_rest, shares_in_words
from .sheet_frame import KEY_ROW, KEY_WIDTH, SheetFrame, frame_round
from .styles import EDGE
from .svg import SvgCanvas
from .tape import figure, figures, on_its_tape, unit
from .title_block import TitleBlock, draw_title_block


@on_its_tape
def draw_blank(plan: Plan, blank_id: str) -> str:
    """Return an SVG drawing of one blank, good face up, to a scale that it states.

    Coordinates are the blank's own in millimetres, y negated; each piece's outline is a ``path`` with the piece's id
    as ``data-name``.

    Raises
    ------
    ValueError
        If the plan makes no such blank, or a coordinate is not a finite number.
    """
    blank = made_blank(plan, blank_id)
    entries = _entries(plan, blank)
    rows = len(sheet_pieces(plan, blank_id))
    frame = frame_round(blank, rows=rows, key_rows=key_rows(entries, KEY_WIDTH), above=ABOVE)
    canvas = _canvas(plan, blank, frame)
    _draw_joined(canvas, blank)
    draw_offcuts(canvas, plan, blank)
    draw_pieces(canvas, plan, blank)
    _draw_scarfs(canvas, blank, "along")  # over the pieces, whose drawings don't tell of these
    _draw_marks(canvas, blank)
    draw_rest(canvas, plan, blank)
    draw_members(canvas, plan, blank, frame)
    draw_figures(canvas, plan, frame, blank)
    draw_key(canvas, frame.key_corner, entries, KEY_WIDTH, KEY_ROW)
    draw_piece_list(canvas, plan, frame, blank)
    draw_title_block(canvas, frame.title_corner, _title_block(plan, blank, frame))
    return canvas.document()


def made_of(blank: Blank) -> str:
    """Return the sheets of a blank from its left end, as ``S1 + S2``, those one above another as ``S1 / S2``."""
    rows, names = rows_of(blank), [member.used for member in blank.members]
    return " + ".join(" / ".join(names[k : k + rows]) for k in range(0, len(names), rows))


def _canvas(plan: Plan, blank: Blank, frame: SheetFrame) -> SvgCanvas:
    across = [f"{scarf.id} at {figure(scarf.at)}" for scarf in blank.scarfs if scarf.runs == "across"]
    along = [f"{scarf.id} at {figure(scarf.at)}" for scarf in blank.scarfs if scarf.runs == "along"]
    told = [f"Scarfs from the left: {', '.join(across)}."] if across else []
    told += [f"Scarfs along it, from below: {', '.join(along)}."] if along else []
    return SvgCanvas(
        frame.box,
        scale=frame.scale,
        key=f"drawing-{blank.id}",
        title=f"Blank {blank.id}: {made_of(blank)}",
        description=f"{figures(*frame.size)} {unit()}, seen on the good face. {' '.join(told)} "
        f"Pieces from the bottom up: {named_pieces(plan, blank)}.",
    )


def _draw_joined(canvas: Canvas, blank: Blank) -> None:
    """Draw a blank before anything is cut from it."""
    with canvas.group("stock"):
        canvas.area([blank.outline], EDGE, name=blank.id)
    _draw_scarfs(canvas, blank, "across")


def _draw_scarfs(canvas: Canvas, blank: Blank, runs: str) -> None:
    shape = Polygon(blank.outline)
    for scarf in (scarf for scarf in blank.scarfs if scarf.runs == runs):
        with canvas.group("scarf", f"{scarf.id}: scarf of the blank"):
            draw_scarf(canvas, shape, scarf)


def _draw_marks(canvas: Canvas, blank: Blank) -> None:
    shape = Polygon(blank.outline)
    for scarf in blank.scarfs:
        with canvas.group("marks", f"{scarf.id}: register marks"):
            draw_marks_of_scarf(canvas, shape, scarf)


def _entries(plan: Plan, blank: Blank) -> tuple[Entry, ...]:
    kept = (KEPT,) if any(offcut.on == blank.id and offcut.kept for offcut in plan.offcuts) else ()
    return (*sawn(plan), *SCARFS_OF_BLANKS, *key_of_marks(blank.scarfs), *kept)


def _title_block(plan: Plan, blank: Blank, frame: SheetFrame) -> TitleBlock:
    size, diagonal = figures(*frame.size), figure(math.hypot(*frame.size))
    words = ((f"Blank {blank.id}", f"diagonal {diagonal}"), (blank.id, f"diag. {diagonal}"))
    lines = (
        tuple(f"{named}; {size}; {across}" for named, across in words),
        f"{made_of(blank)}, scarfed {blank.scarfs[0].slope:g}:1, lap {figure(blank.scarfs[0].lap)}",
        shares_in_words(plan, blank),
        dimensions_in_words(),
    )
    return layout_title(plan, blank.id, "blank", lines)
