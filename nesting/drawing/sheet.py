"""The drawing of one sheet, good enough to mark out and cut from."""

from shapely.geometry.base import BaseGeometry

from nesting.model import PanelPiece, Plan, SheetOffcut, UsedSheet
from nesting.outlines import grown_outside, ring_points

from .canvas import Canvas
from .codes import piece_codes
from .datum import extents, panel_pieces, used_sheet
from .dimensions import draw_corners, draw_datum, draw_overall, draw_running
from .joint_ends import JointEnd, joint_ends
from .key import ALLOWANCE, FAULTY, KEPT, SCARFS, TRIMMED, Entry, draw_key, key_rows
from .labels import described, draw_label
from .laps import draw_lap
from .legend import Column, draw_list
from .lettering import by, millimetres
from .offcuts import draw_offcut
from .placement import own_size, shape_of
from .sheet_frame import KEY_ROW, TITLE_HEIGHT, TITLE_WIDTH, WIDTH, SheetFrame
from .stock import draw_grain, draw_stock, fault_words, name_faults
from .styles import ALLOWED, CUT, TINTS
from .svg import SvgCanvas
from .title_block import draw_title_block, scale_words

COLUMNS = (
    Column("code", 10.0),
    Column("part", 36.0),
    Column("hand", 24.0),
    Column("piece", 16.0),
    Column("size", 31.0),
    Column("from left", 21.0),
    Column("from bottom", 27.0),
    Column("joints", 17.0),
)


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
    pieces = panel_pieces(plan, used_id)
    entries = _entries(plan, sheet)
    frame = _frame(sheet, rows=len(pieces), key_rows=key_rows(entries, WIDTH))
    canvas = _canvas(plan, sheet, frame)
    draw_stock(canvas, sheet)
    _draw_offcuts(canvas, plan, sheet)
    _draw_pieces(canvas, plan, pieces)
    name_faults(canvas, sheet, fault_words(plan, sheet), [shape_of(piece) for piece in pieces])
    _draw_figures(canvas, frame, sheet, pieces)
    draw_key(canvas, frame.key_corner, entries, WIDTH, KEY_ROW)
    draw_list(canvas, frame.legend_corner, COLUMNS, _rows(plan, sheet, pieces))
    block = (TITLE_WIDTH, TITLE_HEIGHT)
    draw_title_block(canvas, frame.title_corner, block, plan.job.title, _title_lines(plan, sheet, frame))
    return canvas.document()


def _frame(sheet: UsedSheet, *, rows: int, key_rows: int) -> SheetFrame:
    xs, ys = [x for x, _ in sheet.outline], [y for _, y in sheet.outline]
    return SheetFrame(left=min(xs), bottom=min(ys), right=max(xs), top=max(ys), rows=rows, key_rows=key_rows)


def _canvas(plan: Plan, sheet: UsedSheet, frame: SheetFrame) -> SvgCanvas:
    codes = piece_codes(plan)
    pieces = ", ".join(codes[piece.id] for piece in panel_pieces(plan, sheet.id)) or "no piece"
    size = by(frame.right - frame.left, frame.top - frame.bottom)
    return SvgCanvas(
        frame.box,
        scale=frame.scale,
        key=f"drawing-{sheet.id}",
        title=f"Sheet {sheet.id}: {sheet.stock}",
        description=f"{size} mm, seen on the good face. Pieces from the bottom up: {pieces}.",
    )


def _entries(plan: Plan, sheet: UsedSheet) -> tuple[Entry, ...]:
    ends = joint_ends(plan)
    scarfs = SCARFS if any(ends[piece.id] for piece in plan.on(sheet.id)) else ()
    trimmed = (TRIMMED,) if sheet.trim else ()
    kept = (KEPT,) if any(offcut.on == sheet.id and offcut.kept for offcut in plan.offcuts) else ()
    faulty = (FAULTY,) if sheet.faults else ()
    allowed = (ALLOWANCE,) if plan.job.workshop.allowance else ()
    return (*scarfs, *allowed, *trimmed, *kept, *faulty)


def _draw_offcuts(canvas: Canvas, plan: Plan, sheet: UsedSheet) -> None:
    for offcut in plan.offcuts:
        if isinstance(offcut, SheetOffcut) and offcut.on == sheet.id and offcut.kept:
            draw_offcut(canvas, offcut, sheet)


def _draw_pieces(canvas: Canvas, plan: Plan, pieces: tuple[PanelPiece, ...]) -> None:
    codes, ends = piece_codes(plan), joint_ends(plan)
    for piece in pieces:
        code = codes[piece.id]
        with canvas.group("piece", f"{code}: {piece.part}, {described(piece)}"):
            if plan.job.workshop.allowance:
                canvas.area(_rings_of(grown_outside(shape_of(piece), plan.job.workshop.allowance)), ALLOWED)
            canvas.area([piece.outline, *piece.holes], CUT, tint=TINTS[piece.hand], name=piece.id)
            for end in ends[piece.id]:
                draw_lap(canvas, piece, end)
            draw_label(canvas, piece, code, ends[piece.id])


def _rings_of(shape: BaseGeometry) -> list[tuple[tuple[float, float], ...]]:
    """Return the rings of a polygon, the outer one first."""
    return [ring_points(ring) for ring in (shape.exterior, *shape.interiors)]


def _draw_figures(canvas: Canvas, frame: SheetFrame, sheet: UsedSheet, pieces: tuple[PanelPiece, ...]) -> None:
    places = [extents(piece.outline, sheet) for piece in pieces]
    with canvas.group("dimensions"):
        draw_grain(canvas, frame)
        draw_overall(canvas, frame)
        draw_running(canvas, frame, [(place.left, place.bottom) for place in places])
        draw_corners(canvas, [shape_of(piece) for piece in pieces])
        draw_datum(canvas, frame)


def _rows(plan: Plan, sheet: UsedSheet, pieces: tuple[PanelPiece, ...]) -> list[tuple[str, ...]]:
    codes, ends = piece_codes(plan), joint_ends(plan)
    return [_row(piece, codes[piece.id], ends[piece.id], sheet) for piece in pieces]


def _row(piece: PanelPiece, code: str, ends: tuple[JointEnd, ...], sheet: UsedSheet) -> tuple[str, ...]:
    place = extents(piece.outline, sheet)
    return (
        code,
        piece.part,
        piece.hand,
        f"{piece.index} of {piece.of}",
        by(*own_size(piece)),
        millimetres(place.left),
        millimetres(place.bottom),
        ", ".join(end.code for end in ends),
    )


def _title_lines(plan: Plan, sheet: UsedSheet, frame: SheetFrame) -> tuple[str, ...]:
    stock = next((stock for stock in plan.job.sheets if stock.name == sheet.stock), None)
    size = by(frame.right - frame.left, frame.top - frame.bottom, *([stock.thickness] if stock else []))
    source = "to buy" if sheet.source == "buy" else "from rack"
    return (
        f"Sheet {sheet.id}, {source}; {size}",
        sheet.stock,
        "dimensions in mm from ringed corner",
        scale_words(frame.scale),
    )
