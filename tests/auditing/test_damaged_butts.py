"""What the audit says of a plan with butts, straps and a tolerated grain in which one thing was spoilt."""

from decimal import Decimal

import pytest

from nesting.auditing import audit
from nesting.model import Outline
from tests.auditing.good_butt_plan import KNOT, SIDE_HIGH, STRAP, butt_job, butt_plan, frame_at, rectangle
from tests.auditing.good_plan import lying, moved, with_item, with_job, with_panel, with_sheet, with_totals, without

PORT, STARBOARD = "side-1/J1/strap", "side-2/J1/strap"


def codes(plan, job=None):
    """Return the codes of all findings."""
    return {finding.code for finding in audit(plan, job)}


def with_piece(plan, name, **changes):
    """Return the plan with a piece or strap changed."""
    return with_item(plan, "pieces", name, **changes)


def with_rule(plan, **changes):
    """Return the plan with another rule for butts."""
    return with_job(plan, joints={**plan.job.joints, "strap": plan.job.joints["strap"].model_copy(update=changes)})


def with_frame(plan, piece):
    """Return the plan with the frame laid anew."""
    return plan.model_copy(update={"pieces": (*(p for p in plan.pieces if p.part != "frame"), piece)})


def second_strap(plan):
    """Return the plan with the port strap cut twice, a hand's breadth apart."""
    strap = next(piece for piece in plan.pieces if piece.id == PORT).model_copy(update={"id": f"{PORT}/2"})
    return moved(plan.model_copy(update={"pieces": (*plan.pieces, strap)}), strap.id, 100, 0)


def open_butt(plan):
    """Return the plan with the port side's far piece cut one short."""
    points = ((1801.0, 0.0), (3000.0, 0.0), (3000.0, 300.0), (1801.0, 200 + 1801 / 30))
    return with_piece(plan, "side-1-2", outline=lying(points, -1790, 536))


def overlapping_butt(plan):
    """Return the plan with the starboard side's far piece cut with a lap of 8."""
    points = ((1792.0, 0.0), (3000.0, 0.0), (3000.0, 300.0), (1792.0, 200 + 1792 / 30))
    plan = moved(plan, PORT, 20, 0)
    return with_piece(plan, "side-2-2", outline=lying(points, 3010, 839, 180, True))


def holed_side(plan):
    """Return the plan with a hole in the side under the strap, and nothing but the strap across it."""
    hole = rectangle(1820, 100, 1840, 120)
    high = next(piece for piece in plan.pieces if piece.id == "side-1-2")
    plan = with_panel(plan, "side", outline=Outline(points=plan.job.panels[0].outline.points, holes=(hole,)))
    plan = with_piece(plan, high.id, holes=(lying(hole, -1790, 536),))
    return with_piece(plan, "side-2-2", holes=(lying(hole, 3010, 839, 180, True),))


STRAPS = {
    "a strap that is missing": (lambda p: without(p, "pieces", PORT), {"strap-missing", "wrong-area"}),
    "a second strap": (second_strap, {"strap-too-many", "wrong-strap", "wrong-area"}),
    "a strap for no butt": (
        lambda p: with_piece(p, PORT, joint="side-9/J1"),
        {"strap-missing", "strap-too-many"},
    ),
    "a strap of another name": (lambda p: with_piece(p, PORT, id="strap"), {"wrong-strap"}),
    "a strap of another copy": (lambda p: with_piece(p, PORT, copy_number=2), {"wrong-strap"}),
    "a strap of another panel": (lambda p: with_piece(p, PORT, part="frame"), {"wrong-strap"}),
    "a strap of a panel nobody asked for": (
        lambda p: with_piece(p, PORT, part="keel"),
        {"wrong-strap", "unknown-part"},
    ),
    "a strap of the other hand": (
        lambda p: with_piece(p, PORT, hand="starboard"),
        {"wrong-strap", "strap-not-turned"},
    ),
    "a strap that was not turned over": (
        lambda p: with_piece(p, PORT, outline=lying(STRAP, -542, 640), y=640, mirrored=False),
        {"strap-not-turned"},
    ),
    "a strap said to be turned over that is not": (
        lambda p: with_piece(p, STARBOARD, mirrored=True),
        {"strap-not-turned", "not-congruent"},
    ),
    "a square strap": (
        lambda p: with_piece(p, PORT, outline=lying(rectangle(1755, 0, 1845, 260), -542, 900, 0, True)),
        {"not-congruent"},
    ),
    "a strap from beside the butt": (
        lambda p: with_piece(p, PORT, x=-532),
        {"not-congruent"},
    ),
    "a strap that crosses itself": (
        lambda p: with_piece(p, PORT, outline=((0, 0), (9, 9), (9, 0), (0, 9))),
        {"bad-polygon", "wrong-area"},
    ),
    "a strap across the grain": (
        lambda p: with_piece(p, PORT, outline=lying(STRAP, 1500, -1100, 90, True), x=1500, y=-1100, angle=90),
        {"wrong-grain"},
    ),
    "a strap over a knot on the back": (lambda p: moved(p, STARBOARD, 220, 170), {"on-fault"}),
    "a strap too near to a piece": (lambda p: moved(p, PORT, -0.5, 0), {"kerf-too-small"}),
    "a strap on a piece": (lambda p: moved(p, PORT, -20, 0), {"pieces-overlap"}),
    "a strap in the trim": (lambda p: moved(p, PORT, 1127.5, 0), {"outside-sheet"}),
    "a strap from nowhere": (lambda p: with_piece(p, PORT, on="B1"), {"unknown-id"}),
    "a strap of another material": (lambda p: with_sheet(p, "old", material="birch"), {"wrong-material"}),
    "straps left out of the areas": (
        lambda p: with_totals(p, areas=p.totals.areas.model_copy(update={"straps": 0.0})),
        {"wrong-area"},
    ),
}

