"""The drawing of a long plank: how it is scarfed, and what is cut from its sticks, like ones drawn once."""

from collections import defaultdict
from collections.abc import Sequence

from shapely.geometry import box

from nesting.model import LengthOffcut, LongPlank, LongStick, Plan, StripPiece

from .bar import Edges, across_bar, draw_figures, draw_offcut, draw_start, rectangle, write_within
from .canvas import Canvas
from .codes import piece_codes
from .joint_ends import crossings
from .key import SCARFS_OF_BLANKS, draw_key, key_rows
from .laps import draw_scarf
from .lengths import strip_pieces
from .lengths_frame import KEY_ROW, WIDTH, LengthsFrame
from .lettering import write_centred
from .numbering import place_among, plan_mark
from .register_marks import key_of_marks, marks_of, ticks
from .styles import CUT, EDGE, REGISTER, SMALL, TINTS
from .svg import SvgCanvas
from .tape import figure, figure_room, figures, on_its_tape, tape_at_hand, unit
from .title_block import TitleBlock, draw_title_block


@on_its_tape
def draw_long_plank(plan: Plan, name: str) -> str:
    """Return one SVG drawing of a long plank and of its sticks, to scale along.

    x is measured in millimetres from the low end of the long plank, before any stick is turned.

    Raises
    ------
    ValueError
        If the plan has no such long plank.
    """
    plank = next((plank for plank in plan.long_planks if plank.id == name), None)
    if plank is None:
        raise ValueError(f"the plan has no long plank {name}")
    alike = sticks_alike(plan, plank)
    entries = (*SCARFS_OF_BLANKS, *key_of_marks(plank.scarfs))
    rows = key_rows(entries, WIDTH)
    frame = LengthsFrame(longest=plank.length, bars=1 + len(alike), key_rows=rows, longer=figure_room())
    canvas = SvgCanvas(
        frame.box(0.0),
        scale=frame.scale,
        key=f"drawing-{plank.id}",
        title=f"Long plank {plank.id} and its sticks",
        description=f"{plank.id} as it is scarfed, and its sticks, from its left end. Distances in {unit()}.",
    )
    _draw_whole(canvas, plan, plank, frame.bar(0))
    for number, sticks in enumerate(alike, start=1):
        _draw_sticks(canvas, plan, plank, sticks, frame.bar(number))
    draw_key(canvas, frame.key_corner, entries, WIDTH, KEY_ROW)
    block = TitleBlock(
        title=plan.job.title,
        lines=(f"Long plank {plank.id}", f"dimensions in {unit()}", "distances from each ringed end"),
        kind="long plank",
        number=f"{plan_mark(plan)} {plank.id}",
        sheet=place_among(plan, plank.id),
        along=True,
    )
    draw_title_block(canvas, frame.title_corner(0.0), block)
    return canvas.document()


def sticks_alike(plan: Plan, plank: LongPlank) -> list[tuple[LongStick, ...]]:
    """Return the sticks of a long plank, those together that lie one way and from which the same is cut."""
    found: defaultdict[tuple[object, ...], list[LongStick]] = defaultdict(list)
    for stick in plank.sticks:
        cut = tuple((piece.part, piece.start, piece.end) for piece in strip_pieces(plan, stick.id))
        found[stick.turned, cut].append(stick)
    return [tuple(sticks) for sticks in found.values()]


