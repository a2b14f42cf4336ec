"""A curved panel divided so that its pieces, turned within the grain tolerance, lie straighter than the whole."""

import math
from decimal import Decimal
from pathlib import Path

import numpy as np
import pytest
from shapely import affinity
from shapely.geometry import LineString, Polygon

from benchmarks.verification import faults
from nesting.drawing import draw_sheet, joint_ends, lines_on_sheet, piece_codes
from nesting.effort import Budget, Effort
from nesting.model import Job, PanelPiece, Plan
from nesting.planner import plan
from nesting.report import marking_table
from tests.jobs import PLY, job

#: A sheer strake 4900 long and 205 wide whose middle lies 190 higher than its ends, a parabola.
LENGTH, WIDTH, SAG = 4900, 205, 190
NARROW = {**PLY, "name": "narrow", "size": [2540, 280], "price": "20.00"}
WIDE = {**PLY, "name": "wide", "size": [2540, 420], "price": "35.00"}


def strake() -> list[tuple[float, float]]:
    """Return the corners of the strake, 40 to an edge."""
    x = np.linspace(0, LENGTH, 41)
    y = SAG * (1 - (2 * x / LENGTH - 1) ** 2)
    return [
        *zip(x.tolist(), y.tolist(), strict=True),
        *reversed(list(zip(x.tolist(), (y + WIDTH).tolist(), strict=True))),
    ]


def asked(tolerance: float) -> Job:
    """Return a job of two such strakes, port and starboard, from narrow and wide sheets."""
    part = {"name": "strake", "material": "gaboon", "thickness": 4, "outline": {"points": strake()}, "joint": "scarf"}
    more = {"quantity": 2, "handed": True, "grain_tolerance": tolerance}
    sheets = tuple({**sheet, "thickness": 4} for sheet in (NARROW, WIDE))
    return job({**part, **more}, sheets=sheets, workshop={"way": "divided"})


def planned(tolerance: float) -> Plan:
    """Return a plan, audited, within a small budget."""
    return plan(asked(tolerance), effort=Effort(Budget(work=600)))


def test_halves_that_may_lean_by_five_degrees_come_from_narrower_sheets(tmp_path: Path) -> None:
    """True they are 395 high, as the whole is; turned by 4.4 degrees 252: their own sag is a quarter (computed)."""
    true, leaning = planned(0), planned(5)
    assert {used.stock for used in true.used} == {"wide"}
    assert {used.stock for used in leaning.used} == {"narrow"}
    assert (true.totals.to_pay, leaning.totals.to_pay) == (Decimal(140), Decimal(80))
    for made in (true, leaning):
        (tmp_path / "plan.json").write_text(made.model_dump_json())
        assert not faults(tmp_path / "plan.json")
    angles = [abs((piece.angle + 90) % 180 - 90) for piece in leaning.pieces if isinstance(piece, PanelPiece)]
    assert all(3 < angle <= 5 for angle in angles)


def test_the_pieces_put_together_are_the_strake_and_meet_in_one_straight_line() -> None:
    """Both feather lines are square to the strake's baseline, and so lean on the sheets with the pieces."""
    made = planned(5)
    ends, whole = joint_ends(made), Polygon(strake())
    for copy in (1, 2):
        pieces = [p for p in made.pieces if isinstance(p, PanelPiece) and p.copy_number == copy]
        own = [_in_own_frame(piece) for piece in pieces]
        assert own[0].union(own[1]).symmetric_difference(whole).area < 1
        (joint,) = [joint for joint in made.joints if joint.copy_number == copy]
        lap = own[0].intersection(own[1]).bounds
        assert (lap[0], lap[2]) == pytest.approx((joint.station - joint.lap / 2, joint.station + joint.lap / 2))
    for piece in (p for p in made.pieces if isinstance(p, PanelPiece)):
        for end in ends[piece.id]:
            for line in lines_on_sheet(piece, end.heel):
                (x0, y0), (x1, y1) = line[0], line[-1]
                slant = math.degrees(math.atan2(y1 - y0, x1 - x0))
                assert (slant - piece.angle - 90) % 180 == pytest.approx(0, abs=1e-6) or (
                    slant - piece.angle - 90
                ) % 180 == pytest.approx(180, abs=1e-6)


def test_the_slanting_joint_is_marked_out_by_both_its_ends() -> None:
    """Where the bevel begins there are two lines in the table, apart by the lap's width times the sine of the lean."""
    made = planned(5)
    ends, codes = joint_ends(made), piece_codes(made)
    for piece in (p for p in made.pieces if isinstance(p, PanelPiece)):
        (end,) = ends[piece.id]
        rows = [row for row in marking_table(made, piece.on).rows if row[0] == codes[piece.id]]
        at = sorted({float(str(row[1])) for row in rows if f"{end.code} bevel begins" in str(row[2])})
        (line,) = lines_on_sheet(piece, end.heel)
        slope = abs(math.sin(math.radians(piece.angle))) * LineString(line).length
        assert len(at) == 2
        assert at[1] - at[0] == pytest.approx(slope, abs=1.01)  # both are rounded to whole millimetres
        assert codes[piece.id] in draw_sheet(made, piece.on)


def _in_own_frame(piece: PanelPiece) -> Polygon:
    shape = affinity.rotate(affinity.translate(Polygon(piece.outline), -piece.x, -piece.y), -piece.angle, origin=(0, 0))
    return affinity.scale(shape, 1, -1, origin=(0, 0)) if piece.mirrored else shape
