"""The benchmarks as whoever types the command sees them."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

from tests.benchmarks.test_records import KEYS

ROOT = Path(__file__).parent.parent.parent


def benchmarks(*arguments: str) -> subprocess.CompletedProcess[str]:
    """Run the benchmarks from the project's folder."""
    command = [sys.executable, "-m", "benchmarks", *arguments]
    return subprocess.run(command, cwd=ROOT, capture_output=True, text=True, timeout=300, check=False)


@pytest.fixture(scope="module")
def records(tmp_path_factory: pytest.TempPathFactory) -> tuple[str, list[dict[str, object]]]:
    """Run the locker once; return what was printed and the records."""
    file = tmp_path_factory.mktemp("benchmarks") / "records.json"
    done = benchmarks("jobs", "--only", "locker", "--seconds", "0.5", "--seeds", "3", "--json", str(file))
    assert done.returncode == 0, done.stderr
    return done.stdout, json.loads(file.read_text())


def test_the_locker_is_planned_and_verified(records: tuple[str, list[dict[str, object]]]) -> None:
    """One row that says so; the other starter jobs were not asked for."""
    printed, _ = records
    (row,) = [line for line in printed.splitlines() if line.startswith("locker, seed 3")]
    assert row.endswith("yes")
    assert "skiff" not in printed


def test_its_records_have_every_key(records: tuple[str, list[dict[str, object]]]) -> None:
    """And say what was measured, of what, and that it was verified."""
    _, told = records
    assert all(set(record) == KEYS for record in told)
    assert {(r["benchmark"], r["instance"], r["seed"], r["verified"]) for r in told} == {("jobs", "locker", 3, True)}
    assert {record["budget"] for record in told} == {0.5}
    cost = next(record for record in told if record["measure"] == "cost")
    assert isinstance(cost["bound"], float)
    assert isinstance(cost["value"], float)
    assert 0 < cost["bound"] <= cost["value"]


@pytest.mark.parametrize(
    "arguments",
    [
        ("nothing",),
        (),
        ("jobs", "--unknown"),
        ("jobs", "--seeds", "one"),
        ("jobs", "--seeds", "-1"),
        ("jobs", "--seconds", "soon"),
        ("jobs", "--seconds", "60,0"),
        ("jobs", "--seconds", "nan"),
        ("jobs", "--workers", "0"),
    ],
)
def test_what_can_not_be_used_ends_with_status_2(arguments: tuple[str, ...]) -> None:
    """An unknown benchmark, none at all, an unknown option, a seed or a time that is no number."""
    done = benchmarks(*arguments)
    assert done.returncode == 2
    assert "usage: python -m benchmarks" in done.stderr
    assert "Traceback" not in done.stderr


def test_what_is_in_the_file_is_not_run_again(records: tuple[str, list[dict[str, object]]], tmp_path: Path) -> None:
    """The second run prints the same row and leaves the records as they are."""
    printed, told = records
    file = tmp_path / "records.json"
    file.write_text(json.dumps(told))
    done = benchmarks("jobs", "--only", "locker", "--seconds", "0.5", "--seeds", "3", "--json", str(file))
    assert done.returncode == 0
    assert done.stderr == ""
    assert json.loads(file.read_text()) == told
    assert [line for line in printed.splitlines() if "seed 3" in line] == [
        line for line in done.stdout.splitlines() if "seed 3" in line
    ]


def test_a_file_of_something_else_is_left_alone(tmp_path: Path) -> None:
    """Status 2, and it is as it was."""
    file = tmp_path / "letter.txt"
    file.write_text("Dear builder")
    done = benchmarks("jobs", "--only", "locker", "--json", str(file))
    assert done.returncode == 2
    assert "letter.txt is no file of records" in done.stderr
    assert file.read_text() == "Dear builder"
