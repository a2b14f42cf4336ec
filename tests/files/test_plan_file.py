"""Plans written to a file and read back."""

import json
from pathlib import Path

import pytest

from nesting.effort import Budget, Effort
from nesting.files import plan_json, read_plan
from nesting.model import JobError, Plan, Problem
from nesting.planner import plan
from tests.jobs import job, panel

LENGTH = {"name": "spruce", "material": "spruce", "section": [45, 20], "length": 2500, "price": "9.80"}
STRIP = {"name": "gunwale", "material": "spruce", "section": [45, 20], "length": 3000, "joint": "scarf"}


@pytest.fixture(scope="module")
def made() -> Plan:
    """Return a plan with sheets, timber, joints and a name beyond ASCII."""
    asked = job(
        panel("Süll", 2600, 200, joint="scarf", quantity=2, handed=True),
        lengths=[LENGTH],
        strips=[STRIP],
        title="Jölle",
    )
    return plan(asked, effort=Effort(Budget(work=0)))


def the_problem(folder: Path, text: str) -> Problem:
    """Return the one problem with which a plan file is refused."""
    file = folder / "plan.json"
    file.write_text(text, encoding="utf-8")
    with pytest.raises(JobError) as refusal:
        read_plan(file)
    (problem,) = refusal.value.problems
    assert problem.file == file
    return problem


def test_a_plan_read_back_is_the_same_and_writes_the_same_bytes(tmp_path: Path, made: Plan) -> None:
    """Money, floats and names come through."""
    file = tmp_path / "plan.json"
    file.write_text(plan_json(made), encoding="utf-8")
    again = read_plan(file)
    assert again == made
    assert plan_json(again).encode() == file.read_bytes()


def test_money_is_written_as_text_and_measures_as_numbers(made: Plan) -> None:
    """A reader in any language keeps the cents."""
    data = json.loads(plan_json(made))
    assert data["totals"]["to_pay"] == f"{made.totals.to_pay:.2f}"
    assert data["job"]["sheets"][0]["price"] == "84.00"
    assert isinstance(data["job"]["sheets"][0]["thickness"], float)


@pytest.mark.parametrize("text", ["", "{", "[]", "null", "{}", "[" * 5000, '{"format": "nesting-plan"}', "nesting"])
def test_what_is_no_plan_is_refused_with_one_message(tmp_path: Path, text: str) -> None:
    """However much is missing, it is one thing that is wrong."""
    found = the_problem(tmp_path, text)
    assert found.code == "not-a-plan"
    assert "\n" not in str(found)


@pytest.mark.parametrize(
    ("key", "value", "where"),
    [
        ("version", 2, "version"),
        ("format", "other-plan", "format"),
        ("seed", "none", "seed"),
        ("pieces", [{"kind": "panel"}], "pieces, 0"),
        ("totals", {}, "totals"),
        ("radio", 1, "radio"),
        ("job_sha256", None, "job_sha256"),
    ],
)
def test_a_damaged_plan_is_refused_where_it_is_damaged(
    tmp_path: Path, made: Plan, key: str, value: object, where: str
) -> None:
    """The place is named."""
    data = json.loads(plan_json(made))
    data[key] = value
    found = the_problem(tmp_path, json.dumps(data))
    assert (found.code, found.where[: len(where)]) == ("not-a-plan", where)


def test_a_cut_off_plan_is_refused(tmp_path: Path, made: Plan) -> None:
    """As a full disk leaves it."""
    text = plan_json(made)
    assert the_problem(tmp_path, text[: len(text) // 2]).code == "not-a-plan"


def test_a_plan_whose_job_contradicts_itself_is_refused_for_that(tmp_path: Path, made: Plan) -> None:
    """The job within is held to the same rules as a job file."""
    data = json.loads(plan_json(made))
    data["job"]["panels"][0]["joint"] = "glue"
    assert the_problem(tmp_path, json.dumps(data)).code == "unknown-joint"
