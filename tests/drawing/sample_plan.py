"""A small plan made by hand: handed divided panels, a hole, an offcut with a fault, scarfed strips."""

import math
from decimal import Decimal

from shapely import affinity
from shapely.geometry import Polygon

from nesting.joints import divide
from nesting.model import (
    Fault,
    Job,
    Joint,
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
)

BILGE = 'bilge </g> & "Ж"'
TRANSOM = "=transom"
GUNWALE = "gunwale"
MARINE = "gaboon <6 mm> & marine"
OLD = "offcut of the last boat"
SPRUCE = "spruce 45 x 20"

STATION, LAP, SLOPE, THICKNESS = 1900.0, 48.0, 8.0, 6.0
TIMBER_SLOPE, TIMBER_LAP, TIMBER_STATION = 12.0, 240.0, 2880.0


def bilge() -> Polygon:
    """Return a panel 3600 long whose upper edge is curved."""
    lower = [(0.0, 0.0), (3600.0, 0.0)]
    upper = [(x, 120.0 + 140.0 * math.sin(math.pi * x / 3600.0)) for x in range(3600, -1, -100)]
    return Polygon([*lower, *upper])


def sample_plan(title: str = "Skiff <& Ж>") -> Plan:
    """Return the plan."""
    job = _job(title)
    pieces = (*_bilge_pieces(), *_transoms(), *_strip_pieces())
    return Plan(
        seed=0,
        work=1000,
        job=job,
        job_sha256="0" * 64,
        totals=_totals(),
        purchases=(
            Purchase(stock=MARINE, count=1, price=Decimal("84.10"), cost=Decimal("84.10")),
            Purchase(stock=SPRUCE, count=4, price=Decimal("9.80"), cost=Decimal("39.20")),
        ),
        used=_used(),
        pieces=pieces,
        joints=_joints(),
        offcuts=_offcuts(),
    )


def _job(title: str) -> Job:
    return Job(
        title=title,
        joints={"ply": JointRule(), "timber": JointRule(slope=TIMBER_SLOPE)},
        sheets=(
            Sheet(name=MARINE, material="gaboon", thickness=6, size=(2440, 1220), price=Decimal("84.10")),
            Sheet(
                name=OLD,
                material="gaboon",
                thickness=6,
                outline=Outline(points=((0, 0), (1300, 0), (1300, 500), (900, 640), (0, 640))),
                faults=(Fault(points=((1020, 60), (1110, 80), (1090, 150), (1010, 140))),),
                available=1,
                source="rack",
            ),
        ),
        panels=(
            Panel(
                name=BILGE,
                material="gaboon",
                thickness=6,
                outline=Outline.model_validate(bilge()),
                quantity=2,
                handed=True,
                joint="ply",
                boat_stations=((0, 100), (3600, 3700)),
            ),
            Panel(name=TRANSOM, material="gaboon", thickness=6, outline=Outline.model_validate(_transom()), quantity=2),
        ),
        neighbours=(Neighbours(between=(BILGE, TRANSOM), shift=250),),
        lengths=(Length(name=SPRUCE, material="spruce", section=(45, 20), length=3600, price=Decimal("9.80")),),
        strips=(Strip(name=GUNWALE, material="spruce", section=(45, 20), length=5000, quantity=2, joint="timber"),),
    )


def _transom() -> Polygon:
    hole = [(200, 180), (300, 180), (300, 120), (200, 120)]
    return Polygon([(0, 0), (500, 0), (500, 300), (0, 300)], [hole])


def _lying(shape: Polygon, x: float, y: float, angle: float, mirrored: bool) -> dict[str, object]:
    """Return the fields that say how a shape lies: the model's own rule, written out once more."""
    cos, sin = round(math.cos(math.radians(angle)), 12), round(math.sin(math.radians(angle)), 12)
    flip = -1.0 if mirrored else 1.0
    there = affinity.affine_transform(shape, (cos, -sin * flip, sin, cos * flip, x, y))
    rings = [tuple(ring.coords[:-1]) for ring in (there.exterior, *there.interiors)]
    return {"outline": rings[0], "holes": tuple(rings[1:]), "x": x, "y": y, "angle": angle, "mirrored": mirrored}


def _bilge_pieces() -> list[PanelPiece]:
    shares = divide(bilge(), [STATION], LAP)
    places = {
        (1, 1): (10.0, 10.0, 0.0),
        (1, 2): (-1866.0, 290.0, 0.0),
        (2, 1): (1934.0, 590.0, 180.0),
        (2, 2): (-1866.0, 1140.0, 0.0),
    }
    return [
        PanelPiece(
            id=f"bilge-{copy}-{index}",
            part=BILGE,
            copy=copy,
            hand="port" if copy == 1 else "starboard",
            index=index,
            of=2,
            on="S1",
            **_lying(shares[index - 1], *places[copy, index], copy == 2),
        )
        for copy in (1, 2)
        for index in (1, 2)
    ]


