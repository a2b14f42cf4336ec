"""The drawing of one long part, whole: its joints, where none may be, and the joints of its neighbours beside them."""

import math
from collections.abc import Iterator

import shapely
from shapely.geometry import LineString, Polygon

from nesting.model import Plan
from nesting.outlines import boat_station

from .arrows import draw_double_arrow
from .canvas import Canvas
from .codes import part_letters
from .dimensions import spread
from .hatching import hatched
from .key import Entry, draw_key, key_rows
from .lettering import width_of, write_centred
from .numbering import place_among, plan_mark
from .own_frame import across
from .panel_frame import KEY_ROW, STRIP, WIDTH, PanelFrame, panel_frame, scale_for
from .register_marks import ticks
from .seams import draw_seams
from .styles import CUT, DIMENSION, FEATHER, HATCH, HIDDEN, MIDDLE, REGISTER, SMALL, STATION, TINTS, ZONE
from .svg import SvgCanvas
from .tape import figure, figure_room, figures, on_its_tape, tape_of
from .title_block import TitleBlock, draw_title_block
from .whole_part import Beside, JointPlace, WholePart, nearest_pair, whole_part

#: Least distance of the figures of two stations, millimetres on paper.
PITCH = 14.0

SCARF: tuple[Entry, ...] = ((FEATHER, "glue line on the good face"), (HIDDEN, "far edge of lap"))
BUTT: tuple[Entry, ...] = ((HIDDEN, "edge of strap behind"),)
EVERY: tuple[Entry, ...] = ((STATION, "middle of joint"),)
BARRED: tuple[Entry, ...] = ((ZONE, "no joint here"),)


@on_its_tape
def draw_panel(plan: Plan, name: str) -> str:
    """Return an SVG drawing of one finished panel or strip with the joints of all its copies and of its neighbours.

    Coordinates are the part's own in millimetres, y negated; its outline is a ``path`` with its name as ``data-name``.
    A strip is drawn wider than it is, to show its joints. Below the part its neighbours are bars along it, their
    joints where the boat's stations put them, so that the shift between joints can be seen.

    Raises
    ------
    ValueError
        If the job asks for no such part, or a coordinate is not a finite number.
    """
    part, scale = _to_scale(plan, name)
    entries = _entries(part)
    frame = panel_frame(part, scale, key_rows(entries, WIDTH))
    canvas = _canvas(plan, part, frame)
    _draw_part(canvas, part, frame)
    draw_seams(canvas, plan, name)
    _draw_stations(canvas, plan, part, frame)
    for index, beside in enumerate(part.beside):
        _draw_beside(canvas, part, beside, frame, index)
    _draw_middles(canvas, part, frame)
    _name_joints(canvas, part, frame)
    draw_key(canvas, frame.key_corner, entries, WIDTH, KEY_ROW)
    draw_title_block(canvas, frame.title_corner, _title_block(plan, part))
    return canvas.document()


def _to_scale(plan: Plan, name: str) -> tuple[WholePart, float]:
    """Return a part and the scale at which it is drawn; a strip as wide as it is to be drawn at that scale."""
    part = whole_part(plan, name, strip_width=1.0)
    frame = panel_frame(part, 1.0, 0)
    scale = scale_for(frame.right - frame.left, frame.top - frame.bottom)
    is_strip = any(strip.name == name for strip in plan.job.strips)
    return (whole_part(plan, name, strip_width=STRIP * scale) if is_strip else part), scale


def _canvas(plan: Plan, part: WholePart, frame: PanelFrame) -> SvgCanvas:
    joints = "; ".join(f"{joint.named} at {figure(joint.station)}" for joint in part.joints) or "none"
    beside = " ".join(f"{_shift_words(part, row)}." for row in part.beside)
    return SvgCanvas(
        frame.box,
        scale=frame.scale,
        key=f"drawing-whole-{part_letters(plan)[part.name]}",
        title=f"{part.name}, whole, with its joints",
        description=f"Joints by stations: {joints}. {beside}".strip(),
    )


