"""The glue-up sheet: what is glued to what, in which order, by which marks, and how to check it."""

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

from nesting.drawing import (
    Tape,
    as_glued,
    beside,
    extents,
    joint_codes,
    mark_from_end,
    marks_apart,
    once_for_a_plan,
    piece_codes,
    tape_in,
)
from nesting.joints import glue_area
from nesting.model import Blank, BlankScarf, Joint, LongPlank, PanelPiece, Plan, PlankScarf, StrapPiece, StripPiece
from nesting.outlines import polygon

from .glue import glue_grams
from .marking_points import corners_of
from .table import Cell, Column, LengthColumn, Table, as_csv, on_tape

COLUMNS = (
    Column("glue_up", "Glue-up"),
    Column("what", "What"),
    Column("copy", "Copy"),
    Column("hand", "Hand"),
    Column("order", "In this order"),
    LengthColumn("length", "Finished length"),
    LengthColumn("diagonal", "One check"),
    LengthColumn("other_diagonal", "Other check"),
    Column("glue", "Glue, g"),
)

MARK_COLUMNS = (
    Column("joint", "Joint"),
    Column("glue_up", "Glue-up"),
    Column("low_side", "One side"),
    Column("high_side", "Other side"),
    LengthColumn("from_end", "Mark each from its end"),
    LengthColumn("apart", "Marks apart when glued"),
)


@dataclass(frozen=True, kw_only=True)
class GlueUp:
    """What is glued into one: a blank, a long plank, or one copy of a part in several pieces; square millimetres."""

    number: str = ""
    what: str
    copy_number: int | None = None
    hand: str = ""
    order: tuple[str, ...]
    length: float
    diagonals: tuple[str, str]
    seams: tuple["Seam", ...]

    @property
    def glue(self) -> float:
        """Grams of mixed glue, without waste."""
        return sum(glue_grams(seam.area) for seam in self.seams)


@dataclass(frozen=True, kw_only=True)
class Seam:
    """One joint of a glue-up, between two sheets or pieces."""

    code: str
    low_side: str
    high_side: str
    area: float
    joint: Joint | BlankScarf | PlankScarf


def glue_up_sheet(plan: Plan) -> str:
    """Return all glue-ups as CSV."""
    return as_csv(glue_up_table(plan))


def register_marks(plan: Plan) -> str:
    """Return the register marks of all joints that are glued, as CSV."""
    return as_csv(mark_table(plan))


def glue_up_table(plan: Plan) -> Table:
    """Return what is glued, blanks first, with finished length and two straight measures to check it by."""
    rows: tuple[tuple[Cell, ...], ...] = tuple(
        (
            glue_up.number,
            glue_up.what,
            glue_up.copy_number,
            glue_up.hand,
            " + ".join(glue_up.order),
            glue_up.length,
            *glue_up.diagonals,
            round(glue_up.glue, 1),
        )
        for glue_up in glue_ups(plan)
    )
    return on_tape(Table(caption="Glue-up sheet", columns=COLUMNS, rows=rows), tape_in(plan))


def mark_table(plan: Plan) -> Table:
    """Return where to draw register marks, measured from the end of either side on the good face."""
    tape = tape_in(plan)
    rows = tuple(_mark_row(glue_up, seam, tape) for glue_up in glue_ups(plan) for seam in glue_up.seams)
    return on_tape(Table(caption="Register marks", columns=MARK_COLUMNS, rows=rows), tape)


def _mark_row(glue_up: GlueUp, seam: Seam, tape: Tape) -> tuple[Cell, ...]:
    marks = mark_from_end(seam.joint, tape), marks_apart(seam.joint, tape)
    return seam.code, glue_up.number, seam.low_side, seam.high_side, *marks


@once_for_a_plan
def glue_ups(plan: Plan) -> tuple[GlueUp, ...]:
    """Return what is to be glued: blanks, long planks, then parts copy by copy."""
    found = [_of_blank(blank, tape_in(plan)) for blank in plan.blanks]
    found += [*map(_of_long_plank, plan.long_planks), *_of_parts(plan)]
    return tuple(replace(glue_up, number=f"G{number}") for number, glue_up in enumerate(found, 1))


