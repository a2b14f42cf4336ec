"""The drawing of one sheet, good enough to mark out and cut from."""

from nesting.model import Plan, UsedSheet

from .canvas import Canvas
from .datum import datum_corner, extents, parts_of_blanks, sheet_pieces, used_sheet
from .dimensions import dimensions_in_words
from .joint_ends import joint_ends
from .key import BUTTS, FAULTY, KEPT, SCARFS, TRIMMED, Entry, draw_key, key_rows, sawn
from .layout_title import layout_title
from .lettering import write_centred
from .piece_list import draw_piece_list
from .pieces import draw_figures, draw_offcuts, draw_pieces, named_pieces
from .placement import shape_of
from .register_marks import key_of_marks
from .rest import draw_rest, shares_in_words
from .sheet_frame import KEY_ROW, KEY_WIDTH, SheetFrame, frame_round
from .stock import draw_stock, fault_words, name_faults
from .styles import CUT, SMALL
from .svg import SvgCanvas
from .tape import figures, on_its_tape, thickness, unit
from .title_block import TitleBlock, draw_title_block


@on_its_tape
def draw_sheet(plan: Plan, used_id: str) -> str:
    """Return an SVG drawing of one used sheet, to a scale that it states.

    Coordinates are the sheet's own in millimetres, y negated; each piece's outline is a ``path`` with the piece's id
    as ``data-name``.

    Raises
    ------
    ValueError
        If the plan uses no such sheet, or a coordinate is not a finite number.
    """
    sheet = used_sheet(plan, used_id)
    pieces = sheet_pieces(plan, used_id)
    entries = _entries(plan, sheet)
    frame = frame_round(sheet, rows=len(pieces), key_rows=key_rows(entries, KEY_WIDTH))
    canvas = _canvas(plan, sheet, frame)
    draw_stock(canvas, sheet)
    _draw_parts_of_blanks(canvas, plan, sheet)
    draw_offcuts(canvas, plan, sheet)
    draw_pieces(canvas, plan, sheet)
    draw_rest(canvas, plan, sheet)
    name_faults(canvas, sheet, fault_words(plan, sheet), [shape_of(piece) for piece in pieces])
    draw_figures(canvas, plan, frame, sheet)
    draw_key(canvas, frame.key_corner, entries, KEY_WIDTH, KEY_ROW)
    draw_piece_list(canvas, plan, frame, sheet)
    draw_title_block(canvas, frame.title_corner, _title_block(plan, sheet, frame))
    return canvas.document()


def _draw_parts_of_blanks(canvas: Canvas, plan: Plan, sheet: UsedSheet) -> None:
    """Draw what of a sheet goes into blanks, each with its blank and size."""
    for blank, member in parts_of_blanks(plan, sheet.id):
        part = extents(member.outline, sheet)
        with canvas.group("member", f"part for blank {blank.id}"):
            canvas.area([member.outline], CUT)
            x0, y0 = datum_corner(sheet)
            middle = (x0 + (part.left + part.right) / 2, y0 + (part.bottom + part.top) / 2)
            write_centred(canvas, f"for blank {blank.id}: {figures(*part.size)}", middle, SMALL)


def _canvas(plan: Plan, sheet: UsedSheet, frame: SheetFrame) -> SvgCanvas:
    return SvgCanvas(
        frame.box,
        scale=frame.scale,
        key=f"drawing-{sheet.id}",
        title=f"Sheet {sheet.id}: {sheet.stock}",
        description=f"{figures(*frame.size)} {unit()}, seen on the good face. "
        f"Pieces from the bottom up: {named_pieces(plan, sheet)}.",
    )


def _entries(plan: Plan, sheet: UsedSheet) -> tuple[Entry, ...]:
    ends = joint_ends(plan)
    kinds = {end.joint.kind for piece in sheet_pieces(plan, sheet.id) for end in ends[piece.id]}
    scarfs = SCARFS if "scarf" in kinds else ()
    butts = BUTTS if "butt" in kinds else ()
    trimmed = (TRIMMED,) if sheet.trim else ()
    kept = (KEPT,) if any(offcut.on == sheet.id and offcut.kept for offcut in plan.offcuts) else ()
    faulty = (FAULTY,) if sheet.faults else ()
    marks = key_of_marks(end.joint for piece in sheet_pieces(plan, sheet.id) for end in ends[piece.id])
    return (*sawn(plan), *scarfs, *butts, *marks, *trimmed, *kept, *faulty)


def _title_block(plan: Plan, sheet: UsedSheet, frame: SheetFrame) -> TitleBlock:
    stock = next((stock for stock in plan.job.sheets if stock.name == sheet.stock), None)
    size = " × ".join([figures(*frame.size), *([thickness(stock.thickness)] if stock else [])])
    source = "to buy" if sheet.source == "buy" else "from rack"
    lines = (
        (f"Sheet {sheet.id}, {source}; {size}", f"{sheet.id}, {source}; {size}", f"{sheet.id}; {size}"),
        sheet.stock,
        shares_in_words(plan, sheet),
        dimensions_in_words(),
    )
    return layout_title(plan, sheet.id, "sheet", lines)
