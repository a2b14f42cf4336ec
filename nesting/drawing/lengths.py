"""The drawing of all timber: each length as a bar with its cuts."""

from collections.abc import Container, Sequence

from shapely.geometry import box

from nesting.model import LengthOffcut, Plan, StripPiece, UsedLength

from .canvas import Canvas
from .codes import part_letters, piece_codes
from .dimensions import PITCH, spread
from .hatching import hatched
from .joint_ends import JointEnd, joint_ends
from .key import SCARFS, Entry, draw_key, key_rows
from .legend import Column, draw_list
from .lengths_frame import KEY_ROW, WIDTH, LengthsFrame
from .lettering import width_of, write_centred
from .lying_on import by_what_they_lie_on
from .numbering import place_among, plan_mark
from .register_marks import key_of_marks, mark_from_end, ticks
from .remembering import once_for_a_plan
from .sheet_frame import LEGEND_ROW
from .styles import (
    BEVEL,
    BLACK,
    CLEARED,
    CUT,
    DIMENSION,
    EDGE,
    FEATHER,
    HATCH,
    HIDDEN,
    KEEP,
    MIDDLE,
    REGISTER,
    SMALL,
    STATION,
    TINTS,
)
from .svg import SvgCanvas
from .tape import figure, figure_room, figures, on_its_tape, tape_at_hand, unit
from .title_block import TitleBlock, draw_title_block

COLUMNS = (Column("codes", 14.0), Column("part", 60.0), Column("section", 32.0), Column("finished length", 40.0))


@on_its_tape
def draw_lengths(plan: Plan, used_ids: Sequence[str]) -> str:
    """Return one SVG drawing of some used lengths: their pieces, cuts, laps and offcuts, to scale along.

    x is measured in millimetres from the left end of each bar. The rectangle of each piece is a ``path`` with the
    piece's id as ``data-name``.

    Raises
    ------
    ValueError
        If no length is asked for, one that the plan does not use, or a coordinate is not a finite number.
    """
    known = {used.id: used for used in plan.used if isinstance(used, UsedLength)}
    if not used_ids or not known.keys() >= set(used_ids):
        raise ValueError(f"the plan uses no length {', '.join(used_ids) or 'of no name'}")
    return _draw(plan, [known[name] for name in used_ids])


def strip_pieces(plan: Plan, used_id: str) -> tuple[StripPiece, ...]:
    """Return the pieces on a length from its left end."""
    return _all_strip_pieces(plan).get(used_id, ())


@once_for_a_plan
def _all_strip_pieces(plan: Plan) -> dict[str, tuple[StripPiece, ...]]:
    pieces = (piece for piece in plan.pieces if isinstance(piece, StripPiece))
    return by_what_they_lie_on(pieces, lambda piece: (piece.start, piece.id))


def _draw(plan: Plan, lengths: Sequence[UsedLength]) -> str:
    first, named = lengths[0].id, ", ".join(length.id for length in lengths)
    parts = _part_rows(plan, {piece.part for length in lengths for piece in strip_pieces(plan, length.id)})
    entries = _entries(plan, lengths)
    frame = _frame(lengths, key_rows(entries, WIDTH))
    legend = (len(parts) + 1) * LEGEND_ROW
    description = f"{named}, each from its left end. Distances in {unit()}."
    canvas = SvgCanvas(
        frame.box(legend),
        scale=frame.scale,
        key=f"drawing-{first}",
        title=f"Timber: {named} with {'their' if len(lengths) > 1 else 'its'} cuts",
        description=description,
    )
    for index, length in enumerate(lengths):
        _draw_length(canvas, plan, length, frame.bar(index))
    draw_key(canvas, frame.key_corner, entries, WIDTH, KEY_ROW)
    draw_list(canvas, frame.legend_corner, COLUMNS, parts)
    block = TitleBlock(
        title=plan.job.title,
        lines=(f"Timber {_reach(lengths)}", f"dimensions in {unit()}", "distances from each ringed end"),
        kind="timber layout",
        number=f"{plan_mark(plan)} {first}",
        sheet=place_among(plan, first),
        along=True,
    )
    draw_title_block(canvas, frame.title_corner(legend), block)
    return canvas.document()


def _reach(lengths: Sequence[UsedLength]) -> str:
    """Return the first and the last of some lengths."""
    ids = [length.id for length in lengths]
    return " to ".join(dict.fromkeys((ids[0], ids[-1])))


def _entries(plan: Plan, lengths: Sequence[UsedLength]) -> tuple[Entry, ...]:
    """Return what lines on the drawing need a key: none without a joint."""
    ends = joint_ends(plan)
    joints = [end.joint for length in lengths for piece in strip_pieces(plan, length.id) for end in ends[piece.id]]
    return (*SCARFS, *key_of_marks(joints)) if joints else ()


def _frame(lengths: Sequence[UsedLength], rows: int) -> LengthsFrame:
    longest = max(length.length for length in lengths)
    return LengthsFrame(longest=longest, bars=len(lengths), key_rows=rows, longer=figure_room())


def _part_rows(plan: Plan, names: Container[str]) -> list[tuple[str, ...]]:
    letters = part_letters(plan)
    return [
        (f"{letters[strip.name]}1 …", strip.name, figures(*strip.section), figure(strip.length))
        for strip in plan.job.strips
        if strip.name in names
    ]


