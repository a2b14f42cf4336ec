"""``nesting new`` writes a job to start from."""

import shlex
from pathlib import Path

import pytest
from command_runs import contents, here

from nesting.starters import STARTERS, starter_files


@pytest.mark.parametrize("starter", STARTERS)
def test_a_starter_job_plans_by_the_command_that_it_names(tmp_path: Path, starter: str) -> None:
    """Written into a folder that is not there yet, whose name even has a space in it."""
    file = tmp_path / "my boat" / "job.toml"
    done = here("new", file, "--starter", starter)
    assert (done.exit_code, done.stderr) == (0, "")
    assert {name: text.decode() for name, text in contents(file.parent).items()} == starter_files(starter)
    program, *arguments = shlex.split(done.stdout.splitlines()[-1].removeprefix("now: "))
    assert program == "nesting"
    planned = here(*arguments, "--work", 0)
    assert planned.exit_code == 0, planned.stderr
    assert (file.parent / "plan" / "plan.json").exists()


def test_the_skiff_is_written_where_nothing_else_is_said(tmp_path: Path) -> None:
    """The job file may have any name; what it names keeps its own."""
    assert here("new", tmp_path / "first.toml").exit_code == 0
    assert set(contents(tmp_path)) == {"first.toml", *starter_files("skiff")} - {"job.toml"}


@pytest.mark.parametrize("name", ["job.toml", "bilge.csv"])
def test_nothing_is_written_over(tmp_path: Path, name: str) -> None:
    """Neither the job file nor one that it names; then none is written at all."""
    (tmp_path / name).write_text("mine")
    done = here("new", tmp_path / "job.toml")
    assert (done.exit_code, done.stdout) == (2, "")
    assert done.stderr == f"nesting: {tmp_path / name}: file: it is there already. Name a file in a new folder. [new]\n"
    assert contents(tmp_path) == {name: b"mine"}


def test_an_unknown_starter_is_told_those_there_are(tmp_path: Path) -> None:
    """All by name."""
    done = here("new", tmp_path / "job.toml", "--starter", "submarine")
    assert (done.exit_code, done.stdout) == (2, "")
    assert done.stderr.startswith('nesting: starter: there is no starter "submarine". ')
    assert all(starter in done.stderr for starter in STARTERS)
    assert contents(tmp_path) == {}


def test_a_job_file_can_t_take_the_name_of_one_of_its_own_files(tmp_path: Path) -> None:
    """One of the two would be lost."""
    done = here("new", tmp_path / "bilge.csv")
    assert done.exit_code == 2
    assert 'the starter job brings its own "bilge.csv"' in done.stderr
    assert contents(tmp_path) == {}


def test_a_place_that_can_t_be_written_is_refused(tmp_path: Path) -> None:
    """Where a folder should be there is a file."""
    (tmp_path / "file").write_text("mine")
    done = here("new", tmp_path / "file" / "job.toml")
    assert (done.exit_code, done.stdout) == (2, "")
    assert done.stderr.count("\n") == 1
    assert "can't be written" in done.stderr
