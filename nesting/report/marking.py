"""Tables for marking out: where each line is drawn on the wood with a tape, a square and a batten."""

import math
from collections import defaultdict
from collections.abc import Iterator, Sequence

from shapely import affinity
from shapely.geometry import Point, Polygon

from nesting.drawing import (
    Container,
    JointEnd,
    SheetPiece,
    Tape,
    container,
    containers,
    datum_corner,
    joint_codes,
    joint_ends,
    lines_on_sheet,
    once_for_a_plan,
    parts_of_blanks,
    piece_codes,
    shape_of,
    sheet_pieces,
    tape_in,
)
from nesting.model import TOLERANCE, Blank, PanelPiece, Plan, UsedSheet
from nesting.outlines import polygon

from .board_feet import INCH
from .marking_points import Line, lines_across
from .table import Cell, Column, Table, as_csv

#: The datum line of a blank lies so far inside its joined edge, millimetres: sheets that meet a hair out of line leave
#: a step in the edge, but none in a line along a taut string (common practice).
DATUM_INSIDE = 5.0


def marking_out(plan: Plan) -> str:
    """Return as CSV where all pieces are marked out on all blanks and sheets."""
    tape = tape_in(plan)
    rows = [(name, code, *_cells(line, tape)) for name, lines in _all_lines(plan).items() for code, line in lines]
    return as_csv(Table(caption="Marking out", columns=_columns(plan, "on", "piece"), rows=tuple(rows)))


def panel_offsets(plan: Plan) -> str:
    """Return as CSV the stations and offsets of every panel of the job by itself."""
    tape = tape_in(plan)
    rows = [
        (panel.name, *_cells(line, tape))
        for panel in plan.job.panels
        for line in _lines_of_panel(plan, panel.name, tape)
    ]
    return as_csv(Table(caption="Stations and offsets", columns=_columns(plan, "part"), rows=tuple(rows)))


def marking_table(plan: Plan, name: str) -> Table:
    """Return where the pieces on one blank or sheet are marked out.

    Each row is a line square to the datum edge: how far it lies from the datum end, and where the piece's outline
    crosses it, from the datum edge.

    Raises
    ------
    ValueError
        If the plan has no such blank or sheet.
    """
    on, tape = container(plan, name), tape_in(plan)
    lines = _all_lines(plan).get(name) or _lines_on(plan, on, tape)
    kind = "blank" if isinstance(on, Blank) else "sheet"
    caption = f"Marking out of {kind} {name}, {_rounding([line for _, line in lines], tape)}"
    rows = tuple((code, *_cells(line, tape)) for code, line in lines)
    return Table(caption=caption, columns=_columns(plan, "piece"), rows=rows)


def panel_marking_table(plan: Plan, panel_name: str) -> Table:
    """Return stations and offsets of one finished panel in its own frame, its joints among them.

    Offsets are measured from the panel's baseline, those below it with a minus.
    """
    tape = tape_in(plan)
    lines = _lines_of_panel(plan, panel_name, tape)
    handed = "; port as written, starboard mirrored" if plan.job.panel(panel_name).handed else ""
    caption = f"Stations and offsets of {panel_name}, finished, {_rounding(lines, tape)}{handed}"
    rows = tuple(_cells(line, tape) for line in lines)
    return Table(caption=caption, columns=_columns(plan), rows=rows)


def setting_out(plan: Plan, name: str) -> str:
    """Return how the datum of a blank or sheet is laid before anything is measured from it.

    Raises
    ------
    ValueError
        If the plan has no such blank or sheet.
    """
    on, tape = container(plan, name), tape_in(plan)
    along = "Measure along the datum edge from the ringed corner, and square to it from that edge."
    if isinstance(on, Blank):
        return (
            f"Stretch a string along the lower edge of blank {name}, which joints may have left a hair out of "
            f"straight, and draw the datum line {tape.shown(DATUM_INSIDE)}{_unit_after(tape)} inside it. Measure "
            "along that line from the left end, and square to it from the line; what lies below it has a minus."
        )
    if _has_datum_corner(on):
        return along
    return (
        f"The ringed corner lies off the wood of {name}: lay it against two battens at a right angle, one along its "
        f"lowest points and one along its leftmost. {along}"
    )


def _columns(plan: Plan, *first: str) -> tuple[Column, ...]:
    headings = {"on": "Blank or sheet", "piece": "Piece", "part": "Part"}
    unit = "mm" if plan.job.workshop.tape == "mm" else "ft in"
    return (
        *(Column(name, headings[name]) for name in first),
        Column("at", f"Line at, {unit}"),
        Column("what", "What is there"),
        Column("lower", f"Lower edge at, {unit}"),
        Column("upper", f"Upper edge at, {unit}"),
        Column("between", f"Between them at, {unit}"),
    )


