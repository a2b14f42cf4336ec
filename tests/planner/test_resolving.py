"""A resolved job holds clean polygons and nothing else to look up, or says all that is wrong with its outlines."""

import hashlib
import json
import math
from collections.abc import Sequence
from typing import Any

import pytest
from hypothesis import given, settings
from shapely.geometry import Polygon
from shapely.geometry.polygon import orient

from nesting.model import Job, JobError, Outline
from nesting.planner import job_sha256, resolved
from tests.jobs import PLY, job, panel
from tests.planner.random_jobs import Table, job_of, jobs

#: Crosses itself in the middle, and does not.
BOW_TIE = [[0, 0], [300, 200], [300, 0], [0, 200]]
CLOCKWISE = [[0, 0], [0, 200], [300, 200], [300, 0]]
ROUND_END = [[0, 0], [300, 0, 1], [300, 200], [0, 200]]


def shaped(name: str, points: Sequence[Sequence[float]], **more: Any) -> dict[str, Any]:
    """Return a panel of a given outline."""
    return {**panel(name, 1, 1), "outline": {"points": points, **more}}


def outline(asked: Job, index: int = 0) -> Outline:
    """Return the outline of a panel of the resolved job."""
    return resolved(asked).panels[index].outline


def wrong(asked: Job) -> JobError:
    """Return what is said of a job that can't be resolved."""
    with pytest.raises(JobError) as error:
        resolved(asked)
    return error.value


def test_an_arc_becomes_chords_within_a_twentieth_of_a_millimetre() -> None:
    """A half circle of radius 100 at the end: its area is within the sag of pi r2 / 2, its points lie on the arc."""
    flat = outline(job(shaped("seat", ROUND_END)))
    assert all(len(point) == 2 for point in flat.points)
    on_arc = [point for point in flat.points if point[0] > 300]
    assert len(on_arc) > 20
    assert all(math.dist(point, (300, 100)) == pytest.approx(100) for point in on_arc)
    missing = 300 * 200 + math.pi * 100**2 / 2 - Polygon(flat.points).area
    assert 0 < missing < 0.05 * math.pi * 100


def test_a_clockwise_outline_is_turned_round_and_its_holes_run_the_other_way() -> None:
    """Outer rings anticlockwise, holes clockwise, wherever they were drawn otherwise."""
    hole = [[100, 50], [150, 50], [150, 100], [100, 100]]
    flat = outline(job(shaped("seat", CLOCKWISE, holes=[hole])))
    assert Polygon(flat.points).exterior.is_ccw
    assert not Polygon(flat.holes[0]).exterior.is_ccw
    assert Polygon(flat.points, flat.holes).area == 300 * 200 - 50 * 50


def test_marks_travel_with_the_outline() -> None:
    """They are left as they were drawn."""
    marks = [{"points": [[10, 10], [20, 10]], "text": "frame 2"}]
    assert outline(job(shaped("seat", CLOCKWISE, marks=marks))).marks[0].text == "frame 2"


def test_an_offcut_and_its_faults_are_cleaned_too() -> None:
    """A round-ended offcut and a clockwise fault; a whole sheet keeps its size."""
    old = {**PLY, "name": "old", "outline": {"points": ROUND_END}, "faults": [{"points": [[9, 9], [9, 20], [20, 9]]}]}
    del old["size"]
    whole, offcut = resolved(job(panel("seat", 100, 100), sheets=(PLY, old))).sheets
    assert (whole.size, whole.outline) == ((2440, 1220), None)
    assert offcut.outline is not None
    assert all(len(point) == 2 for point in offcut.outline.points)
    assert Polygon(offcut.faults[0].points).exterior.is_ccw


def test_everything_wrong_is_told_at_once_with_the_part_and_the_place() -> None:
    """Two panels, an offcut, a fault and a sheet that the trim takes: five problems, each with its path."""
    old = {**PLY, "name": "old", "outline": {"points": BOW_TIE}}
    spotted = {**PLY, "name": "spotted", "faults": [{"points": [[0, 0], [9, 0], [9, 9]]}, {"points": BOW_TIE}]}
    sliver = {**PLY, "name": "sliver", "size": [900, 20]}
    del old["size"]
    flat = shaped("flat", [[0, 0], [100, 0], [200, 0]])
    error = wrong(job(shaped("tie", BOW_TIE), panel("seat", 9, 9), flat, sheets=(PLY, old, spotted, sliver)))
    assert [(problem.code, problem.where, problem.path) for problem in error.problems] == [
        ("self-crossing", 'panel "tie", outline', ("panels", 0, "outline")),
        ("no-area", 'panel "flat", outline', ("panels", 2, "outline")),
        ("self-crossing", 'sheet "old", outline', ("sheets", 1, "outline")),
        ("self-crossing", 'sheet "spotted", fault no. 2', ("sheets", 2, "faults", 1)),
        ("trimmed-away", 'sheet "sliver"', ("sheets", 3)),
    ]
    assert all(problem.reason and problem.remedy for problem in error.problems)


def test_an_untrimmed_sliver_is_a_sheet_like_any_other() -> None:
    """Only the trim takes it away."""
    sliver = {**PLY, "size": [900, 20]}
    assert resolved(job(panel("batten", 900, 20), sheets=(sliver,), workshop={"trim": 0})).sheets[0].size == (900, 20)


@settings(max_examples=25)
@given(jobs())
def test_a_resolved_job_resolves_to_itself(table: Table) -> None:
    """And each outline is the polygon that it was, arcs apart."""
    once = resolved(job_of(table))
    assert resolved(once) == once
    for part in once.panels:
        shape = Polygon(part.outline.points, part.outline.holes)
        assert shape.is_valid
        assert shape.equals_exact(orient(shape))


def test_the_hash_is_of_the_canonical_json() -> None:
    """Keys sorted, no spaces, UTF-8; worked out here once more."""
    asked = job(panel("planche à voile", 300, 200))
    text = json.dumps(asked.model_dump(mode="json"), sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    assert "planche à voile" in text
    assert job_sha256(asked) == hashlib.sha256(text.encode("utf-8")).hexdigest()


@settings(max_examples=25)
@given(jobs())
def test_equal_jobs_have_the_same_hash_in_whatever_order_their_keys_stand(table: Table) -> None:
    """Joints and keys turned about; also after a round trip through JSON."""
    asked = job_of(table)
    turned = job_of(dict(reversed(table.items())) | {"joints": dict(reversed(table["joints"].items()))})
    assert job_sha256(turned) == job_sha256(asked)
    assert job_sha256(Job.model_validate_json(asked.model_dump_json())) == job_sha256(asked)


def test_another_job_has_another_hash() -> None:
    """One tenth of a millimetre is enough."""
    assert job_sha256(job(panel("seat", 300, 200))) != job_sha256(job(panel("seat", 300.1, 200)))