def _draw_whole(canvas: Canvas, plan: Plan, plank: LongPlank, edges: Edges) -> None:
    """Draw the long plank as it is scarfed, with its parts and register marks."""
    stock = {used.id: used.stock for used in plan.used}
    section = next(each.section for each in plan.job.lengths if each.name == stock[plank.members[0].used])
    with canvas.group("length", f"{plank.id}: {stock[plank.members[0].used]}"):
        words = f"{plank.id}, {figures(*section)}, from {len(plank.members)} parts, {figure(plank.length)} when glued"
        canvas.text(words, (0.0, edges[1] + 5.0 * canvas.scale), SMALL)
        canvas.area([rectangle(0.0, plank.length, edges)], EDGE, name=plank.id)
        draw_start(canvas, edges)
        _draw_scarfs(canvas, plank, edges)
        for scarf in plank.scarfs:
            for mark in marks_of(scarf, scarf.at, tape_at_hand()):
                canvas.lines(ticks([across_bar(mark, edges)], canvas.scale * 0.7), REGISTER)
            write_centred(canvas, scarf.id, (scarf.at, edges[1] + (0.8 + SMALL / 2) * canvas.scale), SMALL)
        left = 0.0
        for number, part in enumerate(plank.members):
            right = left + part.end - part.start
            clear = [left + (plank.scarfs[0].lap if number else 0.0)]
            clear += [right - (plank.scarfs[0].lap if number < len(plank.scarfs) else 0.0)]
            size = figure(part.end - part.start)
            write_within(canvas, (f"{part.used}: {size}", part.used), clear[0], clear[1], edges)
            left = right - plank.scarfs[0].lap
        places = [end for scarf in plank.scarfs for end in (scarf.at - scarf.lap / 2, scarf.at + scarf.lap / 2)]
        draw_figures(canvas, [*places, plank.length], edges)


def _draw_scarfs(canvas: Canvas, plank: LongPlank, edges: Edges) -> None:
    """Draw the laps as they are seen on the good face, which is up before anything is turned."""
    for scarf in plank.scarfs:
        draw_scarf(canvas, box(0.0, edges[0], plank.length, edges[1]), scarf)


def _draw_sticks(canvas: Canvas, plan: Plan, plank: LongPlank, sticks: Sequence[LongStick], edges: Edges) -> None:
    """Draw like sticks once, the strips with the codes of all."""
    first, codes = sticks[0], piece_codes(plan)
    rows = [strip_pieces(plan, stick.id) for stick in sticks]
    named = ", ".join(stick.id for stick in sticks)
    way = ": turned end over end once it is ripped" if first.turned else ""
    with canvas.group("length", named):
        canvas.text(f"{named}, {figures(*plank.section)}{way}", (0.0, edges[1] + 5.0 * canvas.scale), SMALL)
        canvas.area([rectangle(0.0, plank.length, edges)], EDGE, name=first.id)
        draw_start(canvas, edges)
        for same in zip(*rows, strict=True):
            _draw_strip(canvas, plank, same, [codes[piece.id] for piece in same], edges)
        _draw_scarfs(canvas, plank, edges)
        for piece in rows[0]:
            for crossing in crossings(plan)[piece.id]:
                at = next(scarf.at for scarf in plank.scarfs if scarf.id == crossing.scarf.id)
                end = " from its right end" if first.turned else ""
                words = f"station {figure(crossing.joint.station)}{end}"
                write_centred(canvas, words, (at, edges[1] + (0.8 + SMALL / 2) * canvas.scale), SMALL)
        for offcut in plan.offcuts:
            if isinstance(offcut, LengthOffcut) and offcut.on == first.id:
                draw_offcut(canvas, offcut, edges)
        draw_figures(canvas, [end for piece in rows[0] for end in (piece.start, piece.end)], edges)


def _draw_strip(
    canvas: Canvas, plank: LongPlank, same: Sequence[StripPiece], codes: Sequence[str], edges: Edges
) -> None:
    """Draw what like sticks have at one place; the words stand off the laps."""
    piece, named = same[0], ", ".join(codes)
    with canvas.group("piece", f"{named}: {piece.part}"):
        for each in same:
            canvas.area([rectangle(each.start, each.end, edges)], CUT, tint=TINTS[""], name=each.id)
        size = figure(piece.end - piece.start)
        clear = max(_off_laps(plank, piece), key=lambda span: span[1] - span[0])
        choices = (f"{named}  {piece.part}: {size}", f"{piece.part}: {size}", f"{codes[0]} …: {size}", codes[0])
        write_within(canvas, choices, *clear, edges)


def _off_laps(plank: LongPlank, piece: StripPiece) -> list[tuple[float, float]]:
    """Return the stretches of a strip between the laps within it."""
    laps = [(s.at - s.lap / 2, s.at + s.lap / 2) for s in plank.scarfs if piece.start < s.at < piece.end]
    starts, ends = [piece.start, *(high for _, high in laps)], [*(low for low, _ in laps), piece.end]
    return list(zip(starts, ends, strict=True))
