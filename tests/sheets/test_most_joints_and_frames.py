"""How many joints a panel may have, and frames that they keep off, in every way of joining."""

from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchmarks.verification import faults
from nesting.auditing import audit
from nesting.effort import Budget, Effort
from nesting.model import Job, JobError, NoPlanError, Plan
from nesting.outlines import boat_station, no_joint_zones
from nesting.planner import plan
from tests.jobs import job, panel

WAYS = ("divided", "joined", "both")
#: Own stations 0 to 4400 are 300 to 4500 along the boat: a panel that slants.
ROWS = [[0, 300], [1000, 1250], [4400, 4500]]


def side(length: float, way: str, frames: Any = (), **more: Any) -> Job:
    """Return a job of two sides of a length that are divided, or cut from a blank, and name all frames."""
    named = [frame["name"] for frame in frames]
    sides = panel("side", length, 300, quantity=2, joint="scarf", **{"frames": named, **more})
    return job(sides, frames=frames, workshop={"way": way})


def planned(asked: Job) -> Plan:
    """Return a plan within a small budget; its audit has passed."""
    return plan(asked, effort=Effort(Budget(work=150)))


def changed(made: Plan, **more: Any) -> Plan:
    """Return a plan whose job, its panel changed, asks for something else."""
    panels = [{**each.model_dump(mode="json"), **more} for each in made.job.panels]
    return made.model_copy(update={"job": Job.model_validate({**made.job.model_dump(mode="json"), "panels": panels})})


@pytest.mark.parametrize("way", WAYS)
def test_no_panel_has_more_joints_than_it_may(way: str, tmp_path: Path) -> None:
    """4700 on sheets of 2420 takes one joint (4792 the most); two would do as well, and both checks would tell."""
    made = planned(side(4700, way, most_joints=1))
    assert [joint.part for joint in made.joints] == ["side", "side"]
    spoilt = changed(made, most_joints=0)
    assert "too-many-joints" in {finding.code for finding in audit(spoilt)}
    (tmp_path / "plan.json").write_text(spoilt.model_dump_json())
    assert "side 1 has 1 joints" in faults(tmp_path / "plan.json")


@pytest.mark.parametrize("way", WAYS)
def test_a_panel_that_takes_more_joints_is_refused_with_their_number(way: str) -> None:
    """5000 is more than 4792: two joints."""
    with pytest.raises(NoPlanError) as error:
        planned(side(5000, way, most_joints=1))
    (problem,) = error.value.problems
    assert problem.code == "no-station"
    assert "where it may have 1 joint at the most" in problem.reason
    assert "allow 2 joints (now 1), with 2 joints" in problem.remedy


def test_a_panel_of_no_joint_is_in_one_piece_or_refused() -> None:
    """As if it had no joint rule at all."""
    assert planned(side(2400, "both", most_joints=0)).joints == ()
    with pytest.raises(NoPlanError, match="allow 1 joint "):
        planned(side(2500, "both", most_joints=0))


@pytest.mark.parametrize("way", WAYS)
@pytest.mark.parametrize("rows", [[], ROWS])
def test_joints_keep_off_the_frames_that_a_panel_names(way: str, rows: list[Any], tmp_path: Path) -> None:
    """Frames at own stations 2050 and 2200, 30 clear: laps of 48 end below 2020, lie between, or begin above 2230."""
    at = [boat_station(own, rows) for own in (2050.0, 2200.0)]
    frames = [{"name": f"frame {k}", "station": station, "clear": 30} for k, station in enumerate(at)]
    made = planned(side(4400, way, frames, boat_stations=rows))
    assert made.joints
    for joint in made.joints:
        assert all(abs(joint.station - own) >= 24 + 30 - 1e-6 for own in (2050, 2200))
    near = min(abs(joint.station - own) for joint in made.joints for own in (2050, 2200))
    wider = [{**frame, "clear": near - 23} for frame in frames]
    spoilt = made.model_copy(update={"job": Job.model_validate({**made.job.model_dump(mode="json"), "frames": wider})})
    assert "no-joint-zone" in {finding.code for finding in audit(spoilt)}
    (tmp_path / "plan.json").write_text(spoilt.model_dump_json())
    assert any("no-joint zone" in wrong for wrong in faults(tmp_path / "plan.json"))


def test_a_panel_that_names_no_frame_does_not_keep_off_it() -> None:
    """Its joints may lie where they like."""
    frames = [{"name": "frame", "station": 2200, "clear": 2000}]
    sides = panel("side", 4400, 300, joint="scarf")
    assert planned(job(sides, frames=frames, workshop={"way": "divided"})).joints


def test_a_frame_in_the_way_of_every_joint_is_told_as_a_zone() -> None:
    """4400 takes a joint from 2004 to 2396 (computed); the frame leaves none, nor two."""
    frames = [{"name": "frame", "station": 2200, "clear": 1800}]
    with pytest.raises(NoPlanError, match="no-joint zones \\(400 to 4000 about"):
        planned(side(4400, "divided", frames))


def test_a_frame_that_is_not_there_is_refused() -> None:
    """With the name that was meant."""
    with pytest.raises(JobError, match=r'there is no frame "frame 3"\. Did you mean "frame 2"\?'):
        job(panel("side", 900, 300, frames=["frame 3"]), frames=[{"name": "frame 2", "station": 100}])


@given(st.floats(-500, 6000), st.floats(0, 300))
def test_a_zone_lies_about_the_frame_as_the_map_says(station: float, clear: float) -> None:
    """Its middle is the own station that is beside the frame; beyond the rows too."""
    panels = [panel("side", 4400, 300, frames=["frame"], boat_stations=ROWS, no_joint=[[1, 2]])]
    asked = job(*panels, frames=[{"name": "frame", "station": station, "clear": clear}])
    own, (low, high) = no_joint_zones(asked, asked.panels[0])
    assert own == (1, 2)
    assert boat_station((low + high) / 2, ROWS) == pytest.approx(station, abs=1e-6)
    assert high - low == pytest.approx(2 * clear, abs=1e-6)