def _draw_part(canvas: Canvas, part: WholePart, frame: PanelFrame) -> None:
    with canvas.group("part", part.name):
        canvas.area(
            [_ring(part.shape.exterior), *map(_ring, part.shape.interiors)], CUT, tint=TINTS[""], name=part.name
        )
        for zone in part.zones:
            _draw_zone(canvas, part.shape, zone, frame)
        for joint in part.joints:
            _draw_joint(canvas, part.shape, joint)
            _draw_marks(canvas, part.shape, joint)


def _ring(ring: LineString) -> list[tuple[float, float]]:
    return [(float(x), float(y)) for x, y in list(ring.coords)[:-1]]


def _draw_zone(canvas: Canvas, shape: Polygon, zone: tuple[float, float], frame: PanelFrame) -> None:
    """Draw where no joint may lie: lines across the part, and its two stations below."""
    start, end = zone
    y = frame.bottom - frame.paper(1.5)
    with canvas.group("zone", f"no joint from {figure(start)} to {figure(end)}"):
        canvas.lines([run for station in zone for run in across(shape, station)], ZONE)
        canvas.lines([[(start, y), (end, y)]], ZONE)
        canvas.lines([[(station, frame.bottom), (station, y - frame.paper(1.0))] for station in zone], ZONE)
        words = f"no joint {figure(start)} to {figure(end)}"
        write_centred(canvas, words, ((start + end) / 2, y - frame.paper(1.4 + SMALL / 2)), SMALL)


def _draw_joint(canvas: Canvas, shape: Polygon, joint: JointPlace) -> None:
    half = joint.band / 2
    low, high = joint.station - half, joint.station + half
    with canvas.group("joint", f"{joint.named}: {joint.kind}"):
        if joint.kind == "scarf":
            band = shape.intersection(shapely.box(low, shape.bounds[1] - 1, high, shape.bounds[3] + 1))
            canvas.lines(hatched(band, 1.8 * canvas.scale, 45.0), HATCH)
        for edge in (low, high):
            shows = joint.line is not None and abs(edge - joint.line) < half
            canvas.lines(across(shape, edge), FEATHER if shows else HIDDEN)


def _draw_marks(canvas: Canvas, shape: Polygon, joint: JointPlace) -> None:
    """Draw the register marks on both sides of a joint that is glued from pieces."""
    for station in joint.marks:
        canvas.lines(ticks(across(shape, station), canvas.scale), REGISTER)


def _draw_stations(canvas: Canvas, plan: Plan, part: WholePart, frame: PanelFrame) -> None:
    """Draw the scale of the part's own stations below it, and under that the boat's."""
    tape = tape_of(plan.job.workshop.tape)
    left, _, right, _ = part.shape.bounds
    every = tape.spacings[0] * math.ceil(frame.paper(PITCH + 2 * figure_room()) / tape.spacings[0])
    y, tick = frame.stations, frame.paper(1.5)
    with canvas.group("stations"):
        canvas.lines([[(left, y), (right, y)]], DIMENSION)
        places = [step * tape.spacings[0] for step in _steps(left, right, tape.spacings[0])]
        canvas.lines([[(x, y), (x, y - tick)] for x in places], DIMENSION)
        for x in (step * every for step in _steps(left, right, every)):
            write_centred(canvas, figure(x), (x, y - frame.paper(1.9 + SMALL / 2)), SMALL)
            if part.boat_stations:
                boat = f"({figure(tape.marks(boat_station(x, part.boat_stations)) * tape.mark)})"
                write_centred(canvas, boat, (x, y - frame.paper(5.9 + SMALL / 2)), SMALL)


def _steps(left: float, right: float, spacing: float) -> range:
    return range(math.ceil(left / spacing), math.floor(right / spacing) + 1)


def _draw_middles(canvas: Canvas, part: WholePart, frame: PanelFrame) -> None:
    """Draw the middles of the part's own joints, across it and again across all its neighbours."""
    spans = [(frame.top + frame.paper(2.0), frame.bottom - frame.paper(1.5))]
    bars = (frame.bar(index) for index in range(len(part.beside)))
    spans += [(high + frame.paper(0.3), low - frame.paper(4.0)) for low, high in bars]  # clear of the words above it
    canvas.lines([[(j.station, top), (j.station, foot)] for j in part.joints for top, foot in spans], STATION)


