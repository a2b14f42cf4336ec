"""Ctrl-C keeps the best plan so far; before there is one, and a second time, it ends everything."""

import json
import signal
import subprocess
from collections.abc import Iterator
from contextlib import AbstractContextManager, contextmanager
from pathlib import Path

import pytest
from click.testing import Result
from command_runs import DINGHY, PATIENCE, command, here, plan_of, written

import nesting_cli.planning
from nesting.effort import News, Progress

#: Seconds of search that no test waits for: what ends sooner ended by Ctrl-C.
LONG = 100 * PATIENCE


def pressed(monkeypatch: pytest.MonkeyPatch, folder: Path, stage: str, times: int) -> Result:
    """Plan in this process, with Ctrl-C pressed some times when the given line is shown for the first time."""

    def listening() -> AbstractContextManager[Progress]:
        return _pressing(stage, times)

    monkeypatch.setattr(nesting_cli.planning, "shown", listening)
    return here("plan", written(folder, DINGHY), "--out", folder / "plan", "--seconds", LONG)


@contextmanager
def _pressing(stage: str, times: int) -> Iterator[Progress]:
    left = [times]

    def tell(news: News) -> None:
        told = "best plan" if news.objective is not None else news.stage
        while told == stage and left[0]:
            left[0] -= 1
            signal.raise_signal(signal.SIGINT)

    yield tell


def test_the_search_ends_at_ctrl_c_and_the_best_plan_is_written(tmp_path: Path) -> None:
    """In a process of its own, at the first plan that it shows: status 0, and it says that it stopped early."""
    out = tmp_path / "plan"
    words = command("plan", written(tmp_path, DINGHY), "--out", out, "--seconds", LONG)
    with subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as process:
        try:
            assert process.stderr is not None
            assert any("best plan" in line for line in process.stderr)
            process.send_signal(signal.SIGINT)
            stdout, stderr = process.communicate(timeout=PATIENCE)
        finally:
            process.kill()
    assert process.returncode == 0, stderr
    assert stdout.startswith("Stopped early: this is the best plan found until then.\n")
    assert f"{plan_of(out)['totals']['objective']} EUR" in stdout
    assert json.loads((out / "run.json").read_text())["stopped_early"] is True
    assert "Traceback" not in stderr


def test_one_ctrl_c_after_a_plan_keeps_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The same within this process, where the moment is exact."""
    done = pressed(monkeypatch, tmp_path, "best plan", times=1)
    assert done.exit_code == 0
    assert done.stdout.startswith("Stopped early")
    assert (tmp_path / "plan" / "plan.json").exists()


@pytest.mark.parametrize(("stage", "times"), [("best plan", 2), ("sheets", 1), ("timber", 1)])
def test_ctrl_c_twice_or_before_any_plan_writes_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, stage: str, times: int
) -> None:
    """Status 130 and one line that says so."""
    done = pressed(monkeypatch, tmp_path, stage, times)
    assert (done.exit_code, done.stdout) == (130, "")
    assert done.stderr == "nesting: interrupted; nothing was written\n"
    assert [file.name for file in tmp_path.iterdir()] == ["job.toml"]


def test_ctrl_c_is_everybody_s_again_afterwards(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Whoever uses the verb from a program of their own keeps their handler."""
    before = signal.getsignal(signal.SIGINT)
    pressed(monkeypatch, tmp_path, "best plan", times=2)
    assert signal.getsignal(signal.SIGINT) is before
