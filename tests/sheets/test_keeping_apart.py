"""Joints of several panels that keep apart: found wherever they exist, and otherwise the fewest facts that clash."""

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from nesting.auditing import audit
from nesting.effort import Budget, Effort
from nesting.joints import Reach, boat_station, stations_hold
from nesting.model import NoPlanError
from nesting.planner import plan
from nesting.sheets.clash_told import clash_told
from nesting.sheets.keeping_apart import Divided, Panels, is_impossible, stations_apart
from nesting.sheets.refusing_neighbours import clashing
from nesting.sheets.tasks import tasks_of
from tests.jobs import PLY, SCARF, job, panel

DIVIDED = {"way": "divided"}


def told(**more: object) -> str:
    """Return why two panels 4780 long, with shift 250 between their joints, can't be made."""
    sides = [panel(name, 4780, 300, joint="scarf") for name in ("bilge", "sheer")]
    asked = job(*sides, neighbours=[{"between": ["bilge", "sheer"], "shift": 250}], workshop=DIVIDED, **more)
    with pytest.raises(NoPlanError) as error:
        plan(asked, effort=Effort(Budget(work=100)))
    return str(error.value)


def test_two_panels_whose_joints_can_only_be_in_one_place_are_told_with_what_helps() -> None:
    """One joint lies from 2384 to 2396, 12 of play; two need pieces of 1600 or more, and 4780 has no three (computed).

    A shift of 12 holds; pieces of 1594 leave two joints 1593 from the ends, 790 from the one.
    """
    message = told(joints={"scarf": {**SCARF, "least_piece": 1600}})
    assert 'joints of "bilge" and "sheer" are 250 apart' in message
    assert 'pieces of "bilge", 4780 long, are 2420 at the most' in message
    assert 'pieces of "sheer", 4780 long, are 2420 at the most' in message
    assert "no-joint" not in message
    assert 'let joints of "bilge" and "sheer" be 12 apart' in message
    assert 'allow pieces of 1593 in "sheer"' in message


def test_rules_that_have_no_part_in_a_clash_are_not_told() -> None:
    """A zone near an end, and a neighbour with much play: without either the others clash as before."""
    asked = job(
        panel("bilge", 4780, 300, joint="scarf", no_joint=[[100, 300]]),
        panel("sheer", 4780, 300, joint="scarf"),
        panel("deck", 3000, 300, joint="short"),
        neighbours=[
            {"between": ["bilge", "sheer"], "shift": 250},
            {"between": ["sheer", "deck"], "shift": 30},
        ],
        joints={"scarf": {**SCARF, "least_piece": 1600}, "short": {**SCARF, "least_piece": 400}},
        workshop=DIVIDED,
    )
    reason = clashing(asked, tasks_of(asked)[0].parts, "divided").reason
    assert 'joints of "bilge" and "sheer" are 250 apart' in reason
    assert "100 to 300" not in reason
    assert "deck" not in reason.partition("That is proven")[0]


def test_nothing_is_called_proven_where_a_piece_that_leans_might_be_longer() -> None:
    """By hand: true, joints have 2 x 2420 - 48 - 4780 = 12 of play.

    Turned by 4 degrees a piece 300 high reaches (2420 + 300 sin 4) / cos 4 = 2447 along the panel at the most: 66 of
    play. That no piece of this shape does is not looked at, so for a shift of 50 nothing is proven.
    """
    for tolerance, proven in ((0, True), (4, False)):
        sides = [panel(name, 4780, 300, joint="scarf", grain_tolerance=tolerance) for name in ("bilge", "sheer")]
        pair = [{"between": ["bilge", "sheer"], "shift": 50}]
        rules = {"scarf": {**SCARF, "least_piece": 1600}}
        asked = job(*sides, neighbours=pair, joints=rules, workshop=DIVIDED)
        reason = clashing(asked, tasks_of(asked)[0].parts, "divided").reason
        assert ("That is proven" in reason) == proven
        assert ("no stations were found" in reason) != proven


