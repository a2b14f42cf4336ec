"""A plan with a blank, made by hand, every figure by plain arithmetic, and ways to change one thing in it.

Two sheets of unlike length, both 5.5 thick as measured, are scarfed into a blank: usable 2420 and 2480, less a lap of
8 x 5.5 = 44 makes 4856; the scarf's middle lies at 2420 - 22 = 2398. From it come two handed sides and a bottom, all
across the scarf, and a floor that is not. An allowance of 1 is left around every part, so gaps are 3 + 2 = 5.
"""

from decimal import Decimal

from nesting.model import (
    Blank,
    BlankScarf,
    Hand,
    Job,
    Joint,
    JointCost,
    JointRule,
    Member,
    Neighbours,
    Outline,
    Panel,
    PanelPiece,
    Plan,
    Purchase,
    Sheet,
    SheetAreas,
    SheetOffcut,
    TimberLengths,
    Totals,
    UsedSheet,
    Way,
    Workshop,
)
from tests.auditing.good_plan import lying, sha256

# The side is 200 wide at station 0 and 300 at 4500: at station s it is 200 + s / 45.
SIDE = ((0.0, 0.0), (4500.0, 0.0), (4500.0, 300.0), (0.0, 200.0))
BOTTOM = ((0.0, 0.0), (4200.0, 0.0), (4200.0, 250.0), (0.0, 250.0))
FLOOR = ((0.0, 0.0), (1000.0, 0.0), (1000.0, 300.0), (0.0, 300.0))

#: Free of the bottom (y 611 to 861) and the floor (x 1 to 1001) by a kerf of 3 and their allowance of 1.
LEFT_OVER = ((1005.0, 865.0), (4856.0, 865.0), (4856.0, 1200.0), (1005.0, 1200.0))


def rectangle(west: float, south: float, east: float, north: float) -> tuple[tuple[float, float], ...]:
    """Return the four corners."""
    return ((west, south), (east, south), (east, north), (west, north))


def blank_plan() -> Plan:
    """Return the plan; nothing is wrong with it."""
    job = blank_job()
    return Plan(
        seed=0,
        work=0,
        job=job,
        job_sha256=sha256(job),
        totals=_totals(),
        purchases=tuple(
            Purchase(stock=sheet.name, count=1, price=sheet.price, cost=sheet.price) for sheet in job.sheets
        ),
        used=(
            UsedSheet(id="S1", stock="short", source="buy", outline=rectangle(0, 0, 2440, 1220), trim=10.0),
            UsedSheet(id="S2", stock="long", source="buy", outline=rectangle(0, 0, 2500, 1220), trim=10.0),
        ),
        blanks=(_blank(),),
        pieces=(
            _piece("side-1-1", SIDE, 101, 1, hand="port"),  # x 101 to 4601, y 1 to 301
            _piece("side-2-1", SIDE, 4695, 306, 180, hand="starboard"),  # x 195 to 4695, y 306 to 606
            _piece("bottom-1-1", BOTTOM, 400, 611),  # x 400 to 4600, y 611 to 861
            _piece("floor-1-1", FLOOR, 1, 866),  # x 1 to 1001, y 866 to 1166
        ),
        joints=(
            _joint("side", 1, 2297, 200 + 2297 / 45),  # 2398 - 101
            _joint("side", 2, 2297, 200 + 2297 / 45),  # 4695 - 2398
            _joint("bottom", 1, 1998, 250),  # 2398 - 400
        ),
        offcuts=(SheetOffcut(on="B1", outline=LEFT_OVER, kept=True, value=Decimal("5.00")),),
        ways=(
            Way(way="joined", objective=Decimal("178.20"), told="one scarf the less"),
            Way(way="divided", objective=None, told="not tried: the workshop joins"),
        ),
    )


def blank_job() -> Job:
    """Return what the plan was made for."""
    return Job(
        title="Skiff from a blank",
        grades=("exterior", "marine"),
        workshop=Workshop(allowance=1, longest_piece=5000, way="joined"),
        joints={
            "ply": JointRule(cost=JointCost(each=Decimal("2.00"), per_m=Decimal("6.00"))),
            "flat": JointRule(slope=12),
            "strap": JointRule(kind="butt"),
        },
        sheets=(_sheet("short", 2440, "84.00"), _sheet("long", 2500, "90.00")),
        panels=(
            _panel("side", SIDE, quantity=2, handed=True, joint="ply"),
            _panel("bottom", BOTTOM, joint="ply", no_joint=((2020.0, 3500.0),)),
            _panel("floor", FLOOR, grain="any"),
        ),
        neighbours=(Neighbours(between=("side", "bottom"), shift=299),),
    )


