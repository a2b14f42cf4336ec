"""What the audit says of a good plan in which one thing was spoilt."""

from decimal import Decimal

import pytest

from nesting.auditing import audit
from nesting.model import Mark, Neighbours, Outline, Workshop
from tests.auditing.good_plan import (
    FLOOR,
    SIDE_HIGH,
    SIDE_LOW,
    TRANSOM,
    TRANSOM_HOLE,
    good_job,
    good_plan,
    lying,
    moved,
    with_item,
    with_job,
    with_offcut,
    with_panel,
    with_sheet,
    with_totals,
    without,
)

BOW_TIE = ((100.0, 100.0), (300.0, 300.0), (300.0, 100.0), (100.0, 300.0))


def codes(plan, job=None):
    """Return the codes of all findings."""
    return {finding.code for finding in audit(plan, job)}


def with_areas(plan, **changes):
    """Return the plan with other areas."""
    return with_totals(plan, areas=plan.totals.areas.model_copy(update=changes))


def with_timber(plan, **changes):
    """Return the plan with other sums of timber."""
    return with_totals(plan, timber=plan.totals.timber.model_copy(update=changes))


def with_purchase(plan, **changes):
    """Return the plan with the first line of the shopping list changed."""
    first, *rest = plan.purchases
    return plan.model_copy(update={"purchases": (first.model_copy(update=changes), *rest)})


def transom_turned(plan):
    """Return the plan with the transom lying along the grain, where there is room for it."""
    outline, holes = lying(TRANSOM, 10, 200), (lying(TRANSOM_HOLE, 10, 200),)
    return with_item(plan, "pieces", "transom-1-1", outline=outline, holes=holes, x=10, y=200, angle=0)


def low_side_cut_short(plan):
    """Return the plan with the first side's low piece ending 8 before the end of its lap."""
    points = ((0.0, 0.0), (1816.0, 0.0), (1816.0, 200 + 1816 / 30), (0.0, 200.0))
    return with_item(plan, "pieces", "side-1-1", outline=lying(points, 10, 10))


def floor_in_one(plan):
    """Return the plan with the floor as one piece that keeps its joint, longer than its sheet."""
    plan = without(plan, "pieces", "floor-1-2")
    return with_item(plan, "pieces", "floor-1-1", outline=lying(FLOOR, 10, 10), of=1)


PARTS = {
    "a missing copy": (lambda p: without(p, "pieces", "transom-1-1"), {"missing-copy", "wrong-area"}),
    "a missing piece": (
        lambda p: without(p, "pieces", "floor-1-2"),
        {"piece-numbering", "joint-count", "not-whole", "wrong-area"},
    ),
    "a copy too many": (
        lambda p: with_item(p, "pieces", "transom-1-1", copy_number=2),
        {"missing-copy", "unknown-copy"},
    ),
    "a part nobody asked for": (
        lambda p: with_item(p, "pieces", "transom-1-1", part="rudder"),
        {"missing-copy", "unknown-part"},
    ),
    "an id that stands twice": (lambda p: with_item(p, "pieces", "transom-1-1", id="floor-1-1"), {"same-id"}),
    "pieces numbered wrongly": (lambda p: with_item(p, "pieces", "cleat-1-1", of=2), {"piece-numbering"}),
    "a hand on a part that has none": (lambda p: with_item(p, "pieces", "transom-1-1", hand="port"), {"wrong-hand"}),
    "a piece said to be mirrored that is not": (
        lambda p: with_item(p, "pieces", "side-1-1", mirrored=True),
        {"wrong-hand", "not-congruent", "not-whole"},
    ),
    "a grain that runs the other way": (transom_turned, {"wrong-grain"}),
    "an outline that is not the part's": (
        lambda p: with_item(
            p, "pieces", "transom-1-1", outline=lying(((0, 0), (500, 0), (500, 299), (0, 300)), 310, 20, 90)
        ),
        {"not-congruent", "not-whole", "wrong-area"},
    ),
    "a hole that was forgotten": (
        lambda p: with_item(p, "pieces", "transom-1-1", holes=()),
        {"not-congruent", "not-whole", "wrong-area"},
    ),
    "a place that is not where the outline lies": (
        lambda p: with_item(p, "pieces", "transom-1-1", x=311),
        {"not-congruent", "not-whole"},
    ),
    "a strip nobody asked for": (
        lambda p: with_item(p, "pieces", "cleat-1-1", part="side"),
        {"missing-copy", "unknown-part"},
    ),
    "a piece said to lie absurdly far off": (
        lambda p: with_item(p, "pieces", "transom-1-1", x=1e300),
        {"not-congruent", "not-whole"},
    ),
    "a spike too thin to weigh": (
        lambda p: with_item(
            p,
            "pieces",
            "floor-1-1",
            outline=lying(((0, 0), (1324, 0), (1324, 400), (700, 400), (700, 402), (699.9, 400), (0, 400)), 10, 10),
        ),
        {"not-congruent", "not-whole", "kerf-too-small"},
    ),
    "a piece that crosses itself": (
        lambda p: with_item(p, "pieces", "transom-1-1", outline=BOW_TIE, holes=()),
        {"bad-polygon", "not-whole", "wrong-area"},
    ),
    "a piece of two points": (
        lambda p: with_item(p, "pieces", "transom-1-1", outline=BOW_TIE[:2], holes=()),
        {"bad-polygon", "not-whole", "wrong-area"},
    ),
}

