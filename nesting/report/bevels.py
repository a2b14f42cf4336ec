"""Every end that is to be bevelled, and which of them can be planed together in one stepped stack."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from nesting.drawing import as_glued, beside, joint_ends, once_for_a_plan, piece_codes, tape_in
from nesting.joints import bevel_angle
from nesting.model import Blank, BlankScarf, Joint, Plan, PlankScarf

from .table import Cell, Column, LengthColumn, Table, ThicknessColumn, as_csv, on_tape

COLUMNS = (
    Column("joint", "Joint"),
    Column("piece", "Sheet or piece"),
    Column("lies_on", "Cut from"),
    Column("end", "End"),
    Column("face_up", "Bevel on, this up"),
    ThicknessColumn("thickness", "Thickness"),
    LengthColumn("lap", "Lap"),
    Column("angle", "Bevel, degrees"),
    LengthColumn("width", "Width"),
    Column("stack", "Stack"),
)

STACK_COLUMNS = (
    Column("stack", "Stack"),
    Column("ends", "Ends"),
    ThicknessColumn("thickness", "Thickness"),
    Column("slope", "Slope, to 1"),
    LengthColumn("step", "Step"),
    Column("angle", "Bevel, degrees"),
    LengthColumn("width", "Bevel in all"),
)


Sort = tuple[str, float, float, bool]


@dataclass(frozen=True, kw_only=True)
class Bevel:
    """One end to bevel: of a sheet that goes into a blank, or of a piece of a divided part.

    ``on`` is the face or edge that the bevel is planed on; it is uppermost then, so that the slope is seen.
    """

    joint: str
    piece: str
    lies_on: str
    end: str
    on: str
    thickness: float
    lap: float
    slope: float
    width: float
    material: str

    @property
    def sort(self) -> Sort:
        """What ends share that can be planed in one stack: material, thickness, slope, and whether a face is up."""
        return self.material, round(self.thickness, 3), self.slope, self.on in ("back", "good face")


def bevel_schedule(plan: Plan) -> str:
    """Return every end that is bevelled as CSV."""
    return as_csv(bevel_table(plan))


def bevel_table(plan: Plan) -> Table:
    """Return every end that is bevelled, those of one stack together."""
    bevels = all_bevels(plan)
    stacks = _stacks(bevels)
    rows = tuple(_row(bevel, stacks[bevel.sort]) for bevel in sorted(bevels, key=lambda bevel: stacks[bevel.sort]))
    return on_tape(Table(caption="Bevel schedule", columns=COLUMNS, rows=rows), tape_in(plan))


def stack_table(plan: Plan) -> Table:
    """Return the stacks in which ends may be planed together.

    Each end lies one lap behind the one below it, so that the slopes make one plane: the step is the lap (a builder's
    notes of 2007 step 4 mm plywood at 8:1 by 32 mm).
    """
    bevels = all_bevels(plan)
    rows = tuple(
        _stack_row(number, [bevel for bevel in bevels if bevel.sort == sort])
        for sort, number in _stacks(bevels).items()
    )
    table = Table(caption="Ends that can be planed in one stack", columns=STACK_COLUMNS, rows=rows)
    return on_tape(table, tape_in(plan))


@once_for_a_plan
def all_bevels(plan: Plan) -> tuple[Bevel, ...]:
    """Return the bevels of the sheets of blanks, of the parts of long planks, then those of pieces."""
    return (*_of_blanks(plan), *_of_long_planks(plan), *_of_pieces(plan))


def _stacks(bevels: Sequence[Bevel]) -> dict[Sort, int]:
    """Return the number of the stack of each sort of end, in the order in which they come."""
    return {sort: number for number, sort in enumerate(dict.fromkeys(bevel.sort for bevel in bevels), 1)}


def _row(bevel: Bevel, stack: int) -> tuple[Cell, ...]:
    return (
        bevel.joint,
        bevel.piece,
        bevel.lies_on,
        bevel.end,
        bevel.on,
        bevel.thickness,
        bevel.lap,
        round(bevel_angle(bevel.slope), 3),
        bevel.width,
        stack,
    )


def _stack_row(number: int, bevels: Sequence[Bevel]) -> tuple[Cell, ...]:
    first = bevels[0]
    return (
        number,
        len(bevels),
        first.thickness,
        first.slope,
        first.lap,
        round(bevel_angle(first.slope), 3),
        sum(bevel.width for bevel in bevels),
    )


def _of_blanks(plan: Plan) -> Iterator[Bevel]:
    stocks = {used.id: used.stock for used in plan.used}
    materials = {sheet.name: sheet.material for sheet in plan.job.sheets}
    for blank in plan.blanks:
        for members, end, face, scarf in _bevelled_ends(blank):
            from_stocks = [stocks[member] for member in members]
            yield _bevel(
                scarf,
                scarf.slope,
                joint=scarf.id,
                piece=", ".join(members),
                lies_on=", ".join(dict.fromkeys(from_stocks)),
                end=end,
                on=face,
                material=materials[from_stocks[0]],
            )


def _bevelled_ends(blank: Blank) -> Iterator[tuple[tuple[str, ...], str, str, BlankScarf]]:
    """Yield sheets, end, face and scarf of every end within a blank, in the order in which they are glued."""
    for scarf in as_glued(blank):
        before, after = beside(blank, scarf)
        ends = ("right", "left") if scarf.runs == "across" else ("upper edge", "lower edge")
        yield before, ends[0], "back", scarf
        yield after, ends[1], "good face", scarf


def _of_long_planks(plan: Plan) -> Iterator[Bevel]:
    stocks = {used.id: used.stock for used in plan.used}
    materials = {length.name: length.material for length in plan.job.lengths}
    for plank in plan.long_planks:
        for scarf, (low, high) in zip(plank.scarfs, pairwise(plank.members), strict=True):
            for part, end, face in ((low, "right", "back"), (high, "left", "good face")):
                yield _bevel(
                    scarf,
                    scarf.slope,
                    joint=scarf.id,
                    piece=f"part of {plank.id}",
                    lies_on=part.used,
                    end=end,
                    on=face,
                    material=materials[stocks[part.used]],
                )


def _of_pieces(plan: Plan) -> Iterator[Bevel]:
    codes, ends = piece_codes(plan), joint_ends(plan)
    materials = {panel.name: panel.material for panel in plan.job.panels}
    materials |= {strip.name: strip.material for strip in plan.job.strips}
    for piece in plan.pieces:
        for end in ends[piece.id]:
            if end.joint.slope is not None:
                yield _bevel(
                    end.joint,
                    end.joint.slope,
                    joint=end.code,
                    piece=codes[piece.id],
                    lies_on=piece.on,
                    end="high stations" if end.high_end else "low stations",
                    on=end.bevel_face,
                    material=materials[piece.part],
                )


def _bevel(scarf: BlankScarf | PlankScarf | Joint, slope: float, **of_end: str) -> Bevel:
    """Return the bevel of one of the two ends that meet in a scarf of that slope."""
    return Bevel(thickness=scarf.thickness, lap=scarf.lap, slope=slope, width=scarf.width, **of_end)
