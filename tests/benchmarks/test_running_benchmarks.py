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
    cost = next(record for record in told if record["measure"] == "cost")
    assert isinstance(cost["bound"], float)
    assert isinstance(cost["value"], float)
    assert 0 < cost["bound"] <= cost["value"]


@pytest.mark.parametrize(
    "arguments", [("nothing",), (), ("jobs", "--unknown"), ("jobs", "--seeds", "one"), ("jobs", "--seconds", "soon")]
)
def test_what_can_not_be_used_ends_with_status_2(arguments: tuple[str, ...]) -> None:
    """An unknown benchmark, none at all, an unknown option, a seed or a time that is no number."""
    done = benchmarks(*arguments)
    assert done.returncode == 2
    assert "usage: python -m benchmarks" in done.stderr
    assert "Traceback" not in done.stderr
