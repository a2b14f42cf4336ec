"""A plan with butts and straps, made by hand, every figure by plain arithmetic.

Two handed sides, each of two pieces that meet at station 1800; behind it a strap 15 x 6 = 90 long, from 1755 to 1845,
of which one is cut from the bought sheet and one from an offcut with a knot on its back; and a frame that lies three
degrees off the grain, of four tolerated.
"""

import math
from decimal import Decimal

from nesting.model import (
    Fault,
    Hand,
    Job,
    Joint,
    JointCost,
    JointRule,
    Outline,
    Panel,
    PanelPiece,
    Plan,
    Purchase,
    Sheet,
    SheetAreas,
    StrapPiece,
    TimberLengths,
    Totals,
    UsedSheet,
    Way,
    Workshop,
)
from tests.auditing.good_blank_plan import rectangle
from tests.auditing.good_plan import lying, sha256

# The side is 200 wide at station 0 and 300 at 3000: at station s it is 200 + s / 30.
SIDE = ((0.0, 0.0), (3000.0, 0.0), (3000.0, 300.0), (0.0, 200.0))
SIDE_LOW = ((0.0, 0.0), (1800.0, 0.0), (1800.0, 260.0), (0.0, 200.0))
SIDE_HIGH = ((1800.0, 0.0), (3000.0, 0.0), (3000.0, 300.0), (1800.0, 260.0))
STRAP = ((1755.0, 0.0), (1845.0, 0.0), (1845.0, 261.5), (1755.0, 258.5))
FRAME = rectangle(0, 0, 300, 100)
KNOT = rectangle(300, 300, 340, 340)


def butt_plan() -> Plan:
    """Return the plan; nothing is wrong with it."""
    job = butt_job()
    return Plan(
        seed=0,
        work=0,
        job=job,
        job_sha256=sha256(job),
        totals=_totals(),
        purchases=(Purchase(stock="marine 6", count=1, price=Decimal("84.00"), cost=Decimal("84.00")),),
        used=(
            UsedSheet(id="S1", stock="marine 6", source="buy", outline=rectangle(0, 0, 2440, 1220), trim=10.0),
            UsedSheet(id="S2", stock="old", source="rack", outline=rectangle(0, 0, 700, 500), faults=(KNOT,), trim=0.0),
        ),
        pieces=(
            _piece("side-1-1", SIDE_LOW, 10, 10, 0, "port"),  # x 10 to 1810, y 10 to 270
            _piece("side-2-1", SIDE_LOW, 1810, 273, 180, "starboard"),  # x 10 to 1810, y 273 to 533
            _piece("side-1-2", SIDE_HIGH, -1790, 536, 0, "port"),  # x 10 to 1210, y 536 to 836
            _piece("side-2-2", SIDE_HIGH, 3010, 839, 180, "starboard"),  # x 10 to 1210, y 839 to 1139
            _strap(1, "port", "S1", -542, 900),  # x 1213 to 1303, y 638.5 to 900
            _strap(2, "starboard", "S2", -1745, 10),  # x 10 to 100, y 10 to 271.5
            frame_at(3),
        ),
        joints=(_joint(1), _joint(2)),
        offcuts=(),
        ways=(
            Way(way="divided", objective=Decimal("91.12"), told="two straps"),
            Way(way="joined", objective=None, told="a butt makes no blank"),
        ),
    )


def butt_job() -> Job:
    """Return what the plan was made for."""
    rule = JointRule(kind="butt", cost=JointCost(each=Decimal("2.00"), per_m=Decimal("6.00")))
    ply = {"material": "gaboon", "thickness": 6, "shows": "good"}
    side = {**ply, "name": "side", "outline": Outline(points=SIDE), "quantity": 2, "handed": True, "joint": "strap"}
    frame = {**ply, "name": "frame", "outline": Outline(points=FRAME), "grain_tolerance": 4.0}
    return Job(
        title="Skiff with straps",
        grades=("exterior", "marine"),
        workshop=Workshop(longest_piece=1800),
        joints={"strap": rule, "ply": JointRule()},
        sheets=(
            Sheet(name="marine 6", material="gaboon", thickness=6, size=(2440, 1220), price=Decimal("84.00")),
            Sheet(
                name="old",
                material="gaboon",
                thickness=6,
                outline=Outline(points=rectangle(0, 0, 700, 500)),
                faults=(Fault(points=KNOT, side="back"),),
                available=1,
                source="rack",
            ),
        ),
        panels=(
            Panel.model_validate({**side, "no_joint": ((1000.0, 1755.0), (1845.0, 2000.0))}),
            Panel.model_validate(frame),
        ),
    )


def frame_at(degrees: float) -> PanelPiece:
    """Return the frame turned by an angle about its corner at (150, 50)."""
    cos, sin = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return PanelPiece(
        id="frame-1-1",
        part="frame",
        copy_number=1,
        hand="",
        index=1,
        of=1,
        on="S2",
        outline=tuple((150 + cos * x - sin * y, 50 + sin * x + cos * y) for x, y in FRAME),
        x=150,
        y=50,
        angle=degrees,
        mirrored=False,
    )


def _piece(
    name: str, points: tuple[tuple[float, float], ...], x: float, y: float, angle: float, hand: Hand
) -> PanelPiece:
    part, copy, index = name.rsplit("-", 2)
    mirrored = hand == "starboard"
    return PanelPiece(
        id=name,
        part=part,
        copy_number=int(copy),
        hand=hand,
        index=int(index),
        of=2,
        on="S1",
        outline=lying(points, x, y, angle, mirrored),
        x=x,
        y=y,
        angle=angle,
        mirrored=mirrored,
    )


def _strap(copy: int, hand: Hand, on: str, x: float, y: float) -> StrapPiece:
    """Return a strap: turned over against its panel, so that the port one is mirrored."""
    mirrored = hand == "port"
    return StrapPiece(
        id=f"side-{copy}/J1/strap",
        part="side",
        copy_number=copy,
        hand=hand,
        joint=f"side-{copy}/J1",
        on=on,
        outline=lying(STRAP, x, y, 0, mirrored),
        x=x,
        y=y,
        angle=0,
        mirrored=mirrored,
    )


def _joint(copy: int) -> Joint:
    return Joint(
        id=f"side-{copy}/J1",
        kind="butt",
        part="side",
        copy_number=copy,
        station=1800,
        lap=0,
        slope=None,
        strap=90,
        thickness=6,
        width=260,
        pieces=(f"side-{copy}-1", f"side-{copy}-2"),
        cost=Decimal("3.56"),  # 2.00 + 0.26 x 6.00
    )


def _totals() -> Totals:
    used = 2440 * 1220.0 + 700 * 500
    parts, straps = 2 * 3000 * 250.0 + 300 * 100, 2 * 90 * 260.0
    trim = 2440 * 1220.0 - 2420 * 1200
    return Totals(
        to_pay=Decimal("84.00"),
        joint_cost=Decimal("7.12"),
        offcut_value=Decimal("0.00"),
        objective=Decimal("91.12"),
        bound=Decimal("84.00"),
        bound_reason="area",
        bound_scope="divided",
        proven=False,
        sheets=2,
        lengths=0,
        joints=2,
        areas=SheetAreas(
            used=used, parts=parts, laps=0, straps=straps, trim=trim, offcuts=0, rest=used - parts - straps - trim
        ),
        timber=TimberLengths(used=0, parts=0, laps=0, offcuts=0, rest=0),
        waste_percent=100 * (used - parts) / used,
        timber_waste_percent=0,
    )
