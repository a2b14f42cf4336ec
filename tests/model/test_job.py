"""Whether the parts of a job agree with one another."""

from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from nesting.model import AuditError, Job, JobError, NestingError, NoPlanError, Panel, Problem, suggestion
from tests.strategies import panels


def _panel(name: str = "bilge", **more: Any) -> dict[str, Any]:
    return {"name": name, "material": "gaboon", "thickness": 6, "outline": {"rectangle": [4350, 300]}, **more}


def _strip(name: str = "gunwale", **more: Any) -> dict[str, Any]:
    return {"name": name, "material": "spruce", "section": [45, 20], "length": 4350, **more}


def _given(**changes: Any) -> dict[str, Any]:
    """A small job in which all is well, with some of it replaced."""
    return {
        "title": "Rowing skiff",
        "grades": ["exterior", "marine"],
        "workshop": {"kerf": 2.0, "longest_piece": 5000},
        "joints": {"plywood": {"slope": 8, "cost": {"each": "2.00", "per_m": 6.0}}, "timber": {"slope": 10}},
        "sheets": [
            {"name": "marine 6 mm", "material": "gaboon", "grade": "marine", "thickness": 6, "size": [2440, 1220]},
            {"name": "offcut", "material": "gaboon", "thickness": 6, "outline": {"points": [[0, 0, 1], [9, 0, 1]]}},
        ],
        "panels": [_panel(handed=True, quantity=2, grade="marine", joint="plywood"), _panel("sheer")],
        "neighbours": [{"between": ["bilge", "sheer"], "shift": 250}],
        "lengths": [{"name": "spruce 3.6 m", "material": "spruce", "section": [45, 20], "length": 3600, "price": 9.8}],
        "strips": [_strip(joint="timber", quantity=4)],
        **changes,
    }


def _problems(**changes: Any) -> tuple[Problem, ...]:
    with pytest.raises(JobError) as refused:
        Job.model_validate(_given(**changes))
    return refused.value.problems


def test_a_job_in_which_all_is_well_is_taken() -> None:
    """Parts are found by name, grades rank from poor to good."""
    job = Job.model_validate(_given())
    assert job.panel("sheer").outline.points[2] == (4350, 300)
    assert job.strip("gunwale").quantity == 4
    assert [job.rank(grade) for grade in (None, "exterior", "marine")] == [0, 0, 1]


def test_a_job_survives_json() -> None:
    """The same job is read, and the same bytes are written again; amounts are texts with two decimals."""
    job = Job.model_validate(_given())
    text = job.model_dump_json()
    assert Job.model_validate_json(text) == job
    assert Job.model_validate_json(text).model_dump_json() == text
    assert '"price":"9.80"' in text


@given(panels(), panels(name="sheer"))
def test_any_job_of_sound_panels_survives_json(one: Panel, other: Panel) -> None:
    """To the last bit of every point."""
    job = Job(panels=(one, other))
    assert Job.model_validate_json(job.model_dump_json()) == job


