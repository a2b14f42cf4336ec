"""The drawing of all timber: each length as a bar with its cuts."""

from collections.abc import Container, Sequence

from shapely.geometry import box

from nesting.model import LengthOffcut, Plan, PlankPart, StripPiece, UsedLength

from .bar import Edges, across_bar, draw_figures, draw_offcut, draw_start, rectangle, write_within
from .canvas import Canvas
from .codes import part_letters, piece_codes
from .hatching import hatched
from .joint_ends import JointEnd, joint_ends
from .key import SCARFS, Entry, draw_key, key_rows
from .legend import Column, draw_list
from .lengths_frame import KEY_ROW, WIDTH, LengthsFrame
from .lettering import write_centred
from .lying_on import by_what_they_lie_on
from .numbering import place_among, plan_mark
from .register_marks import key_of_marks, mark_from_end, ticks
from .remembering import once_for_a_plan
from .sheet_frame import LEGEND_ROW
from .styles import (
    BEVEL,
    CLEARED,
    CUT,
    EDGE,
    FEATHER,
    HATCH,
    HIDDEN,
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


def parts_of_long_planks(plan: Plan, used_id: str) -> tuple[tuple[str, PlankPart], ...]:
    """Return what of a length goes into long planks, from its left end, each with the long plank's id."""
    parts = ((plank.id, part) for plank in plan.long_planks for part in plank.members if part.used == used_id)
    return tuple(sorted(parts, key=lambda each: each[1].start))


def _draw(plan: Plan, lengths: Sequence[UsedLength]) -> str:
    first, named = lengths[0].id, ", ".join(length.id for length in lengths)
    parts = _part_rows(plan, {piece.part for length in lengths for piece in strip_pieces(plan, length.id)})
    entries = _entries(plan, lengths)
    frame = _frame(lengths, key_rows(entries, WIDTH))
    legend = (len(parts) + 1) * LEGEND_ROW if parts else 0.0
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
    if parts:
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


def _draw_length(canvas: Canvas, plan: Plan, length: UsedLength, edges: Edges) -> None:
    codes, ends = piece_codes(plan), joint_ends(plan)
    pieces = strip_pieces(plan, length.id)
    with canvas.group("length", f"{length.id}: {length.stock}"):
        _draw_stock(canvas, length, edges)
        for piece in pieces:
            _draw_piece(canvas, piece, codes[piece.id], ends[piece.id], edges)
        parts = parts_of_long_planks(plan, length.id)
        for name, part in parts:
            with canvas.group("part", f"for long plank {name}"):
                canvas.area([rectangle(part.start, part.end, edges)], CUT)
                size = figure(part.end - part.start)
                write_within(canvas, (f"for long plank {name}: {size}", f"{name}: {size}"), part.start, part.end, edges)
        for offcut in plan.offcuts:
            if isinstance(offcut, LengthOffcut) and offcut.on == length.id:
                draw_offcut(canvas, offcut, edges)
        ends_of = [(piece.start, piece.end) for piece in pieces] + [(part.start, part.end) for _, part in parts]
        draw_figures(canvas, [place for both in ends_of for place in both], edges)


def _draw_stock(canvas: Canvas, length: UsedLength, edges: Edges) -> None:
    high = edges[1]
    source = "to buy" if length.source == "buy" else "from the rack"
    share = f", stick {length.stick} of {length.sticks}" if length.plank else ""
    words = f"{length.id}, {source}: {length.stock}{share}, {figure(length.length)} long"
    canvas.text(words, (0.0, high + 5.0 * canvas.scale), SMALL)
    canvas.area([rectangle(0.0, length.length, edges)], EDGE, name=length.id)
    draw_start(canvas, edges)


def _draw_piece(canvas: Canvas, piece: StripPiece, code: str, ends: tuple[JointEnd, ...], edges: Edges) -> None:
    with canvas.group("piece", f"{code}: {piece.part}, piece {piece.index} of {piece.of}"):
        canvas.area([rectangle(piece.start, piece.end, edges)], CUT, tint=TINTS[""], name=piece.id)
        for end in ends:
            _draw_lap(canvas, piece, end, edges)
        left = piece.start + sum(end.joint.lap for end in ends if not end.high_end)
        right = piece.end - sum(end.joint.lap for end in ends if end.high_end)
        share = f", piece {piece.index} of {piece.of}" if piece.of > 1 else ""
        size = figure(piece.end - piece.start)
        write_within(canvas, (f"{code}  {piece.part}{share}: {size}", f"{code}: {size}", code), left, right, edges)


def _draw_lap(canvas: Canvas, piece: StripPiece, end: JointEnd, edges: Edges) -> None:
    """Draw a bevelled end; on its length a strip's stations rise from left to right."""
    feather = piece.end if end.high_end else piece.start
    heel = feather - end.joint.lap if end.high_end else feather + end.joint.lap
    band = box(min(heel, feather), edges[0], max(heel, feather), edges[1])
    canvas.lines(hatched(band, 1.8 * canvas.scale, 135.0 if end.high_end else 45.0), HATCH)
    canvas.lines([across_bar((heel + feather) / 2, edges)], STATION)
    if end.joint.across == "width":
        canvas.lines([[(min(heel, feather), edges[0]), (max(heel, feather), edges[1])]], CUT)
    else:
        canvas.lines([across_bar(heel, edges)], HIDDEN if end.high_end else BEVEL)
        canvas.lines([across_bar(feather, edges)], CLEARED)
        canvas.lines([across_bar(feather, edges)], FEATHER)
    mark = feather + (-1.0 if end.high_end else 1.0) * mark_from_end(end.joint, tape_at_hand())
    if piece.start < mark < piece.end:
        canvas.lines(ticks([across_bar(mark, edges)], canvas.scale * 0.7), REGISTER)
    above = edges[1] + (0.8 + SMALL / 2) * canvas.scale
    write_centred(canvas, end.code, ((heel + feather) / 2, above), SMALL)