def test_nothing_is_called_proven_where_blanks_of_thinner_sheets_have_shorter_laps() -> None:
    """By hand: laps of 12 x 6 leave joints 4840 - 72 - 4740 = 28 of play, laps of 12 x 5.2 = 62.4 leave 37.6."""
    sheets = (PLY, {**PLY, "name": "thin", "measured": 5.2})
    for way, proven in (("divided", True), ("both", False)):
        asked = job(
            *(panel(name, 4740, 300, joint="scarf") for name in ("bilge", "sheer")),
            sheets=sheets,
            neighbours=[{"between": ["bilge", "sheer"], "shift": 34}],
            joints={"scarf": {**SCARF, "slope": 12, "least_piece": 1600}},
            workshop={"way": way},
        )
        reason = clashing(asked, tasks_of(asked)[0].parts, "divided").reason
        assert ("That is proven" in reason) == proven


def test_stations_that_none_of_the_likely_ones_hit_are_found() -> None:
    """Three joints each, zones and a shift of 650: the few stations that are tried first all clash."""
    asked = job(
        panel("a", 9350, 250, joint="scarf", no_joint=[[3698, 4020], [5127, 5580]]),
        panel("b", 9050, 250, joint="scarf", no_joint=[[7845, 8160], [6754, 7126]]),
        neighbours=[{"between": ["a", "b"], "shift": 650}],
        workshop=DIVIDED,
    )
    made = plan(asked, effort=Effort(Budget(work=100)))
    assert audit(made, made.job) == ()
    a, b = ([joint.station for joint in made.joints if joint.part == name] for name in "ab")
    assert min(abs(s - t) for s, t in product(a, b)) >= 650


@st.composite
def two_panels(draw: st.DrawFn) -> Panels:
    """Draw two panels of one to three joints, some with a zone, some with a map to boat stations."""
    reaches, maps = [], []
    for _ in range(2):
        length = draw(st.integers(2500, 6000))
        start = draw(st.integers(0, length - 300))
        zones = [(start, start + draw(st.integers(50, 1200)))] if draw(st.booleans()) else []
        reaches.append(
            Reach(start=0, end=length, lap=48, usable=2420, least_piece=draw(st.integers(100, 1500)), zones=zones)
        )
        middle = draw(st.integers(1000, 1500))
        rows = ((0.0, 100.0), (middle, 1400.0), (length, draw(st.integers(2000, 7000))))
        maps.append(rows if draw(st.booleans()) else ())
    shift = draw(st.integers(0, 900))
    return Panels(names=("one", "other"), reaches=tuple(reaches), maps=tuple(maps), shifts=((0, 1, shift),))


@settings(max_examples=25, deadline=None)
@given(two_panels())
def test_stations_found_keep_every_rule(panels: Panels) -> None:
    """And where none are found to the millimetre there may be some between, but what is called impossible has none."""
    found = stations_apart(panels, panels.most_joints)
    if found is None:
        return
    assert not is_impossible(panels, panels.most_joints)
    assert all(stations_hold(stations, reach) for stations, reach in zip(found, panels.reaches, strict=True))
    along = [[boat_station(s, rows) for s in at] for at, rows in zip(found, panels.maps, strict=True)]
    assert all(abs(s - t) >= panels.shifts[0][2] - 1e-6 for s, t in product(*along))


@settings(max_examples=8, deadline=None)
@given(two_panels())
def test_what_clashes_is_told_only_where_it_is_proven(panels: Panels) -> None:
    """A problem names facts, and stations exist wherever none is told; both can't be."""
    problem = clash_told(panels, Divided(panels.names, panels.most_joints, (0.0, 0.0), (0.0, 0.0)))
    assert (problem is not None) == is_impossible(panels, panels.most_joints)
    if problem is not None:
        assert stations_apart(panels, panels.most_joints) is None
        assert problem.reason.startswith("no joints can keep all of these: ")