STOCK = {
    "another material": (lambda p: with_sheet(p, "old", material="birch"), {"wrong-material"}),
    "another thickness": (lambda p: with_sheet(p, "old", thickness=6.5), {"wrong-thickness"}),
    "a poorer grade": (lambda p: with_panel(p, "transom", grade="marine"), {"wrong-grade"}),
    "another section": (
        lambda p: with_job(p, lengths=(p.job.lengths[0].model_copy(update={"section": (45, 21)}),)),
        {"wrong-section"},
    ),
    "more than there is": (lambda p: with_sheet(p, "marine 6", available=1), {"too-many-used"}),
    "a stock nobody offers": (
        lambda p: with_item(p, "used", "S3", stock="teak"),
        {"unknown-stock", "wrong-area"},
    ),
    "a piece on a sheet that is not there": (
        lambda p: with_item(p, "pieces", "transom-1-1", on="S9"),
        {"unknown-id"},
    ),
    "a piece on timber that is not there": (
        lambda p: with_item(p, "pieces", "cleat-1-1", on="L9"),
        {"unknown-id"},
    ),
    "timber nobody offers": (
        lambda p: with_item(p, "used", "L1", stock="teak"),
        {"unknown-stock", "wrong-length", "wrong-purchase", "wrong-total"},
    ),
    "timber said to be from the rack": (lambda p: with_item(p, "used", "L1", source="rack"), {"wrong-stock"}),
    "a used sheet that crosses itself": (lambda p: with_item(p, "used", "S1", outline=BOW_TIE), {"bad-polygon"}),
    "a used sheet larger than its stock": (
        lambda p: with_item(p, "used", "S1", outline=((0, 0), (2500, 0), (2500, 1220), (0, 1220))),
        {"wrong-stock"},
    ),
    "less trim than the workshop takes": (lambda p: with_item(p, "used", "S1", trim=5.0), {"wrong-stock"}),
    "a fault kept quiet": (lambda p: with_item(p, "used", "S3", faults=()), {"wrong-stock"}),
    "a fault that crosses itself": (lambda p: with_item(p, "used", "S3", faults=(BOW_TIE,)), {"bad-polygon"}),
    "a bought sheet said to be from the rack": (lambda p: with_item(p, "used", "S1", source="rack"), {"wrong-stock"}),
    "timber longer than its stock": (lambda p: with_item(p, "used", "L1", length=4000.0), {"wrong-stock"}),
}

