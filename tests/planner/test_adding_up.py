"""Every total of a share made by hand, worked out by hand."""

from decimal import Decimal

import pytest

from nesting.model import (
    Bound,
    Job,
    Joint,
    LengthOffcut,
    PanelPiece,
    Purchase,
    Share,
    SheetOffcut,
    StrapPiece,
    StripPiece,
    UsedLength,
    UsedSheet,
)
from nesting.planner.adding_up import purchases, sheet_areas, timber_lengths, totals
from tests.jobs import PLY, job, panel

WHOLE = ((0, 0), (2440, 0), (2440, 1220), (0, 1220))
OLD = ((0, 0), (800, 0), (800, 500), (0, 500))
HOLE = ((700, 400), (700, 450), (750, 450), (750, 400))


def box(west: float, south: float, length: float, width: float) -> tuple[tuple[float, float], ...]:
    """Return a rectangle's corners."""
    return ((west, south), (west + length, south), (west + length, south + width), (west, south + width))


def asked() -> Job:
    """Return a job: a side 3000 x 300 with one scarf, a seat with a hole from the rack, a gunwale with one scarf."""
    spruce = {"material": "spruce", "section": [45, 20]}
    old = {**PLY, "name": "old", "outline": {"points": OLD, "holes": [HOLE]}, "price": 0, "source": "rack"}
    del old["size"]
    seat = {**panel("seat", 1, 1), "outline": {"points": box(0, 0, 400, 300), "holes": [box(100, 100, 50, 20)]}}
    return job(
        panel("side", 3000, 300, joint="scarf"),
        seat,
        sheets=(old, PLY),
        lengths=[
            {**spruce, "name": "unused", "length": 9000, "price": 30},
            {**spruce, "name": "spruce", "length": 3600, "price": "9.80"},
        ],
        strips=[{**spruce, "name": "gunwale", "length": 4350, "joint": "scarf"}],
    )


def share() -> Share:
    """Return how it is made: one sheet and one offcut, two lengths, two joints, three offcuts of which two are kept."""
    side = {"part": "side", "copy": 1, "hand": "", "of": 2, "on": "S1", "angle": 0, "mirrored": False}
    seat = {"part": "seat", "copy": 1, "hand": "", "index": 1, "of": 1, "on": "S2", "angle": 0, "mirrored": False}
    gunwale = {"part": "gunwale", "copy": 1, "of": 2}
    joint = {"copy": 1, "lap": 48, "slope": 8, "thickness": 6, "width": 300}
    return Share(
        used=(
            UsedSheet(id="S1", stock="ply", source="buy", outline=WHOLE, trim=10),
            UsedSheet(id="S2", stock="old", source="rack", outline=OLD, holes=(HOLE,), trim=0),
            UsedLength(id="L1", stock="spruce", source="buy", length=3600),
            UsedLength(id="L2", stock="spruce", source="buy", length=3600),
        ),
        pieces=(
            PanelPiece.model_validate(
                {**side, "id": "side-1-1", "index": 1, "outline": box(10, 10, 1624, 300), "x": 10, "y": 10}
            ),
            PanelPiece.model_validate(
                {**side, "id": "side-1-2", "index": 2, "outline": box(10, 400, 1424, 300), "x": -1566, "y": 400}
            ),
            PanelPiece.model_validate(
                {**seat, "id": "seat-1-1", "outline": box(0, 0, 400, 300), "x": 0, "y": 0}
                | {"holes": [box(100, 100, 50, 20)]}
            ),
            StripPiece.model_validate({**gunwale, "id": "gunwale-1-1", "index": 1, "on": "L1", "from": 0, "to": 2255}),
            StripPiece.model_validate({**gunwale, "id": "gunwale-1-2", "index": 2, "on": "L2", "from": 0, "to": 2255}),
        ),
        joints=(
            Joint.model_validate(
                joint | {"id": "a", "part": "side", "station": 1600, "pieces": ("a", "b"), "cost": "3.80"}
            ),
            Joint.model_validate(
                joint | {"id": "b", "part": "gunwale", "station": 2175, "pieces": ("c", "d"), "cost": "2.27"}
            ),
        ),
        offcuts=(
            SheetOffcut(on="S1", outline=box(1700, 10, 700, 1000), kept=True, value=Decimal("12.30")),
            SheetOffcut(on="S2", outline=box(410, 0, 200, 300), kept=False, value=Decimal("99.00")),
            LengthOffcut.model_validate({"on": "L1", "from": 2258, "to": 3600, "kept": True, "value": "1.00"}),
        ),
    )


