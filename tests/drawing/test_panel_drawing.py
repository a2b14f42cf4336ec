"""The drawing of one whole part with its joints and its neighbours'."""

import pytest
from good_blank_plan import blank_plan
from good_butt_plan import butt_plan
from sample_plan import BILGE, GUNWALE, TRANSOM, bilge, sample_plan
from svg_reading import group_of, lines_of, named, points_of, root_of, words_of

from nesting.drawing import draw_panel, jointed_parts
from nesting.model import Neighbours

PLAN = sample_plan()
WHOLE = root_of(draw_panel(PLAN, BILGE))


def with_neighbours(plan, *pairs):
    """Return a plan whose job names these neighbours."""
    neighbours = tuple(Neighbours(between=between, shift=shift) for between, shift in pairs)
    return plan.model_copy(update={"job": plan.job.model_copy(update={"neighbours": neighbours})})


def xs_of(group, kind):
    """Return the x of every line of a kind."""
    return {round(x, 1) for run in lines_of(group, kind) for x, _ in run}


def test_parts_with_joints_are_those_to_draw():
    """The transom is in one piece."""
    assert jointed_parts(PLAN) == (BILGE, GUNWALE)


def test_a_divided_panel_is_drawn_whole():
    """Its outline is that of the job, though it is cut in two pieces."""
    (ring,) = points_of(named(WHOLE, BILGE))
    assert [value for point in ring for value in point] == pytest.approx(
        [value for point in bilge().exterior.coords[:-1] for value in point], abs=0.01
    )


def test_a_joint_shows_its_lap_its_middle_and_the_line_on_the_good_face():
    """Station 1900, lap 48: from 1876 to 1924, the glue line on the good face at the high end."""
    joint = group_of(WHOLE, "joint", "J1 J2")
    assert xs_of(joint, "hidden") == {1876}
    assert xs_of(joint, "feather") == {1924}
    assert 1900 in xs_of(WHOLE, "station")
    assert "J1 J2 at 1900" in words_of(WHOLE)


def test_stations_are_given_with_those_of_the_boat():
    """The panel's 300 is the boat's 400."""
    words = words_of(WHOLE)
    assert {"0", "(100)", "300", "(400)", "3600", "(3700)"} <= {*words}


def test_a_neighbour_without_joints_is_told_so():
    """The transom has none."""
    assert f"{TRANSOM}: no joint" in words_of(WHOLE)


def test_neighbours_joints_stand_where_the_boat_has_them():
    """Of the butt plan two panels: own station 1800 of one is drawn along the other by the boat's stations."""
    plan = butt_plan()
    side, other = plan.job.panels[0], plan.job.panels[1]
    assert side.name in jointed_parts(plan)
    root = root_of(draw_panel(with_neighbours(plan, ((side.name, other.name), 300)), other.name))
    beside = group_of(root, "beside", side.name)
    assert 1800 in xs_of(beside, "station")
    bar = {x for run in lines_of(beside, "dimension") for x, _ in run}
    assert {1755, 1845} <= bar


def test_copies_of_a_strip_are_held_against_each_other_and_not_against_themselves():
    """Both gunwales are joined at 2880: nothing apart, though 500 is asked."""
    plan = with_neighbours(PLAN, ((GUNWALE, GUNWALE), 500))
    words = words_of(root_of(draw_panel(plan, GUNWALE)))
    assert f"{GUNWALE}, copy 1: J3 is 0 from J3 J4, at least 500 asked" in words
    alone = plan.model_copy(update={"joints": tuple(joint for joint in plan.joints if joint.id != "gunwale-2")})
    assert f"{GUNWALE}, copy 1: alone" in words_of(root_of(draw_panel(alone, GUNWALE)))


def test_a_zone_is_named_with_its_stations():
    """Two lines across the panel, and words below it."""
    panels = tuple(
        panel.model_copy(update={"no_joint": ((600.0, 900.0),)} if panel.name == BILGE else {})
        for panel in PLAN.job.panels
    )
    root = root_of(draw_panel(PLAN.model_copy(update={"job": PLAN.job.model_copy(update={"panels": panels})}), BILGE))
    assert "no joint 600 to 900" in words_of(root)
    assert xs_of(group_of(root, "zone", "no joint from 600 to 900"), "zone") == {600, 900}


def test_a_panel_turned_round_on_its_blank_shows_its_line_at_the_other_end():
    """Of the port side the line shows at 2319; where a copy lies the other way it shows at the low end of the lap."""
    plan = blank_plan()
    root = root_of(draw_panel(plan, plan.joints[0].part))
    assert 2319 in xs_of(group_of(root, "joint", "J1"), "feather")
    assert 2275 in xs_of(group_of(root, "joint", "J2"), "feather")


def test_a_part_that_is_not_asked_for_is_refused_by_name():
    """Asking for it says which."""
    with pytest.raises(ValueError, match="no part mast"):
        draw_panel(PLAN, "mast")


def test_the_same_plan_gives_the_same_drawing():
    """Two drawings of two equal plans are equal."""
    assert draw_panel(sample_plan(), BILGE) == draw_panel(PLAN, BILGE)