LAYOUT = {
    "a piece moved onto another": (lambda p: moved(p, "side-2-2", 0, -20), {"pieces-overlap"}),
    "pieces closer than a kerf": (lambda p: moved(p, "side-2-2", 0, -0.5), {"kerf-too-small"}),
    "a piece in the trim": (lambda p: moved(p, "side-2-1", -1, 0), {"outside-sheet"}),
    "a piece in a hole of its sheet": (lambda p: moved(p, "transom-1-1", 500, -20), {"in-hole"}),
    "a piece on a fault": (lambda p: moved(p, "transom-1-1", 141, 0), {"on-fault"}),
    "a kept offcut on a piece": (
        lambda p: with_offcut(p, 0, outline=((1300, 10), (2430, 10), (2430, 1210), (1300, 1210))),
        {"offcut-overlap", "wrong-area"},
    ),
    "a kept offcut too near to a piece": (
        lambda p: with_offcut(p, 0, outline=((1336, 10), (2429, 10), (2429, 1210), (1336, 1210))),
        {"offcut-overlap"},
    ),
    "a kept offcut in the trim": (
        lambda p: with_offcut(p, 0, outline=((1338, 10), (2431, 10), (2431, 1210), (1338, 1210))),
        {"offcut-misplaced"},
    ),
    "a kept offcut on a fault": (
        lambda p: with_offcut(p, 0, on="S3", outline=((400, 20), (880, 20), (880, 300), (400, 300))),
        {"offcut-misplaced", "wrong-area"},
    ),
    "a kept offcut not worth keeping": (
        lambda p: with_job(p, workshop=Workshop(longest_piece=3400, keep_from=(1100, 200))),
        {"offcut-too-small"},
    ),
    "two kept offcuts on one another": (
        lambda p: p.model_copy(update={"offcuts": (*p.offcuts, p.offcuts[0].model_copy(update={"value": Decimal(0)}))}),
        {"offcut-overlap", "wrong-area"},
    ),
    "a kept offcut on a sheet that is not there": (lambda p: with_offcut(p, 0, on="S9"), {"unknown-id"}),
    "a kept offcut that crosses itself": (
        lambda p: with_offcut(p, 0, outline=BOW_TIE),
        {"bad-polygon", "wrong-area"},
    ),
    "a strip piece beyond its length": (
        lambda p: with_item(p, "pieces", "gunwale-2-1", start=601.0, end=3601.0),
        {"outside-length"},
    ),
    "a strip piece that runs backwards": (
        lambda p: with_item(p, "pieces", "cleat-1-1", start=2743.0, end=2243.0),
        {"outside-length", "not-whole", "wrong-length"},
    ),
    "strip pieces on one another": (
        lambda p: with_item(p, "pieces", "cleat-1-1", start=2200.0, end=2700.0),
        {"pieces-overlap"},
    ),
    "strip pieces closer than a kerf": (
        lambda p: with_item(p, "pieces", "cleat-1-1", start=2241.0, end=2741.0),
        {"kerf-too-small"},
    ),
    "a kept end of timber on a piece": (
        lambda p: with_offcut(p, 1, start=2240.0, end=3597.0),
        {"offcut-overlap"},
    ),
    "a kept end of timber beyond its length": (
        lambda p: with_offcut(p, 1, start=2244.0, end=3601.0),
        {"offcut-misplaced"},
    ),
    "an end of timber not worth keeping": (
        lambda p: with_job(p, workshop=Workshop(longest_piece=3400, keep_length_from=1400)),
        {"offcut-too-small"},
    ),
}