def _name_joints(canvas: Canvas, part: WholePart, frame: PanelFrame) -> None:
    """Write above the part the codes of its joints and where they are."""
    words = [f"{joint.named} at {figure(joint.station)}" for joint in part.joints]
    gap = max((width_of(said, MIDDLE) for said in words), default=0.0) + 3.0
    places = spread([joint.station for joint in part.joints], frame.paper(gap))
    for joint, said, place in zip(part.joints, words, places, strict=True):
        foot, head = frame.top + frame.paper(2.0), frame.top + frame.paper(6.0)
        canvas.lines([[(joint.station, foot), (place, head)]], DIMENSION)
        write_centred(canvas, said, (place, head + frame.paper(1.0 + MIDDLE / 2)), MIDDLE)


def _draw_beside(canvas: Canvas, part: WholePart, beside: Beside, frame: PanelFrame, index: int) -> None:
    """Draw a neighbour as a bar along the part, its joints, and how far the nearest is from one of the part's."""
    low, high = frame.bar(index)
    start, end = beside.reach
    with canvas.group("beside", beside.name):
        at = (max(start, frame.left), high + frame.paper(1.2))
        canvas.text(_shift_words(part, beside), at, SMALL)
        canvas.area([[(start, low), (end, low), (end, high), (start, high)]], DIMENSION)
        for x, joint in beside.joints:
            half = joint.band / 2
            band = shapely.box(x - half, low, x + half, high)
            canvas.lines(hatched(band, 1.8 * canvas.scale, 45.0), HATCH)
            canvas.lines([[(edge, low), (edge, high)] for edge in (x - half, x + half)], DIMENSION)
            canvas.lines([[(x, low - frame.paper(1.0)), (x, high + frame.paper(1.0))]], STATION)
        _draw_shift(canvas, part, beside, low - frame.paper(2.5))


def _draw_shift(canvas: Canvas, part: WholePart, beside: Beside, y: float) -> None:
    pair = nearest_pair(part, beside)
    if pair:
        x = next(place for place, joint in beside.joints if joint is pair[1])
        if abs(x - pair[0].station) > 5.0 * canvas.scale:
            draw_double_arrow(canvas, (pair[0].station, y), (x, y))


def _shift_words(part: WholePart, beside: Beside) -> str:
    """Return how far the nearest joint of a neighbour is along the boat, and what is asked."""
    pair = nearest_pair(part, beside)
    if pair is None:
        return f"{beside.name}: {'alone' if beside.joints else 'no joint'}"
    own, other = pair
    apart = figure(abs(own.boat - other.boat))
    return f"{beside.name}: {other.named} is {apart} from {own.named}, at least {figure(beside.shift)} asked"


def _entries(part: WholePart) -> tuple[Entry, ...]:
    kinds = {joint.kind for joint in part.joints}
    scarf, butt = SCARF if "scarf" in kinds else (), BUTT if "butt" in kinds else ()
    return (*scarf, *butt, *EVERY, *_marked(part), *(BARRED if part.zones else ()))


def _marked(part: WholePart) -> Iterator[Entry]:
    """Yield what register marks mean, if there are any."""
    apart = sorted({round(joint.marks[1] - joint.marks[0], 1) for joint in part.joints if joint.marks})
    if apart:
        yield REGISTER, f"register marks, {' or '.join(map(figure, apart))} apart when glued"


def _title_block(plan: Plan, part: WholePart) -> TitleBlock:
    left, bottom, right, top = part.shape.bounds
    letters = part_letters(plan)[part.name]
    strip = next((strip for strip in plan.job.strips if strip.name == part.name), None)
    size = figures(strip.length, *strip.section) if strip else figures(right - left, top - bottom)
    boat = ", the boat's in brackets" if part.boat_stations else ""
    panel = None if strip else plan.job.panel(part.name)
    handed = panel is not None and panel.handed
    forward = (f"bow at the {panel.forward} end",) if panel and panel.forward else ()
    lines = (
        f"{part.name}, finished; {size}",
        "seen on the wide face" if strip else f"seen on the good face{', port as drawn' if handed else ''}",
        f"own stations{boat}",
        *forward,
    )
    return TitleBlock(
        title=plan.job.title,
        lines=lines,
        kind="whole part",
        number=f"{plan_mark(plan)} {letters}",
        sheet=place_among(plan, letters),
        along=strip is not None,
    )