def _draw_length(canvas: Canvas, plan: Plan, length: UsedLength, edges: tuple[float, float]) -> None:
    codes, ends = piece_codes(plan), joint_ends(plan)
    pieces = strip_pieces(plan, length.id)
    with canvas.group("length", f"{length.id}: {length.stock}"):
        _draw_stock(canvas, length, edges)
        for piece in pieces:
            _draw_piece(canvas, piece, codes[piece.id], ends[piece.id], edges)
        for offcut in plan.offcuts:
            if isinstance(offcut, LengthOffcut) and offcut.on == length.id:
                _draw_offcut(canvas, offcut, edges)
        _draw_figures(canvas, [end for piece in pieces for end in (piece.start, piece.end)], edges)


def _draw_stock(canvas: Canvas, length: UsedLength, edges: tuple[float, float]) -> None:
    low, high = edges
    source = "to buy" if length.source == "buy" else "from the rack"
    share = f", stick {length.stick} of {length.sticks}" if length.plank else ""
    words = f"{length.id}, {source}: {length.stock}{share}, {figure(length.length)} long"
    canvas.text(words, (0.0, high + 5.0 * canvas.scale), SMALL)
    canvas.area([_rectangle(0.0, length.length, edges)], EDGE, name=length.id)
    canvas.circle((0.0, low), 1.6, DIMENSION)
    canvas.circle((0.0, low), 0.6, None, tint=BLACK)


def _draw_piece(
    canvas: Canvas, piece: StripPiece, code: str, ends: tuple[JointEnd, ...], edges: tuple[float, float]
) -> None:
    with canvas.group("piece", f"{code}: {piece.part}, piece {piece.index} of {piece.of}"):
        canvas.area([_rectangle(piece.start, piece.end, edges)], CUT, tint=TINTS[""], name=piece.id)
        for end in ends:
            _draw_lap(canvas, piece, end, edges)
        left = piece.start + sum(end.joint.lap for end in ends if not end.high_end)
        right = piece.end - sum(end.joint.lap for end in ends if end.high_end)
        share = f", piece {piece.index} of {piece.of}" if piece.of > 1 else ""
        size = figure(piece.end - piece.start)
        _write(canvas, (f"{code}  {piece.part}{share}: {size}", f"{code}: {size}", code), left, right, edges)


def _draw_lap(canvas: Canvas, piece: StripPiece, end: JointEnd, edges: tuple[float, float]) -> None:
    """Draw a bevelled end; on its length a strip's stations rise from left to right."""
    feather = piece.end if end.high_end else piece.start
    heel = feather - end.joint.lap if end.high_end else feather + end.joint.lap
    band = box(min(heel, feather), edges[0], max(heel, feather), edges[1])
    canvas.lines(hatched(band, 1.8 * canvas.scale, 135.0 if end.high_end else 45.0), HATCH)
    canvas.lines([_across((heel + feather) / 2, edges)], STATION)
    if end.joint.across == "width":
        canvas.lines([[(min(heel, feather), edges[0]), (max(heel, feather), edges[1])]], CUT)
    else:
        canvas.lines([_across(heel, edges)], HIDDEN if end.high_end else BEVEL)
        canvas.lines([_across(feather, edges)], CLEARED)
        canvas.lines([_across(feather, edges)], FEATHER)
    mark = feather + (-1.0 if end.high_end else 1.0) * mark_from_end(end.joint, tape_at_hand())
    if piece.start < mark < piece.end:
        canvas.lines(ticks([_across(mark, edges)], canvas.scale * 0.7), REGISTER)
    above = edges[1] + (0.8 + SMALL / 2) * canvas.scale
    write_centred(canvas, end.code, ((heel + feather) / 2, above), SMALL)


def _draw_offcut(canvas: Canvas, offcut: LengthOffcut, edges: tuple[float, float]) -> None:
    size = figure(offcut.end - offcut.start)
    if offcut.kept:
        inset = 0.9 * canvas.scale
        within = (edges[0] + inset, edges[1] - inset)
        canvas.area([_rectangle(offcut.start + inset, offcut.end - inset, within)], KEEP)
    fate = "keep" if offcut.kept else "rest"
    _write(canvas, (f"{fate} {size}", size), offcut.start, offcut.end, edges)


def _write(canvas: Canvas, choices: Sequence[str], left: float, right: float, edges: tuple[float, float]) -> None:
    """Write the first choice that fits between two places at the first height at which it does; else nothing."""
    room = (right - left) / canvas.scale - 1.0
    for words in choices:
        for height in (MIDDLE, SMALL):
            if width_of(words, height) <= room:
                write_centred(canvas, words, ((left + right) / 2, sum(edges) / 2), height)
                return


def _draw_figures(canvas: Canvas, cuts: Sequence[float], edges: tuple[float, float]) -> None:
    """Write the running distance of every cut below the bar."""
    low, distances = edges[0], sorted({round(cut, 1) for cut in cuts})
    for distance, place in zip(distances, spread(distances, PITCH * canvas.scale), strict=True):
        leader = [(distance, low), (distance, low - 1.5 * canvas.scale), (place, low - 4.0 * canvas.scale)]
        canvas.lines([leader], DIMENSION)
        at = (place + SMALL / 2 * canvas.scale, low - 4.5 * canvas.scale)
        canvas.text(figure(distance), at, SMALL, anchor="end", angle=90.0)


def _rectangle(start: float, end: float, edges: tuple[float, float]) -> list[tuple[float, float]]:
    low, high = edges
    return [(start, low), (end, low), (end, high), (start, high)]


def _across(x: float, edges: tuple[float, float]) -> list[tuple[float, float]]:
    return [(x, edges[0]), (x, edges[1])]
