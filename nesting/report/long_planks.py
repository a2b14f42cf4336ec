"""Long planks at the bench: their parts and scarfs, and the sticks that are ripped from them."""

from collections.abc import Iterator, Sequence

from nesting.drawing import Tape, crossings, piece_codes, sticks_alike, strip_pieces, tape_in
from nesting.joints import bevel_angle, glue_area
from nesting.model import LongPlank, LongStick, Plan

from .table import Cell, Column, LengthColumn, Table, as_csv, on_tape

PART_COLUMNS = (
    Column("long_plank", "Long plank"),
    Column("order", "Order"),
    Column("cut_from", "Cut from"),
    LengthColumn("from_left", "From left"),
    LengthColumn("length", "Length"),
    Column("left_end_bevel", "Left end bevel on"),
    Column("right_end_bevel", "Right end bevel on"),
    LengthColumn("finished_length", "Finished length"),
)

SCARF_COLUMNS = (
    Column("scarf", "Scarf"),
    Column("left_part", "Left part"),
    Column("right_part", "Right part"),
    LengthColumn("middle", "Middle of lap at"),
    LengthColumn("line_on_good_face", "Line on good face at"),
    LengthColumn("lap", "Lap"),
    Column("slope", "Slope, to 1"),
    Column("bevel_angle", "Bevel, degrees"),
    LengthColumn("width", "Width"),
    Column("glue_area_cm2", "Glue area, cm²"),
)

STICK_COLUMNS = (
    Column("sticks", "Sticks"),
    Column("turned", "Once ripped"),
    Column("strips", "Strips"),
    LengthColumn("from_left", "From left of plank"),
    LengthColumn("length", "Length"),
    Column("joints", "Joints at the strip's own stations"),
)


def long_planks(plan: Plan) -> str:
    """Return the parts of all long planks as CSV."""
    return as_csv(part_table(plan, plan.long_planks))


def long_plank_sticks(plan: Plan) -> str:
    """Return the sticks of all long planks, with what is cut from them, as CSV."""
    return as_csv(stick_table(plan, plan.long_planks))


def part_table(plan: Plan, planks: Sequence[LongPlank]) -> Table:
    """Return the parts of long planks, each plank's from its left end, good faces up."""
    rows = tuple(row for plank in planks for row in _parts(plank))
    return on_tape(Table(caption=f"Parts of {_named(planks)}", columns=PART_COLUMNS, rows=rows), tape_in(plan))


def plank_scarf_table(plan: Plan, planks: Sequence[LongPlank]) -> Table:
    """Return where the scarfs of long planks lie, from the left end of each."""
    rows = tuple(row for plank in planks for row in _scarfs(plank))
    return on_tape(Table(caption=f"Scarfs of {_named(planks)}", columns=SCARF_COLUMNS, rows=rows), tape_in(plan))


def stick_table(plan: Plan, planks: Sequence[LongPlank]) -> Table:
    """Return what is ripped from long planks, like sticks in one row for each strip that is cut from them."""
    rows = tuple(
        row for plank in planks for sticks in sticks_alike(plan, plank) for row in _sticks(plan, sticks, tape_in(plan))
    )
    return on_tape(Table(caption=f"Sticks of {_named(planks)}", columns=STICK_COLUMNS, rows=rows), tape_in(plan))


def _named(planks: Sequence[LongPlank]) -> str:
    return f"long plank {planks[0].id}" if len(planks) == 1 else "long planks"


def _parts(plank: LongPlank) -> Iterator[tuple[Cell, ...]]:
    last = len(plank.members) - 1
    for place, part in enumerate(plank.members):
        bevels = ("good face" if place else None, "back" if place < last else None)
        yield plank.id, place + 1, part.used, part.start, part.end - part.start, *bevels, plank.length


def _scarfs(plank: LongPlank) -> Iterator[tuple[Cell, ...]]:
    for place, scarf in enumerate(plank.scarfs):
        yield (
            scarf.id,
            plank.members[place].used,
            plank.members[place + 1].used,
            scarf.at,
            scarf.at + scarf.lap / 2,
            scarf.lap,
            scarf.slope,
            round(bevel_angle(scarf.slope), 3),
            scarf.width,
            round(glue_area(scarf.width, scarf.thickness, scarf.slope) / 100, 1),
        )


def _sticks(plan: Plan, sticks: Sequence[LongStick], tape: Tape) -> Iterator[tuple[Cell, ...]]:
    named, way = ", ".join(stick.id for stick in sticks), "turned end over end" if sticks[0].turned else "as it lies"
    rows = [strip_pieces(plan, stick.id) for stick in sticks]
    if not rows[0]:
        yield named, "left over", None, None, None, None
    for same in zip(*rows, strict=True):
        codes = ", ".join(piece_codes(plan)[piece.id] for piece in same)
        joints = "; ".join(tape.figure(crossing.joint.station) for crossing in crossings(plan)[same[0].id])
        size = same[0].end - same[0].start
        yield named, way, f"{codes} ({same[0].part})", same[0].start, size, joints or None
