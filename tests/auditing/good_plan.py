"""A plan made by hand, every figure by plain arithmetic, and ways to change one thing in it.

Two handed sides and a floor, each scarfed once, on two bought sheets; a transom with a hole across the grain of an
offcut that has a fault and a hole; two gunwales scarfed once and a cleat from four lengths.
"""

import hashlib
import json
from collections.abc import Sequence
from decimal import Decimal

from nesting.model import (
    Fault,
    Job,
    Joint,
    JointCost,
    JointRule,
    Length,
    LengthOffcut,
    Neighbours,
    Outline,
    Panel,
    PanelPiece,
    Plan,
    Purchase,
    Sheet,
    SheetAreas,
    SheetOffcut,
    Strip,
    StripPiece,
    TimberLengths,
    Totals,
    UsedLength,
    UsedSheet,
    Workshop,
)

Points = Sequence[tuple[float, float]]

WHOLE = ((0.0, 0.0), (2440.0, 0.0), (2440.0, 1220.0), (0.0, 1220.0))
OLD = ((0.0, 0.0), (900.0, 0.0), (900.0, 500.0), (600.0, 640.0), (0.0, 640.0))
OLD_HOLE = ((700.0, 400.0), (760.0, 400.0), (760.0, 460.0))
KNOT = ((450.0, 50.0), (500.0, 50.0), (500.0, 100.0), (450.0, 100.0))

# The side is 200 wide at station 0 and 300 at 3000: at station s it is 200 + s / 30. Its scarf at 1800 has a lap of
# 8 x 6 = 48, from 1776 to 1824, and is 260 wide.
SIDE = ((0.0, 0.0), (3000.0, 0.0), (3000.0, 300.0), (0.0, 200.0))
SIDE_LOW = ((0.0, 0.0), (1824.0, 0.0), (1824.0, 260.8), (0.0, 200.0))
SIDE_HIGH = ((1776.0, 0.0), (3000.0, 0.0), (3000.0, 300.0), (1776.0, 259.2))
FLOOR = ((0.0, 0.0), (2600.0, 0.0), (2600.0, 400.0), (0.0, 400.0))
FLOOR_LOW = ((0.0, 0.0), (1324.0, 0.0), (1324.0, 400.0), (0.0, 400.0))
FLOOR_HIGH = ((1276.0, 0.0), (2600.0, 0.0), (2600.0, 400.0), (1276.0, 400.0))
TRANSOM = ((0.0, 0.0), (500.0, 0.0), (500.0, 300.0), (0.0, 300.0))
TRANSOM_HOLE = ((200.0, 100.0), (200.0, 200.0), (300.0, 200.0), (300.0, 100.0))


def good_plan() -> Plan:
    """Return the plan; nothing is wrong with it."""
    job = good_job()
    return Plan(
        seed=0,
        work=0,
        job=job,
        job_sha256=sha256(job),
        totals=_totals(),
        purchases=(
            Purchase(stock="marine 6", count=2, price=Decimal("84.00"), cost=Decimal("168.00")),
            Purchase(stock="spruce", count=4, price=Decimal("9.80"), cost=Decimal("39.20")),
        ),
        used=(
            UsedSheet(id="S1", stock="marine 6", source="buy", outline=WHOLE, trim=10.0),
            UsedSheet(id="S2", stock="marine 6", source="buy", outline=WHOLE, trim=10.0),
            UsedSheet(id="S3", stock="old", source="rack", outline=OLD, holes=(OLD_HOLE,), faults=(KNOT,), trim=0.0),
            *(UsedLength(id=f"L{k}", stock="spruce", source="buy", length=3600.0) for k in (1, 2, 3, 4)),
        ),
        pieces=(*_panel_pieces(), *_strip_pieces()),
        joints=_joints(),
        offcuts=_offcuts(),
    )


def good_job() -> Job:
    """Return what the plan was made for."""
    return Job(
        title="Skiff",
        grades=("exterior", "marine"),
        workshop=Workshop(longest_piece=3400),
        joints={
            "ply": JointRule(cost=JointCost(each=Decimal("2.00"), per_m=Decimal("6.00"))),
            "timber": JointRule(slope=12, cost=JointCost(each=Decimal("1.00"))),
        },
        sheets=(_whole_sheet(), _old_sheet()),
        panels=(
            _panel(
                "side", Outline(points=SIDE), quantity=2, handed=True, joint="ply", no_joint=((1000, 1500),)
            ).model_copy(update={"boat_stations": ((0.0, 100.0), (3000.0, 3100.0))}),
            _panel("floor", Outline(points=FLOOR), joint="ply"),
            _panel("transom", Outline(points=TRANSOM, holes=(TRANSOM_HOLE,)), grade="exterior", grain="across"),
        ),
        neighbours=(Neighbours(between=("side", "floor"), shift=500),),
        lengths=(
            Length(
                name="spruce",
                material="spruce",
                section=(45, 20),
                length=3600,
                price=Decimal("9.80"),
                offcut_value=Decimal("1.48"),  # 1357 mm of it are worth 2.00
            ),
        ),
        strips=(
            Strip(name="gunwale", material="spruce", section=(45, 20), length=5000, quantity=2, joint="timber"),
            Strip(name="cleat", material="spruce", section=(45, 20), length=500),
        ),
    )