JOINTS = {
    "a piece that ends within its lap": (
        low_side_cut_short,
        {"lap-short", "not-congruent", "wrong-area"},
    ),
    "a lap shorter than the rule's": (lambda p: with_item(p, "joints", "side-1/J1", lap=40.0), {"joint-rule"}),
    "a joint in a no-joint zone": (
        lambda p: with_panel(p, "side", no_joint=((1000, 1777),)),
        {"no-joint-zone"},
    ),
    "a strip's joint in a no-joint zone": (
        lambda p: with_job(
            p, strips=(p.job.strips[0].model_copy(update={"no_joint": ((2999, 3100),)}), p.job.strips[1])
        ),
        {"no-joint-zone"},
    ),
    "neighbours' joints too near": (
        lambda p: with_job(p, neighbours=(Neighbours(between=("floor", "side"), shift=601),)),
        {"shift-too-small"},
    ),
    "neighbours' joints too near in boat stations alone": (
        lambda p: with_panel(p, "floor", boat_stations=((0.0, 300.0), (1000.0, 1400.0))),
        {"shift-too-small"},
    ),
    "a joint too near to an end": (
        lambda p: with_job(
            p, joints={**p.job.joints, "ply": p.job.joints["ply"].model_copy(update={"least_piece": 1250})}
        ),
        {"joint-spacing"},
    ),
    "a station that is not where the pieces overlap": (
        lambda p: with_item(p, "joints", "gunwale-1/J1", station=2890.0),
        {"joint-station"},
    ),
    "a station beyond the part": (
        lambda p: with_item(p, "joints", "gunwale-1/J1", station=1e300),
        {"joint-outside", "joint-spacing"},
    ),
    "a joint that is missing": (
        lambda p: without(p, "joints", "gunwale-1/J1"),
        {"joint-count", "wrong-total", "wrong-count"},
    ),
    "a joint of other pieces": (
        lambda p: with_item(p, "joints", "side-1/J1", pieces=("side-1-2", "side-1-1")),
        {"joint-pieces"},
    ),
    "a joint of a part nobody asked for": (
        lambda p: with_item(p, "joints", "gunwale-2/J1", part="keel"),
        {"unknown-part", "joint-count"},
    ),
    "a part joined that must be in one piece": (
        lambda p: with_panel(p, "floor", joint=None),
        {"joint-not-allowed", "not-congruent"},
    ),
    "a part in one piece with a joint": (
        floor_in_one,
        {"joint-count", "outside-sheet", "offcut-overlap", "wrong-area"},
    ),
    "another width": (lambda p: with_item(p, "joints", "floor-1/J1", width=401.0), {"joint-width"}),
    "another cost": (
        lambda p: with_totals(
            with_item(p, "joints", "floor-1/J1", cost=Decimal("0.00")),
            joint_cost=Decimal("9.12"),
            objective=Decimal("204.32"),
        ),
        {"joint-cost"},
    ),
    "a lap across a hole": (
        lambda p: with_panel(
            p, "floor", outline=Outline(points=FLOOR, holes=(((1290, 100), (1310, 100), (1310, 200), (1290, 200)),))
        ),
        {"lap-not-plain", "not-congruent", "not-whole", "joint-width", "joint-cost", "wrong-area"},
    ),
    "a strip that comes out too long": (
        lambda p: with_timber(
            with_totals(
                with_item(p, "pieces", "gunwale-1-1", end=3001.0),
                timber_waste_percent=p.totals.timber_waste_percent,
            ),
            laps=481.0,
            rest=2062.0,
        ),
        {"not-whole", "joint-station"},
    ),
    "a scarf in a blank that is not there": (
        lambda p: with_item(p, "joints", "side-1/J1", scarf="B1/1"),
        {"unknown-id"},
    ),
}

