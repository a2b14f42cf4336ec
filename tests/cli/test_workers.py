"""Plans from chains in processes: the same as without, and no process outlives the command."""

import json
import os
import signal
import subprocess
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from command_runs import DINGHY, PATIENCE, apart, command, contents, written

from nesting_cli.planning import Asked


def run_of(folder: Path) -> dict[str, object]:
    """Return the record of a run."""
    record: dict[str, object] = json.loads((folder / "run.json").read_text())
    return record


def test_workers_change_nothing_in_a_plan(tmp_path: Path) -> None:
    """Only the number of chains does; the record of the run tells both."""
    file = written(tmp_path, DINGHY)
    for name, options in {"two": ("--workers", 2), "one": ("--chains", 2)}.items():
        done = apart("plan", file, "--out", tmp_path / name, "--work", 2000, *options)
        assert done.returncode == 0, done.stderr
        assert "Traceback" not in done.stderr
    one, two = contents(tmp_path / "one"), contents(tmp_path / "two")
    assert {name for name in one if one[name] != two.get(name)} == {"run.json"}
    assert one.keys() == two.keys()
    assert [(run["workers"], run["chains"]) for run in map(run_of, (tmp_path / "one", tmp_path / "two"))] == [
        (1, 2),
        (2, 2),
    ]


def test_no_worker_is_idle() -> None:
    """There is one for each chain at most."""
    assert Asked(chains=2, workers=7).busy_workers == 2


@contextmanager
def planning(folder: Path) -> Iterator["subprocess.Popen[str]"]:
    """Plan for ever in two processes, in a group of their own; comes back when the bound is shown."""
    words = command(
        "plan", written(folder, DINGHY), "--out", folder / "plan", "--seconds", 100 * PATIENCE, "--workers", 2
    )
    pipe = subprocess.PIPE
    with subprocess.Popen(words, stdout=pipe, stderr=pipe, text=True, start_new_session=True) as process:
        try:
            assert process.stderr is not None
            assert any("none below" in line for line in process.stderr)
            yield process
        finally:
            if is_there(process.pid):
                os.killpg(process.pid, signal.SIGKILL)


def is_there(group: int) -> bool:
    """Whether any process of a group is left; a moment is allowed in which it may end."""
    try:
        for _ in range(50):
            os.killpg(group, 0)
            time.sleep(0.1)
    except ProcessLookupError:
        return False
    return True


@pytest.mark.parametrize("later", [0.0, 4.0])
def test_ctrl_c_ends_all_processes(tmp_path: Path, later: float) -> None:
    """All of the terminal's hear of it, be it while they begin or while they search: one tells, and none is left."""
    with planning(tmp_path) as process:
        time.sleep(later)
        os.killpg(process.pid, signal.SIGINT)
        stdout, stderr = process.communicate(timeout=PATIENCE)
        assert process.returncode == 0, stderr
        assert stdout.startswith("Stopped early")
        assert "Traceback" not in stderr
        assert run_of(tmp_path / "plan")["stopped_early"] is True
        assert not is_there(process.pid)


def test_workers_end_with_a_command_that_is_killed(tmp_path: Path) -> None:
    """They notice by themselves."""
    with planning(tmp_path) as process:
        time.sleep(4)
        process.kill()
        process.communicate(timeout=PATIENCE)
        assert not is_there(process.pid)