def _rounding(lines: Sequence[Line], tape: Tape) -> str:
    """Return to what the lengths of some lines are rounded, and by how much at most."""
    lengths = (length for line in lines for length in (line.at, *line.crossings))
    most = max(map(tape.rounding, lengths), default=0.0)
    if tape.is_metric:
        return f"rounded to whole mm, by {math.ceil(most * 100) / 100:g} mm at most"
    return f"rounded to sixteenths of an inch, by {math.ceil(most / INCH * 1000) / 1000:g} in at most"


@once_for_a_plan
def _all_lines(plan: Plan) -> dict[str, list[tuple[str, Line]]]:
    """Return the lines on each blank and sheet by its id."""
    tape = tape_in(plan)
    return {on.id: _lines_on(plan, on, tape) for on in containers(plan)}


def _lines_on(plan: Plan, on: Container, tape: Tape) -> list[tuple[str, Line]]:
    """Return the lines by which all that is cut from a blank or sheet is marked out, each with the code of what is cut.

    A part of a sheet that goes into a blank is called after it, such as ``for B1``.
    """
    codes, ends = piece_codes(plan), joint_ends(plan)
    pieces = [
        (codes[piece.id], line)
        for piece in sheet_pieces(plan, on.id)
        for line in _lines_of_piece(piece, ends[piece.id], on, tape)
    ]
    x, y = _datum(on)
    return pieces + [
        (f"for {blank.id}", line)
        for blank, member in parts_of_blanks(plan, on.id)
        for line in lines_across(affinity.translate(Polygon(member.outline), -x, -y), tape)
    ]


def _cells(line: Line, tape: Tape) -> tuple[Cell, ...]:
    """Return one line of a table; where an outline only touches the line, it does so at its lower edge."""
    lower, *more = line.crossings
    upper = _cell(more[-1], tape) if more else None
    between = "; ".join(tape.shown(length) for length in more[:-1])
    return _cell(line.at, tape), ", ".join(line.why), _cell(lower, tape), upper, between or None


def _cell(length: float, tape: Tape) -> Cell:
    return tape.marks(length) if tape.unit == "mm" else tape.shown(length)


def _lines_of_piece(piece: SheetPiece, ends: Sequence[JointEnd], on: Container, tape: Tape) -> tuple[Line, ...]:
    x, y = _datum(on)
    here = affinity.translate(shape_of(piece), -x, -y)
    return lines_across(here, tape, [(at - x, why) for at, why in _ends_on(piece, ends)])


def _datum(on: Container) -> tuple[float, float]:
    """Return where the datum end and the datum edge, or line, start."""
    x, y = datum_corner(on)
    return x, y + DATUM_INSIDE if isinstance(on, Blank) else y


def _ends_on(piece: SheetPiece, ends: Sequence[JointEnd]) -> Iterator[tuple[float, str]]:
    """Yield where on the sheet a bevel begins, or a strap ends: the x of both its ends, which may differ."""
    for end in ends:
        why = f"{end.code} strap to here" if end.joint.kind == "butt" else f"{end.code} bevel begins"
        for line in lines_on_sheet(piece, end.heel):
            yield from ((x, why) for x, _ in line)


def _lines_of_panel(plan: Plan, name: str, tape: Tape) -> tuple[Line, ...]:
    return lines_across(polygon(plan.job.panel(name).outline), tape, _joint_stations(plan, name))


def _joint_stations(plan: Plan, name: str) -> Iterator[tuple[float, str]]:
    """Yield the middles of a panel's joints, and how far their laps or straps reach, with the codes of all there."""
    codes, at = joint_codes(plan), defaultdict(list)
    panels = {piece.id for piece in plan.pieces if isinstance(piece, PanelPiece) and piece.part == name}
    for joint in plan.joints:
        if joint.pieces[0] in panels:
            half = max(joint.lap, joint.strap) / 2
            edge = "strap" if joint.kind == "butt" else "lap"
            for place, why in ((-half, f"{edge} from"), (0.0, "middle"), (half, f"{edge} to")):
                at[joint.station + place, why].append(codes[joint.id])
    for (station, why), there in at.items():
        yield station, f"{_named(there)} {why}"


def _named(codes: Sequence[str]) -> str:
    return " ".join(codes) if len(codes) <= 4 else f"{codes[0]} … {codes[-1]}"


def _has_datum_corner(sheet: UsedSheet) -> bool:
    """Whether the datum corner is a corner of the wood, from which its lower and its left edge run."""
    x, y = datum_corner(sheet)
    wood = Polygon(sheet.outline)
    near = affinity.translate(wood, -x, -y)
    lower, left = Point(DATUM_INSIDE, 0.0), Point(0.0, DATUM_INSIDE)
    return all(near.exterior.distance(point) <= TOLERANCE for point in (Point(0.0, 0.0), lower, left))


def _unit_after(tape: Tape) -> str:
    return " mm" if tape.is_metric else ""