@pytest.mark.parametrize(
    ("changes", "code", "path"),
    [
        ({"panels": [], "strips": [], "neighbours": []}, "no-parts", ()),
        ({"strips": [_strip(), _strip("sheer")]}, "same-name", ("panels", 1, "name")),
        ({"grades": ["exterior"], "sheets": []}, "unknown-grade", ("panels", 0, "grade")),
        ({"strips": [_strip(joint="tinber")]}, "unknown-joint", ("strips", 0, "joint")),
        ({"panels": [_panel(handed=True, quantity=3), _panel("sheer")]}, "odd-pair", ("panels", 0, "quantity")),
        ({"strips": [_strip(no_joint=[[100, 200], [900, 900]])]}, "empty-zone", ("strips", 0, "no_joint")),
        ({"strips": [_strip(no_joint=[[900, 100]])]}, "empty-zone", ("strips", 0, "no_joint")),
        *(
            ({"panels": [_panel(boat_stations=rows), _panel("sheer")]}, "boat-stations", ("panels", 0, "boat_stations"))
            for rows in ([[0, 150]], [[0, 150], [0, 300]], [[0, 150], [100, 150]], [[0, 9], [1, 8]])
        ),
        ({"neighbours": [{"between": ["bilge", "bilge"], "shift": 9}]}, "own-neighbour", ("neighbours", 0, "between")),
        (
            {"neighbours": [{"between": ["bilge", "shear"], "shift": 9}]},
            "unknown-neighbour",
            ("neighbours", 0, "between"),
        ),
        (
            {"neighbours": [{"between": ["gunwale", "gunwale"], "shift": 9}], "strips": [_strip(quantity=1)]},
            "own-neighbour",
            ("neighbours", 0, "between"),
        ),
        (
            {"neighbours": [{"between": ["gunwale", "sheer"], "shift": 9}]},
            "unlike-neighbours",
            ("neighbours", 0, "between"),
        ),
    ],
)
def test_each_disagreement_has_its_code_and_place(
    changes: dict[str, Any], code: str, path: tuple[str | int, ...]
) -> None:
    """The first problem named is the one that was made, with place, reason and remedy."""
    first = _problems(**changes)[0]
    assert (first.code, first.path) == (code, path)
    assert first.where
    assert first.reason
    assert first.remedy


def test_all_disagreements_are_told_at_once() -> None:
    """Nobody wants to mend a job one message at a time."""
    problems = _problems(
        grades=["exterior"],
        panels=[_panel(handed=True, joint="plywod"), _panel("sheer", no_joint=[[2, 1]])],
        strips=[_strip(), _strip()],
    )
    codes = [problem.code for problem in problems]
    assert codes == ["same-name", "same-name", "unknown-grade", "unknown-joint", "odd-pair", "empty-zone"]


def test_a_word_that_is_nearly_known_is_suggested() -> None:
    """Did you mean, else what to do."""
    assert suggestion("plywod", ["plywood", "timber"], "Add it.") == 'Did you mean "plywood"?'
    assert suggestion("glue", ["plywood", "timber"], "Add it.") == "Add it."
    assert '"sheer"' in _problems(neighbours=[{"between": ["bilge", "shear"], "shift": 9}])[0].remedy


def test_a_problem_reads_as_one_line_and_keeps_its_first_place() -> None:
    """File and line are added where known, by whoever knows them first."""
    problem = Problem(code="odd-pair", where='panel "bilge"', reason="its quantity is 3", remedy="Make it even.")
    assert str(problem) == 'panel "bilge": its quantity is 3. Make it even. [odd-pair]'
    placed = problem.at(Path("skiff.toml"), 12)
    assert str(placed) == 'skiff.toml:12: panel "bilge": its quantity is 3. Make it even. [odd-pair]'
    assert placed.at(Path("other.toml"), 99) == placed
    assert str(problem.at(Path("skiff.toml"), None)).startswith('skiff.toml: panel "bilge"')


@pytest.mark.parametrize(("error", "status"), [(JobError, 2), (NoPlanError, 3)])
def test_an_error_carries_its_problems_and_exit_status(error: type[JobError | NoPlanError], status: int) -> None:
    """One problem or several, all in the message."""
    one = Problem(code="a", where="job", reason="one", remedy="Do.")
    two = Problem(code="b", where="job", reason="two", remedy="Do.")
    assert error(one).problems == (one,)
    assert str(error([one, two])) == f"{one}\n{two}"
    assert (error.exit_status, issubclass(error, NestingError)) == (status, True)
    assert (AuditError.exit_status, issubclass(AuditError, NestingError)) == (1, True)


@given(st.integers(1, 30))
def test_a_pair_is_even_and_nothing_else_is_asked_of_it(quantity: int) -> None:
    """Quantity counts finished parts, port and starboard together."""
    asked = _given(panels=[_panel(handed=True, quantity=quantity), _panel("sheer")])
    if quantity % 2:
        with pytest.raises(JobError):
            Job.model_validate(asked)
    else:
        assert Job.model_validate(asked).panel("bilge").quantity == quantity