def sha256(job: Job) -> str:
    """Return the hash of a job as the plan file's contract states it."""
    text = json.dumps(job.model_dump(mode="json"), sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return hashlib.sha256(text.encode("utf-8")).hexdigest()


def lying(
    points: Points, x: float, y: float, angle: float = 0, mirrored: bool = False
) -> tuple[tuple[float, float], ...]:
    """Return where points of the panel's own frame lie: mirrored about x, turned by quarters, moved."""
    flip = -1 if mirrored else 1
    turned = {
        0: lambda p, q: (p, q),
        90: lambda p, q: (-q, p),
        180: lambda p, q: (-p, -q),
        270: lambda p, q: (q, -p),
    }[int(angle)]
    there = (turned(p, flip * q) for p, q in points)
    return tuple((x + p, y + q) for p, q in there)


def with_job(plan: Plan, **changes: object) -> Plan:
    """Return the plan with another job in it, its hash put right."""
    job = plan.job.model_copy(update=changes)
    return plan.model_copy(update={"job": job, "job_sha256": sha256(job)})


def with_item(plan: Plan, field: str, name: str, **changes: object) -> Plan:
    """Return the plan with one of its used, pieces or joints changed."""
    items = tuple(item.model_copy(update=changes) if item.id == name else item for item in getattr(plan, field))
    return plan.model_copy(update={field: items})


def without(plan: Plan, field: str, *names: str) -> Plan:
    """Return the plan without some of its used, pieces or joints."""
    return plan.model_copy(update={field: tuple(item for item in getattr(plan, field) if item.id not in names)})


def with_offcut(plan: Plan, index: int, **changes: object) -> Plan:
    """Return the plan with one offcut changed."""
    offcuts = list(plan.offcuts)
    offcuts[index] = offcuts[index].model_copy(update=changes)
    return plan.model_copy(update={"offcuts": tuple(offcuts)})


def with_totals(plan: Plan, **changes: object) -> Plan:
    """Return the plan with other totals."""
    return plan.model_copy(update={"totals": plan.totals.model_copy(update=changes)})


def moved(plan: Plan, name: str, by_x: float, by_y: float) -> Plan:
    """Return the plan with one panel piece or strap moved on its sheet or blank."""
    piece = next(piece for piece in plan.pieces if piece.id == name)
    outline = tuple((x + by_x, y + by_y) for x, y in piece.outline)
    plan = with_item(plan, "pieces", name, outline=outline, x=piece.x + by_x, y=piece.y + by_y)
    if not getattr(piece, "holes", ()):
        return plan
    holes = tuple(tuple((x + by_x, y + by_y) for x, y in hole) for hole in piece.holes)
    return with_item(plan, "pieces", name, holes=holes)


def with_panel(plan: Plan, name: str, **changes: object) -> Plan:
    """Return the plan with a panel of its job changed."""
    panels = tuple(panel.model_copy(update=changes) if panel.name == name else panel for panel in plan.job.panels)
    return with_job(plan, panels=panels)


def with_sheet(plan: Plan, name: str, **changes: object) -> Plan:
    """Return the plan with a kind of sheet of its job changed."""
    sheets = tuple(sheet.model_copy(update=changes) if sheet.name == name else sheet for sheet in plan.job.sheets)
    return with_job(plan, sheets=sheets)


def _whole_sheet() -> Sheet:
    return Sheet(
        name="marine 6",
        material="gaboon",
        grade="marine",
        thickness=6,
        size=(2440, 1220),
        price=Decimal("84.00"),
        available=2,
    )


def _old_sheet() -> Sheet:
    return Sheet(
        name="old",
        material="gaboon",
        grade="exterior",
        thickness=6,
        outline=Outline(points=OLD, holes=(OLD_HOLE,)),
        faults=(Fault(points=KNOT),),
        available=1,
        source="rack",
    )


def _panel(name: str, outline: Outline, **more: object) -> Panel:
    return Panel(name=name, outline=outline, **{"material": "gaboon", "grade": "marine", "thickness": 6, **more})


def _panel_piece(
    name: str,
    on: str,
    points: Points,
    x: float,
    y: float,
    angle: float = 0,
    hand: str = "",
    holes: Sequence[Points] = (),
) -> PanelPiece:
    part, copy, index = name.rsplit("-", 2)
    mirrored = hand == "starboard"
    return PanelPiece(
        id=name,
        part=part,
        copy_number=int(copy),
        hand=hand,
        index=int(index),
        of=1 if part == "transom" else 2,
        on=on,
        outline=lying(points, x, y, angle, mirrored),
        holes=tuple(lying(hole, x, y, angle, mirrored) for hole in holes),
        x=x,
        y=y,
        angle=angle,
        mirrored=mirrored,
    )


def _panel_pieces() -> tuple[PanelPiece, ...]:
    return (
        _panel_piece("side-1-1", "S1", SIDE_LOW, 10, 10, hand="port"),  # x 10 to 1834, y 10 to 270.8
        _panel_piece("side-1-2", "S1", SIDE_HIGH, -1766, 274, hand="port"),  # x 10 to 1234, y 274 to 574
        _panel_piece("side-2-2", "S1", SIDE_HIGH, 3010, 577, 180, hand="starboard"),  # x 10 to 1234, y 577 to 877
        _panel_piece("side-2-1", "S1", SIDE_LOW, 10, 1141, hand="starboard"),  # x 10 to 1834, y 880.2 to 1141
        _panel_piece("floor-1-1", "S2", FLOOR_LOW, 10, 10),  # x 10 to 1334, y 10 to 410
        _panel_piece("floor-1-2", "S2", FLOOR_HIGH, -1266, 413),  # x 10 to 1334, y 413 to 813
        _panel_piece("transom-1-1", "S3", TRANSOM, 310, 20, 90, holes=(TRANSOM_HOLE,)),  # x 10 to 310, y 20 to 520
    )


def _strip_piece(name: str, on: str, start: float, end: float) -> StripPiece:
    part, copy, index = name.rsplit("-", 2)
    of = 1 if part == "cleat" else 2
    return StripPiece(id=name, part=part, copy_number=int(copy), index=int(index), of=of, on=on, start=start, end=end)


def _strip_pieces() -> tuple[StripPiece, ...]:
    """Return the pieces: 3000 + 2240 less a lap of 12 x 20 = 240 is 5000."""
    return (
        _strip_piece("gunwale-1-1", "L1", 0, 3000),
        _strip_piece("gunwale-1-2", "L3", 0, 2240),
        _strip_piece("gunwale-2-1", "L2", 0, 3000),
        _strip_piece("gunwale-2-2", "L4", 0, 2240),
        _strip_piece("cleat-1-1", "L4", 2243, 2743),
    )


def _joint(part: str, copy: int, station: float, lap: float, slope: float, width: float, cost: str) -> Joint:
    return Joint(
        id=f"{part}-{copy}/J1",
        part=part,
        copy_number=copy,
        station=station,
        lap=lap,
        slope=slope,
        thickness=lap / slope,
        width=width,
        pieces=(f"{part}-{copy}-1", f"{part}-{copy}-2"),
        cost=Decimal(cost),
    )


def _joints() -> tuple[Joint, ...]:
    return (
        _joint("side", 1, 1800, 48, 8, 260, "3.56"),  # 2.00 + 0.26 x 6.00
        _joint("side", 2, 1800, 48, 8, 260, "3.56"),
        _joint("floor", 1, 1300, 48, 8, 400, "4.40"),  # 2.00 + 0.40 x 6.00
        _joint("gunwale", 1, 2880, 240, 12, 45, "1.00"),
        _joint("gunwale", 2, 2880, 240, 12, 45, "1.00"),
    )


def _offcuts() -> tuple[SheetOffcut | LengthOffcut, ...]:
    beside_the_floor = ((1337.0, 10.0), (2430.0, 10.0), (2430.0, 1210.0), (1337.0, 1210.0))
    return (
        SheetOffcut(on="S2", outline=beside_the_floor, kept=True, value=Decimal("10.00")),
        LengthOffcut(on="L3", start=2243, end=3600, kept=True, value=Decimal("2.00")),
        LengthOffcut(on="L1", start=3003, end=3600, kept=False),
    )


def _totals() -> Totals:
    # Sheets: 2 x 2440 x 1220, and the offcut: 900 x 640 less a corner of 300 x 140 / 2 and a hole of 60 x 60 / 2.
    used = 2 * 2_976_800.0 + 576_000 - 21_000 - 1_800
    parts = 2 * 750_000.0 + 1_040_000 + 140_000  # sides, floor, transom less its hole
    laps = 2 * 48 * 260.0 + 48 * 400
    trim = 2 * (2_976_800.0 - 2420 * 1200)
    kept = 1093 * 1200.0
    return Totals(
        to_pay=Decimal("207.20"),  # 2 x 84.00 + 4 x 9.80
        joint_cost=Decimal("13.52"),  # 2 x 3.56 + 4.40 + 2 x 1.00
        offcut_value=Decimal("12.00"),
        objective=Decimal("208.72"),
        bound=Decimal("150.00"),
        bound_reason="area",
        bound_scope="divided",
        proven=False,
        sheets=3,
        lengths=4,
        joints=5,
        areas=SheetAreas(
            used=used, parts=parts, laps=laps, trim=trim, offcuts=kept, rest=used - parts - laps - trim - kept
        ),
        # 4 x 3600; 2 x 5000 + 500; 2 x 240; 3600 - 2243; and what is left
        timber=TimberLengths(used=14400.0, parts=10500.0, laps=480.0, offcuts=1357.0, rest=2063.0),
        waste_percent=100 * (used - parts - kept) / used,
        timber_waste_percent=100 * 2543 / 14400,
    )