SUMS = {
    "a purchase that costs something else": (lambda p: with_purchase(p, cost=Decimal("160.00")), {"wrong-purchase"}),
    "a purchase at another price": (lambda p: with_purchase(p, price=Decimal("80.00")), {"wrong-purchase"}),
    "a purchase of something not used": (lambda p: with_purchase(p, stock="old"), {"wrong-purchase"}),
    "a purchase left out": (lambda p: p.model_copy(update={"purchases": p.purchases[:1]}), {"wrong-purchase"}),
    "a wrong sum to pay": (lambda p: with_totals(p, to_pay=Decimal("200.00")), {"wrong-total"}),
    "a wrong cost of joints": (lambda p: with_totals(p, joint_cost=Decimal("13.53")), {"wrong-total"}),
    "a wrong value of offcuts": (lambda p: with_totals(p, offcut_value=Decimal("0.00")), {"wrong-total"}),
    "a wrong objective": (lambda p: with_totals(p, objective=Decimal("208.71")), {"wrong-total"}),
    "a wrong number of sheets": (lambda p: with_totals(p, sheets=2), {"wrong-count"}),
    "a wrong number of lengths": (lambda p: with_totals(p, lengths=5), {"wrong-count"}),
    "a wrong area of parts": (lambda p: with_areas(p, parts=2_680_001.0), {"wrong-area"}),
    "a wrong area of laps": (lambda p: with_areas(p, laps=44_000.0), {"wrong-area"}),
    "a wrong rest": (lambda p: with_areas(p, rest=0.0), {"wrong-area"}),
    "a wrong waste": (lambda p: with_totals(p, waste_percent=1.0), {"wrong-area"}),
    "a wrong rest of timber": (lambda p: with_timber(p, rest=2000.0), {"wrong-length"}),
    "a wrong waste of timber": (lambda p: with_totals(p, timber_waste_percent=0.0), {"wrong-length"}),
    "a bound above the objective": (lambda p: with_totals(p, bound=Decimal("208.73")), {"bound-above-objective"}),
    "a proof that the bound does not give": (lambda p: with_totals(p, proven=True), {"false-proof"}),
    "a proof kept quiet": (lambda p: with_totals(p, bound=Decimal("208.72")), {"false-proof"}),
    "a wrong hash": (lambda p: p.model_copy(update={"job_sha256": "0" * 64}), {"wrong-hash"}),
    "a job changed after planning": (
        lambda p: p.model_copy(update={"job": p.job.model_copy(update={"title": "Pram"})}),
        {"wrong-hash"},
    ),
}


def two_port_sides(plan):
    """Return the plan with both sides honestly cut for port."""
    port = {"hand": "port", "mirrored": False}
    low = {**port, "outline": lying(SIDE_LOW, 10, 881), "x": 10, "y": 881}
    high = {**port, "outline": lying(SIDE_HIGH, -1766, 577), "x": -1766, "y": 577, "angle": 0}
    return with_item(with_item(plan, "pieces", "side-2-1", **low), "pieces", "side-2-2", **high)


def halves_exchanged(plan):
    """Return the plan with the far halves of the two sides given to one another."""
    plan = with_item(plan, "pieces", "side-1-2", copy_number=2)
    plan = with_item(plan, "pieces", "side-2-2", copy_number=1)
    plan = with_item(plan, "joints", "side-1/J1", pieces=("side-1-1", "side-2-2"))
    return with_item(plan, "joints", "side-2/J1", pieces=("side-2-1", "side-1-2"))


DAMAGES = {**PARTS, **STOCK, **LAYOUT, **JOINTS, **SUMS}


@pytest.mark.parametrize("name", DAMAGES)
def test_a_spoilt_plan_is_found_out(name):
    """Each damage gives the findings that it deserves and no others."""
    damage, expected = DAMAGES[name]
    assert codes(damage(good_plan())) == expected


ASKED = {
    "another title": lambda _: {"title": "Pram"},
    "another quantity": lambda job: {"panels": (job.panels[0].model_copy(update={"quantity": 4}), *job.panels[1:])},
    "another outline": lambda job: {
        "panels": (*job.panels[:2], job.panels[2].model_copy(update={"outline": Outline(points=TRANSOM)}))
    },
    "another part": lambda job: {"strips": job.strips[:1]},
    "another price": lambda job: {"sheets": (job.sheets[0].model_copy(update={"price": Decimal(1)}), job.sheets[1])},
    "another fault": lambda job: {"sheets": (job.sheets[0], job.sheets[1].model_copy(update={"faults": ()}))},
    "stock that the plan has not heard of": lambda job: {
        "lengths": (*job.lengths, job.lengths[0].model_copy(update={"name": "larch"}))
    },
    "other neighbours": lambda _: {"neighbours": ()},
}


@pytest.mark.parametrize("name", ASKED)
def test_a_plan_for_another_job_is_found_out(name):
    """A plan may be right in itself, and yet not what was asked."""
    job = good_job()
    asked = job.model_copy(update=ASKED[name](job))
    assert codes(good_plan(), asked) == {"another-job"}


def test_every_strip_piece_on_a_longer_one_is_told():
    """Two short ones beside each other, both on the long one: the neighbour alone would not tell."""
    plan = with_item(good_plan(), "pieces", "cleat-1-1", on="L1", start=2400.0, end=2900.0)
    plan = with_item(plan, "pieces", "gunwale-2-2", on="L1", start=10.0, end=2250.0)
    overlapping = [finding.where for finding in audit(plan) if finding.code == "pieces-overlap"]
    assert overlapping == ['piece "gunwale-2-2"', 'piece "cleat-1-1"']


