"""What the audit says of a plan with a blank in which one thing was spoilt."""

import math
from decimal import Decimal

import pytest

from nesting.auditing import audit
from nesting.model import Fault, Neighbours, Outline, Way
from tests.auditing.good_blank_plan import (
    BOTTOM,
    FLOOR,
    blank_job,
    blank_plan,
    rectangle,
    with_blank,
    with_member,
    with_scarf,
)
from tests.auditing.good_plan import (
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

#: What follows if the blank from which pieces come can not be found.
LOST = {"unknown-id", "joint-count", "joint-cost", "joint-not-there"}

KNOT = rectangle(300, 300, 340, 340)


def codes(plan, job=None):
    """Return the codes of all findings."""
    return {finding.code for finding in audit(plan, job)}


def with_workshop(plan, **changes):
    """Return the plan with another workshop in its job."""
    return with_job(plan, workshop=plan.job.workshop.model_copy(update=changes))


def with_rule(plan, **changes):
    """Return the plan with another rule for scarfs in plywood."""
    return with_job(plan, joints={**plan.job.joints, "ply": plan.job.joints["ply"].model_copy(update=changes)})


def with_way(plan, way, objective):
    """Return the plan with one way told of."""
    return plan.model_copy(update={"ways": (Way(way=way, objective=Decimal(objective), told=""),)})


def faulty_member(plan):
    """Return the plan with a knot in one kind of sheet of the blank."""
    plan = with_sheet(plan, "long", faults=(Fault(points=KNOT),))
    return with_item(plan, "used", "S2", faults=(KNOT,))


def member_from_the_rack(plan):
    """Return the plan with one sheet of the blank an offcut of the same outline."""
    return with_sheet(plan, "long", size=None, outline=Outline(points=rectangle(0, 0, 2500, 1220)))


def wider_member(plan):
    """Return the plan with one sheet of the blank ten wider than the other."""
    plan = with_item(with_sheet(plan, "long", size=(2500, 1230)), "used", "S2", outline=rectangle(0, 0, 2500, 1230))
    return with_member(plan, 1, outline=rectangle(10, 10, 2490, 1220))


def same_sheets_again(plan):
    """Return the plan with a second blank of the same two sheets."""
    scarf = plan.blanks[0].scarfs[0].model_copy(update={"id": "B2/F1"})
    second = plan.blanks[0].model_copy(update={"id": "B2", "scarfs": (scarf,)})
    return plan.model_copy(update={"blanks": (*plan.blanks, second)})


def two_scarfs_told(plan):
    """Return the plan with a second scarf between the two sheets."""
    scarf = plan.blanks[0].scarfs[0]
    return with_blank(plan, scarfs=(scarf, scarf.model_copy(update={"id": "B1/F2"})))


def scarf_for_nothing(plan):
    """Return the plan with a scarf that costs nothing, in the totals too."""
    plan = with_way(with_scarf(plan, cost=Decimal(0)), "joined", "169.00")
    return with_totals(plan, joint_cost=Decimal(0), objective=Decimal("169.00"))


def bottom_divided(plan):
    """Return the plan with the bottom honestly divided, its pieces still on the blank."""
    low, high = rectangle(0, 0, 2020, 250), rectangle(1976, 0, 4200, 250)
    plan = with_item(plan, "pieces", "bottom-1-1", outline=lying(low, 400, 611), of=2)
    whole = next(piece for piece in plan.pieces if piece.id == "bottom-1-1")
    changes = {"id": "bottom-1-2", "index": 2, "outline": lying(high, 449, 611), "x": 449}
    plan = plan.model_copy(update={"pieces": (*plan.pieces, whole.model_copy(update=changes))})
    names = ("bottom-1-1", "bottom-1-2")
    return with_item(plan, "joints", "bottom-1/J1", scarf=None, pieces=names, cost=Decimal("3.50"))


def bottom_turned(plan):
    """Return the plan with the bottom a hundredth of a degree off the blank's length, which its panel tolerates."""
    cos, sin = math.cos(math.radians(-0.01)), math.sin(math.radians(-0.01))
    outline = tuple((400 + cos * x - sin * y, 611 + sin * x + cos * y) for x, y in BOTTOM)
    plan = with_panel(plan, "bottom", grain_tolerance=4.0)
    return with_item(plan, "pieces", "bottom-1-1", outline=outline, angle=-0.01)


def floor_across(plan):
    """Return the plan with nothing on the blank but the floor, square to it across its scarf."""
    others = [piece.id for piece in plan.pieces if piece.part != "floor"]
    plan = without(with_panel(plan, "floor", joint="ply"), "pieces", *others)
    floor = {"outline": lying(FLOOR, 2500, 10, 90), "x": 2500, "y": 10, "angle": 90}
    return with_item(plan.model_copy(update={"joints": (), "offcuts": ()}), "pieces", "floor-1-1", **floor)


def joint_in_the_floor(plan):
    """Return the plan with a joint told of in the floor, which lies off the scarf."""
    made = next(joint for joint in plan.joints if joint.part == "bottom")
    changes = {"id": "floor-1/J1", "part": "floor", "station": 500.0, "width": 300.0, "pieces": ("floor-1-1",)}
    plan = with_panel(plan, "floor", joint="ply")
    return plan.model_copy(update={"joints": (*plan.joints, made.model_copy(update=changes))})


def joint_told_twice(plan):
    """Return the plan with the joint of the bottom told of twice."""
    made = next(joint for joint in plan.joints if joint.part == "bottom")
    return plan.model_copy(update={"joints": (*plan.joints, made.model_copy(update={"id": "bottom-1/J2"}))})


MADE = {
    "a rule that nobody described": (
        lambda p: with_blank(p, joint="glue"),
        {"blank-rule", "wrong-area"},
    ),
    "a butt in a blank": (lambda p: with_blank(p, joint="strap"), {"blank-rule", "wrong-area"}),
    "a sheet that is not there": (lambda p: with_member(p, 1, used="S9"), {"unknown-id", "wrong-area"}),
    "a sheet with a knot": (faulty_member, {"blank-member"}),
    "an offcut": (member_from_the_rack, {"blank-member", "wrong-stock", "wrong-area"}),
    "a sheet end for end": (lambda p: with_member(p, 1, angle=180.0), {"blank-member"}),
    "a sheet on its face": (lambda p: with_member(p, 1, turned_over=True), {"blank-member"}),
    "a sheet with its factory edges": (
        lambda p: with_member(p, 1, outline=rectangle(0, 0, 2500, 1220)),
        {"blank-member"},
    ),
    "a sheet that crosses itself": (
        lambda p: with_member(p, 1, outline=((10, 10), (2490, 1210), (2490, 10), (10, 1210))),
        {"bad-polygon"},
    ),
    "sheets of unlike true thickness": (lambda p: with_sheet(p, "long", measured=5.0), {"blank-members-differ"}),
    "sheets of unlike material": (
        lambda p: with_sheet(p, "long", material="birch"),
        {"blank-members-differ", "wrong-material"},
    ),
    "sheets of unlike thickness": (
        lambda p: with_sheet(p, "long", thickness=6.5),
        {"blank-members-differ", "wrong-thickness"},
    ),
    "sheets of unlike width": (wider_member, {"blank-members-differ", "wrong-area"}),
    "one poorer sheet": (lambda p: with_sheet(p, "long", grade="exterior"), {"wrong-grade"}),
    "sheets that overlap by less than a lap": (lambda p: with_member(p, 1, x=2367.0), {"blank-lap"}),
    "sheets that overlap by more than a lap": (lambda p: with_member(p, 1, x=2365.0), {"blank-lap"}),
    "sheets that don't lie flush": (lambda p: with_member(p, 1, y=-9.0), {"blank-lap"}),
    "another outline": (lambda p: with_blank(p, outline=rectangle(0, 0, 4857, 1200)), {"blank-outline"}),
    "a blank longer than can be handled": (lambda p: with_workshop(p, longest_piece=4855), {"blank-too-long"}),
    "a scarf elsewhere": (lambda p: with_scarf(p, at=2399.0), {"blank-scarf"}),
    "a scarf of another lap": (lambda p: with_scarf(p, lap=48.0), {"blank-scarf"}),
    "a scarf of another slope": (lambda p: with_scarf(p, slope=7.0), {"blank-scarf"}),
    "a scarf in thicker stuff": (lambda p: with_scarf(p, thickness=6.0), {"blank-scarf"}),
    "a scarf of another width": (lambda p: with_scarf(p, width=1220.0), {"blank-scarf"}),
    "a scarf too many": (two_scarfs_told, {"blank-scarf", "wrong-count", "wrong-total"}),
    "a scarf that costs nothing": (scarf_for_nothing, {"blank-scarf-cost"}),
    "two scarfs of one name": (
        lambda p: with_blank(p, scarfs=p.blanks[0].scarfs * 2),
        {"same-id", "blank-scarf", "wrong-count", "wrong-total"},
    ),
    "a sheet in two blanks": (same_sheets_again, {"member-twice", "wrong-area", "wrong-count", "wrong-total"}),
    "a blank with the name of a sheet": (lambda p: with_blank(p, id="S1"), {"same-id", *LOST}),
}

LAID = {
    "a piece cut from a sheet in the blank": (
        lambda p: with_item(moved(p, "floor-1-1", 10, 10), "pieces", "floor-1-1", on="S1"),
        {"on-member"},
    ),
    "an offcut of a sheet in the blank": (
        lambda p: with_offcut(p, 0, on="S1", outline=rectangle(1005, 865, 2400, 1200)),
        {"on-member", "wrong-area"},
    ),
    "a piece without its allowance at the edge": (lambda p: moved(p, "side-1-1", 0, -0.5), {"outside-sheet"}),
    "pieces without their allowance between them": (lambda p: moved(p, "side-2-1", 0, -0.5), {"kerf-too-small"}),
    "pieces on one another": (lambda p: moved(p, "side-2-1", 0, -100), {"pieces-overlap"}),
    "an offcut too near to a piece": (
        lambda p: with_offcut(p, 0, outline=rectangle(1006, 864, 4857, 1199)),
        {"offcut-overlap", "offcut-misplaced"},
    ),
    "pieces of a divided panel": (
        bottom_divided,
        {"divided-on-blank", "wrong-way", "wrong-area", "wrong-total"},
    ),
    "a panel a hair off the length of the blank": (bottom_turned, {"wrong-grain", "scarf-askew"}),
    "a panel square to the blank": (
        floor_across,
        {"scarf-askew", "missing-copy", "wrong-total", "wrong-count", "wrong-area"},
    ),
    "a panel that ends within the scarf": (
        lambda p: moved(with_panel(p, "floor", joint="ply"), "floor-1-1", 1379, 0),
        {"scarf-cut-into", "offcut-overlap"},
    ),
    "a panel in one piece across the scarf": (
        lambda p: with_panel(p, "bottom", joint=None),
        {"joint-not-allowed"},
    ),
    "a panel of another rule across the scarf": (
        lambda p: with_panel(p, "bottom", joint="flat"),
        {"joint-not-allowed", "joint-rule", "no-joint-zone"},
    ),
    "a panel with straps across the scarf": (
        lambda p: with_panel(p, "bottom", joint="strap"),
        {"joint-not-allowed", "joint-kind", "no-joint-zone"},
    ),
}

CROSSED = {
    "a panel slid along the blank": (lambda p: moved(p, "side-1-1", 10, 0), {"joint-station"}),
    "a station measured from the other end": (
        lambda p: with_item(p, "joints", "side-2/J1", station=2203.0, width=200 + 2203 / 45),
        {"joint-station", "shift-too-small"},
    ),
    "a joint kept quiet": (lambda p: without(p, "joints", "side-1/J1"), {"joint-missing", "wrong-count"}),
    "a joint where the scarf is not": (joint_in_the_floor, {"joint-not-there", "wrong-count"}),
    "a joint told twice": (joint_told_twice, {"joint-not-there", "joint-spacing", "wrong-count"}),
    "a joint of its own": (
        lambda p: with_item(p, "joints", "side-1/J1", scarf=None),
        {"joint-missing", "joint-not-there"},
    ),
    "a joint of a scarf that is not there": (
        lambda p: with_item(p, "joints", "side-1/J1", scarf="B9/F1"),
        {"unknown-id", "joint-missing", "joint-not-there"},
    ),
    "a joint of another piece": (lambda p: with_item(p, "joints", "side-1/J1", pieces=("side-2-1",)), {"joint-pieces"}),
    "a joint of another lap": (lambda p: with_item(p, "joints", "side-1/J1", lap=48.0), {"joint-rule"}),
    "a joint of another width": (lambda p: with_item(p, "joints", "side-1/J1", width=300.0), {"joint-width"}),
    "a joint paid for twice": (
        lambda p: with_item(p, "joints", "side-1/J1", cost=Decimal("3.51")),
        {"joint-cost", "wrong-total"},
    ),
    "a zone under the scarf": (lambda p: with_panel(p, "bottom", no_joint=((2019.0, 3500.0),)), {"no-joint-zone"}),
    "an end too near to the scarf": (lambda p: with_rule(p, least_piece=1999.0), {"joint-spacing"}),
    "neighbours across one scarf": (
        lambda p: with_job(p, neighbours=(Neighbours(between=("bottom", "side"), shift=300),)),
        {"shift-too-small"},
    ),
}

TOLD = {
    "a scarf left out of the cost": (
        lambda p: with_way(with_totals(p, joint_cost=Decimal(0), objective=Decimal("169.00")), "joined", "169.00"),
        {"wrong-total"},
    ),
    "a wrong number of scarfs": (lambda p: with_totals(p, scarfs_of_blanks=3), {"wrong-count"}),
    "a lap left out of the areas": (
        lambda p: with_totals(p, areas=p.totals.areas.model_copy(update={"laps": 0.0})),
        {"wrong-area"},
    ),
    "a workshop that divides": (lambda p: with_workshop(p, way="divided"), {"wrong-way"}),
    "a cheaper way told of": (lambda p: with_way(p, "joined", "178.19"), {"wrong-ways"}),
    "a plan cheaper than every way": (lambda p: with_way(p, "joined", "178.21"), {"wrong-ways"}),
    "a way below the bound": (lambda p: with_way(p, "divided", "149.99"), {"wrong-ways"}),
    "a way told of twice": (lambda p: p.model_copy(update={"ways": p.ways * 2}), {"wrong-ways"}),
    "a proof among other plans": (
        lambda p: with_totals(p, bound_scope="divided", bound=Decimal("178.20"), proven=True),
        {"false-proof"},
    ),
}

DAMAGES = {**MADE, **LAID, **CROSSED, **TOLD}


@pytest.mark.parametrize("name", DAMAGES)
def test_a_spoilt_blank_is_found_out(name):
    """Each damage gives the findings that it deserves and no others."""
    damage, expected = DAMAGES[name]
    assert codes(damage(blank_plan())) == expected


def test_nothing_is_wrong_with_a_good_plan_from_a_blank():
    """With and without the job beside it, and read back from its file."""
    plan = blank_plan()
    assert audit(plan, blank_job()) == ()
    assert audit(type(plan).model_validate_json(plan.model_dump_json()), blank_job()) == ()


def test_a_panel_that_must_be_in_one_piece_may_touch_a_scarf():
    """The band runs from 2376 to 2420; the floor ends at 2376, and the offcut is given up."""
    plan = blank_plan().model_copy(update={"offcuts": ()})
    findings = audit(moved(plan, "floor-1-1", 1375, 0))
    assert {finding.code for finding in findings} == {"wrong-total", "wrong-area"}  # the offcut's


def test_a_way_may_cost_less_than_a_bound_on_another():
    """A bound on plans from blanks says nothing about divided ones."""
    plan = with_totals(blank_plan(), bound_scope="joined", bound=Decimal("178.20"), proven=True)
    cheaper = (*plan.ways[:1], Way(way="divided", objective=Decimal("100.00"), told="not our way"))
    assert codes(plan.model_copy(update={"ways": cheaper})) == set()


def test_a_finding_on_a_blank_names_it():
    """In the words of the plan."""
    (finding,) = audit(with_member(blank_plan(), 1, x=2367.0))
    assert str(finding) == (
        'blank "B1", sheet "S2": cut as it must be it begins at 2377, 0; with laps of 44 at 2376, 0 [blank-lap]'
    )