def test_only_what_is_not_on_the_rack_is_bought_in_the_order_of_the_job() -> None:
    """One sheet and two lengths; the offcut and the length that is not used are not on the list."""
    assert purchases(asked(), share()) == (
        Purchase(stock="ply", count=1, price=Decimal("84.00"), cost=Decimal("84.00")),
        Purchase(stock="spruce", count=2, price=Decimal("9.80"), cost=Decimal("19.60")),
    )


def test_sheet_areas_by_hand() -> None:
    """Each figure from the sizes above; the lap is 48 x 300, the trim a frame 10 wide."""
    areas = sheet_areas(asked(), share())
    parts = 3000 * 300 + 400 * 300 - 50 * 20
    trim = 2440 * 1220 - 2420 * 1200
    used = 2440 * 1220 + 800 * 500 - 50 * 50
    assert areas.used == pytest.approx(used)
    assert areas.parts == pytest.approx(parts)
    assert areas.laps == pytest.approx(48 * 300)
    assert areas.trim == pytest.approx(trim)
    assert areas.offcuts == pytest.approx(700 * 1000)
    assert areas.rest == pytest.approx(used - parts - 48 * 300 - trim - 700 * 1000)


def test_timber_lengths_by_hand() -> None:
    """Two pieces of 2255 make 4350 with a lap of 160; 1342 is kept."""
    timber = timber_lengths(asked(), share())
    assert (timber.used, timber.parts, timber.laps, timber.offcuts) == (7200, 4350, 160, 1342)
    assert timber.rest == 7200 - 4350 - 160 - 1342


def test_money_counts_and_waste_by_hand() -> None:
    """84.00 + 19.60 to pay, 6.07 for joints, 13.30 of kept offcuts: 96.37; firewood is worth nothing."""
    sums = totals(asked(), share(), Bound(amount=Decimal("90.00"), reason="by hand"))
    assert (sums.to_pay, sums.joint_cost, sums.offcut_value, sums.objective) == tuple(
        map(Decimal, ("103.60", "6.07", "13.30", "96.37"))
    )
    assert (sums.sheets, sums.lengths, sums.joints) == (2, 2, 2)
    used = 2440 * 1220 + 800 * 500 - 50 * 50
    assert sums.waste_percent == pytest.approx(100 * (1 - (1_019_000 + 700_000) / used))
    assert sums.timber_waste_percent == pytest.approx(100 * (1 - (4350 + 1342) / 7200))
    assert (sums.bound, sums.bound_reason, sums.proven) == (Decimal("90.00"), "by hand", False)


def test_a_minimum_is_proven_only_when_the_bound_meets_it() -> None:
    """To the cent: one cent below is not proven."""
    assert totals(asked(), share(), Bound(amount=Decimal("96.37"), reason="")).proven
    assert not totals(asked(), share(), Bound(amount=Decimal("96.36"), reason="")).proven


def test_nothing_used_comes_to_nothing() -> None:
    """And wastes no percent of it."""
    nothing = asked().model_copy(update={"panels": (), "strips": ()})
    sums = totals(nothing, Share(), Bound(amount=Decimal(0), reason=""))
    assert sums.objective == 0
    assert sums.proven
    assert (sums.waste_percent, sums.timber_waste_percent) == (0, 0)
    assert purchases(nothing, Share()) == ()


def test_a_strap_is_told_apart_from_parts_and_laps() -> None:
    """The same with a strap of 90 x 180 beside: it comes out of the rest."""
    strap = {"id": "a/strap", "part": "side", "copy": 1, "hand": "", "joint": "a", "on": "S1", "angle": 0}
    strap |= {"outline": box(1700, 1020, 90, 180), "x": 0, "y": 0, "mirrored": True}
    made = share()
    with_strap = made.model_copy(update={"pieces": (*made.pieces, StrapPiece.model_validate(strap))})
    before, after = sheet_areas(asked(), made), sheet_areas(asked(), with_strap)
    assert (before.straps, after.straps) == (0, 90 * 180)
    assert after.rest == pytest.approx(before.rest - 90 * 180)
    assert (after.parts, after.laps, after.used) == (before.parts, before.laps, before.used)
