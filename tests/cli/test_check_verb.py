"""``nesting check`` and ``nesting schema``, and what ``plan`` says for programs."""

import json
from pathlib import Path

import pytest
from click.testing import Result
from command_runs import PLY, here, panel, written

from nesting.files import job_schema, plan_schema, read_plan

SOUND = PLY + panel("shelf", 800, 300, "quantity = 5")

LONG = panel("long", 5000, 300)
TYPO = panel("typo", 500, 300).replace("thickness", "thicknes")
SLIP = SOUND.replace("price = 84", "")


def run(folder: Path, text: str, verb: str, *more: str) -> Result:
    """Write a job and run a verb on it."""
    return here(verb, written(folder, text), *more)


def test_a_sound_job_is_summed_up_in_one_line(tmp_path: Path) -> None:
    """Parts, net area (5 x 0.8 x 0.3 m) and stock."""
    result = run(tmp_path, SOUND, "check")
    assert result.exit_code == 0
    assert result.stdout == f"{tmp_path / 'job.toml'}: nothing wrong: 5 panels, 1.20 m2 net, from 1 kinds of sheet\n"
    assert result.stderr == ""


def test_all_problems_are_told_down_the_file(tmp_path: Path) -> None:
    """A key that can't be read does not hide a panel that can't be made."""
    result = run(tmp_path, SOUND + LONG + TYPO, "check")
    assert result.exit_code == 2
    assert result.stdout == ""
    lines = result.stderr.splitlines()
    assert [line.rpartition(" ")[2] for line in lines] == ["[too-large]", "[missing-key]", "[unknown-key]"]
    places = [int(line.split(":")[2]) for line in lines]
    assert places == sorted(places)


def test_a_hint_changes_no_exit_status(tmp_path: Path) -> None:
    """It stands on standard error and is called a hint."""
    result = run(tmp_path, SLIP, "check")
    assert result.exit_code == 0
    assert "nothing wrong" in result.stdout
    assert result.stderr.startswith(f"nesting: hint: {tmp_path / 'job.toml'}:2: ")
    assert "[hint-price]" in result.stderr


@pytest.mark.parametrize(
    ("text", "kinds", "status"),
    [(SOUND, [], 0), (SLIP, ["hint"], 0), (SLIP + LONG, ["problem", "hint"], 2), ("title = 3", ["problem"] * 1, 2)],
)
def test_problems_and_hints_are_told_as_json(text: str, kinds: list[str], status: int, tmp_path: Path) -> None:
    """One list on standard output, and nothing else anywhere."""
    result = run(tmp_path, text, "check", "--json")
    told = json.loads(result.stdout)
    assert [item["kind"] for item in told] == kinds
    assert all(item["file"] == str(tmp_path / "job.toml") and item["line"] for item in told)
    assert all(item["code"] and item["reason"] and item["remedy"] for item in told)
    assert (result.exit_code, result.stderr) == (status, "")


def test_the_schemas_are_printed_as_json() -> None:
    """Just those of the library."""
    for kind, schema in (("job", job_schema()), ("plan", plan_schema())):
        result = here("schema", kind)
        assert (result.exit_code, json.loads(result.stdout)) == (0, schema)
    assert here("schema", "plank").exit_code == 2


def test_planning_tells_programs_what_came_out(tmp_path: Path) -> None:
    """One object on standard output that agrees with plan.json; hints stay on standard error."""
    out = tmp_path / "plan"
    result = run(tmp_path, SLIP, "plan", "--out", str(out), "--work", "0", "--seed", "7", "--json")
    assert result.exit_code == 0
    told = json.loads(result.stdout)
    made = read_plan(out / "plan.json")
    assert told["files"] == sorted(file.name for file in out.iterdir())
    assert told["out"] == str(out)
    assert (told["to_pay"], told["objective"], told["bound"]) == ("0.00", "0.00", "0.00")
    assert (told["seed"], told["work"], told["stopped_early"]) == (7, made.work, False)
    counts = ("sheets", "lengths", "joints", "waste_percent", "timber_waste_percent", "bound_reason", "proven")
    assert {key: told[key] for key in counts} == {key: getattr(made.totals, key) for key in counts}
    assert "hint:" in result.stderr
    assert set(told) == {"out", "files", *counts, "to_pay", "joint_cost", "objective", "bound", "currency", "seed",
                         "work", "stopped_early", "blanks", "scarfs_of_blanks", "long_planks",
                         "scarfs_of_planks", "ways", "plank_ways"}  # fmt: skip


def test_planning_a_job_with_a_slip_hints_at_it(tmp_path: Path) -> None:
    """The table is on standard output as ever."""
    result = run(tmp_path, SLIP, "plan", "--out", str(tmp_path / "plan"), "--work", "0")
    assert result.exit_code == 0
    assert "audited: nothing wrong" in result.stdout
    assert "[hint-price]" in result.stderr