def with_blank(plan: Plan, **changes: object) -> Plan:
    """Return the plan with its blank changed."""
    return plan.model_copy(update={"blanks": (plan.blanks[0].model_copy(update=changes),)})


def with_member(plan: Plan, index: int, **changes: object) -> Plan:
    """Return the plan with one sheet of its blank changed."""
    members = list(plan.blanks[0].members)
    members[index] = members[index].model_copy(update=changes)
    return with_blank(plan, members=tuple(members))


def with_scarf(plan: Plan, **changes: object) -> Plan:
    """Return the plan with the scarf of its blank changed."""
    return with_blank(plan, scarfs=(plan.blanks[0].scarfs[0].model_copy(update=changes),))


def _sheet(name: str, length: float, price: str) -> Sheet:
    return Sheet(
        name=name,
        material="gaboon",
        grade="marine",
        thickness=6,
        measured=5.5,
        size=(length, 1220),
        price=Decimal(price),
    )


def _panel(name: str, points: tuple[tuple[float, float], ...], **more: object) -> Panel:
    given = {"material": "gaboon", "grade": "marine", "thickness": 6, **more}
    return Panel.model_validate({"name": name, "outline": Outline(points=points), **given})


def _blank() -> Blank:
    """Return the blank; the second sheet begins at 2420 - 44 = 2376."""
    return Blank(
        id="B1",
        joint="ply",
        outline=rectangle(0, 0, 4856, 1200),
        members=(
            Member(used="S1", outline=rectangle(10, 10, 2430, 1210), x=-10, y=-10),
            Member(used="S2", outline=rectangle(10, 10, 2490, 1210), x=2366, y=-10),
        ),
        scarfs=(  # 2.00 + 1.2 x 6.00
            BlankScarf(id="B1/F1", at=2398, lap=44, slope=8, thickness=5.5, width=1200, cost=Decimal("9.20")),
        ),
    )


def _piece(
    name: str, points: tuple[tuple[float, float], ...], x: float, y: float, angle: float = 0, hand: Hand = ""
) -> PanelPiece:
    part, copy, _ = name.rsplit("-", 2)
    mirrored = hand == "starboard"
    return PanelPiece(
        id=name,
        part=part,
        copy_number=int(copy),
        hand=hand,
        index=1,
        of=1,
        on="B1",
        outline=lying(points, x, y, angle, mirrored),
        x=x,
        y=y,
        angle=angle,
        mirrored=mirrored,
    )


def _joint(part: str, copy: int, station: float, width: float) -> Joint:
    return Joint(
        id=f"{part}-{copy}/J1",
        part=part,
        copy_number=copy,
        station=station,
        lap=44,
        slope=8,
        thickness=5.5,
        width=width,
        pieces=(f"{part}-{copy}-1",),
        scarf="B1/F1",
        cost=Decimal("0.00"),
    )


def _totals() -> Totals:
    used = 2440 * 1220.0 + 2500 * 1220
    trim = used - 2420 * 1200 - 2480 * 1200
    parts = 2 * 4500 * 250.0 + 4200 * 250 + 1000 * 300
    laps, kept = 44 * 1200.0, 3851 * 335.0
    return Totals(
        to_pay=Decimal("174.00"),
        joint_cost=Decimal("9.20"),  # the blank's scarf alone
        offcut_value=Decimal("5.00"),
        objective=Decimal("178.20"),
        bound=Decimal("150.00"),
        bound_reason="area",
        bound_scope="any",
        proven=False,
        sheets=2,
        lengths=0,
        joints=3,
        scarfs_of_blanks=1,
        areas=SheetAreas(
            used=used, parts=parts, laps=laps, trim=trim, offcuts=kept, rest=used - parts - laps - trim - kept
        ),
        timber=TimberLengths(used=0, parts=0, laps=0, offcuts=0, rest=0),
        waste_percent=100 * (used - parts - kept) / used,
        timber_waste_percent=0,
    )