def seam_area(joint: Joint) -> float:
    """Return the glued area of a joint in square millimetres: of a butt that of its strap, the square ends left out."""
    return glue_area(joint.width, joint.thickness, joint.slope) if joint.slope else joint.width * joint.strap


def _of_blank(blank: Blank, tape: Tape) -> GlueUp:
    length, width = extents(blank.outline, blank).size
    diagonal = f"both diagonals {tape.figure(math.hypot(length, width))}"
    sides = [member.used for member in blank.members]
    seams = tuple(
        Seam(
            code=scarf.id,
            low_side=", ".join(beside(blank, scarf)[0]),
            high_side=", ".join(beside(blank, scarf)[1]),
            area=glue_area(scarf.width, scarf.thickness, scarf.slope),
            joint=scarf,
        )
        for scarf in as_glued(blank)
    )
    return GlueUp(
        what=f"blank {blank.id}",
        order=tuple(sides),
        length=length,
        diagonals=(diagonal, ""),
        seams=seams,
    )


def _of_long_plank(plank: LongPlank) -> GlueUp:
    seams = tuple(
        Seam(
            code=scarf.id,
            low_side=low.used,
            high_side=high.used,
            area=glue_area(scarf.width, scarf.thickness, scarf.slope),
            joint=scarf,
        )
        for scarf, (low, high) in zip(plank.scarfs, pairwise(plank.members), strict=True)
    )
    order = tuple(part.used for part in plank.members)
    return GlueUp(what=f"long plank {plank.id}", order=order, length=plank.length, diagonals=("", ""), seams=seams)


def _of_parts(plan: Plan) -> Iterator[GlueUp]:
    """Yield the parts that are glued from several pieces, in the order of the plan's joints."""
    codes, names = piece_codes(plan), joint_codes(plan)
    copies: dict[tuple[str, int], list[Joint]] = {}
    for joint in plan.joints:
        if not joint.scarf:
            copies.setdefault((joint.part, joint.copy_number), []).append(joint)
    pieces = {piece.id: piece for piece in plan.pieces if not isinstance(piece, StrapPiece)}
    for (part, copy_number), joints in copies.items():
        ordered = sorted(joints, key=lambda joint: joint.station)
        chain = [ordered[0].pieces[0], *(joint.pieces[-1] for joint in ordered)]
        length, diagonals = _checks(plan, pieces[chain[0]])
        yield GlueUp(
            what=part,
            copy_number=copy_number,
            hand=_hand(pieces[chain[0]]),
            order=tuple(codes[piece] for piece in chain),
            length=length,
            diagonals=diagonals,
            seams=tuple(_seam(joint, codes, names) for joint in ordered),
        )


def _seam(joint: Joint, codes: dict[str, str], names: dict[str, str]) -> Seam:
    return Seam(
        code=names[joint.id],
        low_side=codes[joint.pieces[0]],
        high_side=codes[joint.pieces[-1]],
        area=seam_area(joint),
        joint=joint,
    )


def _hand(piece: PanelPiece | StripPiece) -> str:
    return piece.hand if isinstance(piece, PanelPiece) else ""


def _checks(plan: Plan, piece: PanelPiece | StripPiece) -> tuple[float, tuple[str, str]]:
    """Return the finished length of a part, and its two long diagonals in words; a strip has none."""
    if isinstance(piece, StripPiece):
        return plan.job.strip(piece.part).length, ("", "")
    shape = polygon(plan.job.panel(piece.part).outline)
    left, low, right, high = shape.bounds
    corners, slant, tape = corners_of(shape), (right - left) / (high - low), tape_in(plan)
    return float(right - left), (_diagonal(corners, slant, tape), _diagonal(corners, -slant, tape))


def _diagonal(corners: list[tuple[float, float]], slant: float, tape: Tape) -> str:
    """Return the measure between the two corners that lie farthest out along a diagonal of the panel, in words.

    ``slant`` is length over width of the panel, for the diagonal on which offsets rise with stations, and minus that
    for the other.
    """
    reach = sorted(corners, key=lambda point: point[0] + slant * point[1])
    (x0, y0), (x1, y1) = reach[0], reach[-1]
    start, end = (f"({tape.figure(x)}, {tape.figure(y)})" for x, y in ((x0, y0), (x1, y1)))
    return f"{start} to {end}: {tape.figure(math.hypot(x1 - x0, y1 - y0))}"