BUTTS = {
    "a butt with a lap": (lambda p: with_item(p, "joints", "side-1/J1", lap=48.0), {"joint-rule"}),
    "a butt with a short strap": (lambda p: with_item(p, "joints", "side-1/J1", strap=80.0), {"joint-rule"}),
    "a rule of longer straps": (lambda p: with_rule(p, strap=20.0), {"joint-rule", "not-congruent", "no-joint-zone"}),
    "a butt with a slope": (lambda p: with_item(p, "joints", "side-1/J1", slope=8.0), {"joint-kind"}),
    "a butt told as a scarf": (
        lambda p: with_item(p, "joints", "side-1/J1", kind="scarf"),
        {"joint-kind", "strap-too-many"},
    ),
    "butts where scarfs are asked for": (
        lambda p: with_panel(p, "side", joint="ply"),
        {"joint-kind", "joint-cost", "lap-short", "not-congruent"},
    ),
    "a butt that stays open": (open_butt, {"butt-open", "not-congruent", "not-whole", "wrong-area"}),
    "a butt that overlaps": (overlapping_butt, {"butt-open", "not-congruent", "wrong-area"}),
    "a strap that reaches into a zone": (
        lambda p: with_panel(p, "side", no_joint=((1000.0, 1756.0),)),
        {"no-joint-zone"},
    ),
    "a strap over a hole": (holed_side, {"lap-not-plain", "not-congruent", "wrong-area"}),
    "a butt too near to an end": (lambda p: with_rule(p, least_piece=1201.0), {"joint-spacing"}),
    "a butt that costs something else": (
        lambda p: with_item(p, "joints", "side-1/J1", cost=Decimal("3.50")),
        {"joint-cost", "wrong-total"},
    ),
    "a workshop that joins first": (
        lambda p: with_job(p, workshop=p.job.workshop.model_copy(update={"way": "joined"})),
        {"wrong-way"},
    ),
    "a grain further off than tolerated": (lambda p: with_frame(p, frame_at(4.01)), {"wrong-grain"}),
    "a grain off where nothing is tolerated": (
        lambda p: with_panel(p, "frame", grain_tolerance=0.0),
        {"wrong-grain"},
    ),
}

DAMAGES = {**STRAPS, **BUTTS}


@pytest.mark.parametrize("name", DAMAGES)
def test_a_spoilt_butt_is_found_out(name):
    """Each damage gives the findings that it deserves and no others."""
    damage, expected = DAMAGES[name]
    assert codes(damage(butt_plan())) == expected


def test_nothing_is_wrong_with_a_good_plan_of_butts():
    """With and without the job beside it, and read back from its file."""
    plan = butt_plan()
    assert audit(plan, butt_job()) == ()
    assert audit(type(plan).model_validate_json(plan.model_dump_json()), butt_job()) == ()


@pytest.mark.parametrize("degrees", [-4, 0, 4, 180, 184, 356])
def test_a_piece_may_lie_off_the_grain_by_what_is_tolerated(degrees):
    """Four degrees either way, and end for end; what runs off the sheet or onto the strap is another matter."""
    assert "wrong-grain" not in codes(with_frame(butt_plan(), frame_at(degrees)))


def test_a_piece_may_lie_on_a_knot_that_is_not_seen_where_a_strap_may_not():
    """The frame shows its good face only; the knot is on the back."""
    plan = moved(butt_plan(), "frame-1-1", 100, 230)
    frame = next(piece for piece in plan.pieces if piece.part == "frame")
    assert min(x for x, _ in frame.outline) < KNOT[0][0] < max(x for x, _ in frame.outline)
    assert audit(plan) == ()


def test_the_pieces_of_a_butt_have_no_lap():
    """The far piece begins where the near one ends."""
    assert SIDE_HIGH[0][0] == 1800.0