def _transoms() -> list[PanelPiece]:
    places = {1: ("S1", 2420.0, 20.0, 90.0), 2: ("S2", 10.0, 10.0, 0.0)}
    return [
        PanelPiece(
            id=f"transom-{copy}",
            part=TRANSOM,
            copy=copy,
            hand="",
            index=1,
            of=1,
            on=on,
            **_lying(_transom(), x, y, angle, False),
        )
        for copy, (on, x, y, angle) in places.items()
    ]


def _strip_pieces() -> list[StripPiece]:
    places = {
        (1, 1): ("L1", 0.0, 3000.0),
        (1, 2): ("L2", 0.0, 2240.0),
        (2, 1): ("L3", 0.0, 3000.0),
        (2, 2): ("L4", 0.0, 2240.0),
    }
    return [
        StripPiece(
            id=f"gunwale-{copy}-{index}",
            part=GUNWALE,
            copy=copy,
            index=index,
            of=2,
            on=on,
            **{"from": start, "to": end},
        )
        for (copy, index), (on, start, end) in places.items()
    ]


def _joints() -> tuple[Joint, ...]:
    width = bilge().intersection(Polygon([(1899.5, -1), (1900.5, -1), (1900.5, 999), (1899.5, 999)])).area
    panel = [
        Joint(
            id=f"bilge-{copy}",
            part=BILGE,
            copy=copy,
            station=STATION,
            lap=LAP,
            slope=SLOPE,
            thickness=THICKNESS,
            width=width,
            pieces=(f"bilge-{copy}-1", f"bilge-{copy}-2"),
            cost=Decimal("2.00"),
        )
        for copy in (1, 2)
    ]
    timber = [
        Joint(
            id=f"gunwale-{copy}",
            part=GUNWALE,
            copy=copy,
            station=TIMBER_STATION,
            lap=TIMBER_LAP,
            slope=TIMBER_SLOPE,
            thickness=20.0,
            width=45.0,
            pieces=(f"gunwale-{copy}-1", f"gunwale-{copy}-2"),
            cost=Decimal("1.00"),
        )
        for copy in (1, 2)
    ]
    return (*panel, *timber)


def _used() -> tuple[UsedSheet | UsedLength, ...]:
    whole = ((0.0, 0.0), (2440.0, 0.0), (2440.0, 1220.0), (0.0, 1220.0))
    old = ((0.0, 0.0), (1300.0, 0.0), (1300.0, 500.0), (900.0, 640.0), (0.0, 640.0))
    fault = ((1020.0, 60.0), (1110.0, 80.0), (1090.0, 150.0), (1010.0, 140.0))
    return (
        UsedSheet(id="S1", stock=MARINE, source="buy", outline=whole, trim=10.0),
        UsedSheet(id="S2", stock=OLD, source="rack", outline=old, faults=(fault,), trim=0.0),
        *(UsedLength(id=f"L{number}", stock=SPRUCE, source="buy", length=3600.0) for number in range(1, 5)),
    )


def _offcuts() -> tuple[SheetOffcut | LengthOffcut, ...]:
    keep = ((10.0, 320.0), (900.0, 320.0), (900.0, 630.0), (10.0, 630.0))
    scrap = ((1960.0, 530.0), (2430.0, 530.0), (2430.0, 640.0), (1960.0, 640.0))
    return (
        SheetOffcut(on="S2", outline=keep, kept=True, value=Decimal("4.50")),
        SheetOffcut(on="S1", outline=scrap, kept=False),
        LengthOffcut(on="L1", kept=False, **{"from": 3003.0, "to": 3600.0}),
        LengthOffcut(on="L2", kept=True, value=Decimal("2.00"), **{"from": 2243.0, "to": 3600.0}),
        LengthOffcut(on="L3", kept=False, **{"from": 3003.0, "to": 3600.0}),
        LengthOffcut(on="L4", kept=True, value=Decimal("2.00"), **{"from": 2243.0, "to": 3600.0}),
    )


def _totals() -> Totals:
    used = 2440.0 * 1220.0 + (1300.0 * 640.0 - 400.0 * 140.0 / 2)
    parts = 2 * bilge().area + 2 * _transom().area
    laps = 2 * sum(piece.area for piece in divide(bilge(), [STATION], LAP)) - 2 * bilge().area
    trim, kept = 2440.0 * 1220.0 - 2420.0 * 1200.0, 890.0 * 310.0
    return Totals(
        to_pay=Decimal("123.30"),
        joint_cost=Decimal("6.00"),
        offcut_value=Decimal("8.50"),
        objective=Decimal("120.80"),
        bound=Decimal("101.00"),
        bound_reason="area of parts and laps",
        bound_scope="any",
        proven=False,
        sheets=2,
        lengths=4,
        joints=4,
        areas=SheetAreas(
            used=used, parts=parts, laps=laps, trim=trim, offcuts=kept, rest=used - parts - laps - trim - kept
        ),
        timber=TimberLengths(used=14400.0, parts=10000.0, laps=480.0, offcuts=2714.0, rest=1206.0),
        waste_percent=100 * (1 - (parts + kept) / used),
        timber_waste_percent=100 * (1 - 12714.0 / 14400.0),
    )