def test_two_sides_of_one_hand_make_no_boat():
    """Both are sound parts, yet one of each hand was asked for."""
    (finding,) = audit(two_port_sides(good_plan()))
    assert str(finding) == 'panel "side": 2 are port and 0 starboard, not half of 2 each [wrong-hand]'


def test_a_part_may_not_be_half_port_and_half_starboard():
    """Its good face would change sides at the joint."""
    findings = audit(halves_exchanged(good_plan()))
    assert [(finding.code, finding.where) for finding in findings] == [
        ("wrong-hand", 'panel "side", copy 1'),
        ("wrong-hand", 'panel "side", copy 2'),
    ]


@pytest.mark.parametrize(
    ("longest", "too_long"),
    [
        (3000, []),
        (2999.9, ["gunwale-1-1", "gunwale-2-1"]),
        (1823.9, ["side-1-1", "side-2-1", *(f"gunwale-{copy}-{index}" for copy in (1, 2) for index in (1, 2))]),
    ],
)
def test_pieces_are_measured_with_their_laps(longest, too_long):
    """The longest pieces are 3000 of timber, 2240 of timber, and 1824 of the side."""
    findings = audit(with_job(good_plan(), workshop=Workshop(longest_piece=longest)))
    assert [finding.where for finding in findings] == [f'piece "{name}"' for name in too_long]


def test_an_outline_with_arcs_has_no_place_in_a_plan():
    """A short script must be able to check it: the job in a plan holds polygons."""
    arched = Outline(points=((0.0, 0.0), (500.0, 0.0), (500.0, 300.0, 0.1), (0.0, 300.0)), holes=(TRANSOM_HOLE,))
    assert "arc-in-plan" in codes(with_panel(good_plan(), "transom", outline=arched))


def test_a_panel_that_crosses_itself_can_not_be_checked_and_is_told():
    """Nothing can be congruent to it."""
    found = codes(with_panel(good_plan(), "transom", outline=Outline(points=BOW_TIE)), good_job())
    assert {"bad-polygon", "another-job", "wrong-area"} == found


def test_a_sheet_may_not_become_an_offcut_of_another_outline():
    """The stock in the plan is the stock of the job."""
    outline = Outline(points=((0, 0), (2440, 0), (2440, 1220), (0, 1220)))
    changed = with_sheet(good_plan(), "marine 6", size=None, outline=outline)
    assert "another-job" in codes(changed, good_job())


def test_marks_travel_with_the_part():
    """A plan that forgot a mark is not what was asked."""
    marked = Outline(points=TRANSOM, holes=(TRANSOM_HOLE,), marks=(Mark(points=((250, 0), (250, 300))),))
    assert codes(good_plan(), with_panel(good_plan(), "transom", outline=marked).job) == {"another-job"}


def test_a_finding_says_on_one_line_where_and_what():
    """It can be printed as it is."""
    (finding,) = audit(moved(good_plan(), "side-2-2", 0, -0.5))
    assert str(finding) == 'piece "side-1-2": it is 2.500 from piece "side-2-2", the gap is 3 [kerf-too-small]'


def test_a_badly_broken_plan_does_not_give_thousands_of_findings():
    """Of a kind only the first are told, and how many more there were."""
    findings = audit(with_panel(good_plan(), "transom", quantity=50_000))
    missing = [finding for finding in findings if finding.code == "missing-copy"]
    (more,) = [finding for finding in findings if finding.code == "more"]
    assert len(missing) == 10
    assert more.reason == "49989 more of missing-copy"


def test_an_empty_plan_is_only_incomplete():
    """Without anything used, nothing can be divided by it."""
    nothing = {"used": (), "pieces": (), "joints": (), "offcuts": (), "purchases": ()}
    assert {"missing-copy", "wrong-total", "wrong-count", "wrong-area"} <= codes(good_plan().model_copy(update=nothing))
