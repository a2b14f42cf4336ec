"""What ``nesting plan`` writes and says."""

import json
import os
import pty
import subprocess
from contextlib import suppress
from decimal import Decimal
from pathlib import Path

import pytest
from command_runs import DINGHY, PATIENCE, TRAY, apart, command, contents, here, names, plan_of, written

from nesting.effort import News
from nesting_cli.showing import shown


def test_a_plan_is_written_and_its_outcome_told(tmp_path: Path) -> None:
    """Status 0; the outcome on standard output agrees with the plan; progress on standard error."""
    out = tmp_path / "plan"
    done = apart("plan", written(tmp_path), "--out", out)
    totals = plan_of(out)["totals"]
    assert (done.returncode, totals["to_pay"], totals["proven"]) == (0, "64.10", True)
    lines = [line.split("  ") for line in done.stdout.splitlines()]
    assert ("to pay", "64.10 EUR") in [(line[0], line[-1].strip()) for line in lines]
    assert "proven minimum" in [line[0] for line in lines]
    assert f"Open {out / 'index.html'}" in done.stdout
    assert "best plan 64.10" in done.stderr
    record = json.loads((out / "run.json").read_text())
    assert record["files"] == names(out)
    assert (record["seed"], record["stopped_early"]) == (0, False)


def test_where_nothing_is_proven_the_bound_is_told_beside_the_answer(tmp_path: Path) -> None:
    """A bound below the answer never reads as a proof."""
    out = tmp_path / "plan"
    done = here("plan", written(tmp_path, DINGHY), "--out", out, "--work", 0)
    totals = plan_of(out)["totals"]
    assert done.exit_code == 0
    assert Decimal(totals["bound"]) < Decimal(totals["objective"])
    assert not totals["proven"]
    assert f"{totals['bound']} EUR, by " in done.stdout
    assert "\nproven minimum" not in done.stdout


def test_a_second_plan_replaces_the_first_and_keeps_what_others_put_there(tmp_path: Path) -> None:
    """Drawings of sheets that are no longer used are gone."""
    out = tmp_path / "plan"
    many = TRAY.replace("quantity = 2", "quantity = 20")
    assert here("plan", written(tmp_path, many), "--out", out, "--work", 0).exit_code == 0
    assert (out / "sheet-S2.svg").exists()
    (out / "notes.txt").write_text("mine")
    assert here("plan", written(tmp_path), "--out", out, "--work", 0).exit_code == 0
    assert not (out / "sheet-S2.svg").exists()
    assert (out / "notes.txt").read_text() == "mine"
    assert json.loads((out / "run.json").read_text())["files"] == [name for name in names(out) if name != "notes.txt"]
    assert names(tmp_path) == ["job.toml", "plan"]


def test_the_same_job_seed_and_work_give_the_same_bytes(tmp_path: Path) -> None:
    """In two processes that hash texts differently; only the record of the run may differ."""
    file = written(tmp_path, DINGHY)
    for hashing in ("1", "2"):
        done = apart(
            "plan",
            file,
            "--out",
            tmp_path / hashing,
            "--work",
            400,
            "--seed",
            3,
            environment={"PYTHONHASHSEED": hashing},
        )
        assert done.returncode == 0, done.stderr
    one, two = contents(tmp_path / "1"), contents(tmp_path / "2")
    assert {name for name in one if one[name] != two.get(name)} <= {"run.json"}
    assert one.keys() == two.keys()
    assert plan_of(tmp_path / "1")["work"] >= 400


def test_whoever_reads_the_output_may_go(tmp_path: Path) -> None:
    """As in ``nesting plan ... | head -1``, where the pipe's other end is closed: no trace, and the plan is written."""
    reading, writing = os.pipe()
    os.close(reading)
    done = subprocess.run(
        command("plan", written(tmp_path), "--out", tmp_path / "plan", "--work", 0),
        stdout=writing,
        stderr=subprocess.PIPE,
        text=True,
        timeout=PATIENCE,
        check=False,
    )
    os.close(writing)
    assert done.returncode == 1
    assert "Traceback" not in done.stderr
    assert "BrokenPipe" not in done.stderr
    assert "failure" not in done.stderr
    assert plan_of(tmp_path / "plan")["totals"]["to_pay"] == "64.10"


def test_progress_comes_in_plain_lines_where_there_is_no_terminal(tmp_path: Path) -> None:
    """Whole lines with time, stage and figures; nothing that steers a terminal."""
    done = apart("plan", written(tmp_path), "--out", tmp_path / "plan", "--work", 0)
    assert "\x1b" not in done.stdout + done.stderr
    assert "\r" not in done.stdout + done.stderr
    *progress, last = done.stderr.splitlines()
    assert [line.split(" s, ", 1)[1] for line in progress] == [
        "timber",
        "sheets",
        "bound, best plan 64.10",
        "sheets, best plan 64.10, none below 64.10",
    ]
    assert last == f"{len(names(tmp_path / 'plan'))} files in {tmp_path / 'plan'}"


def shown_on_a_terminal(monkeypatch: pytest.MonkeyPatch, **environment: str) -> str:
    """Return what a terminal gets to see of one piece of news."""
    for name, value in {"TERM": "xterm-256color", "COLUMNS": "100", **environment}.items():
        monkeypatch.setenv(name, value)
    ours, theirs = pty.openpty()
    with os.fdopen(theirs, "w", buffering=1) as terminal, monkeypatch.context() as patched:
        patched.setattr("sys.stderr", terminal)
        with shown() as progress:
            progress(News(stage="sheets", objective=Decimal("84.10")))
    return all_from(ours)


def all_from(terminal: int) -> str:
    """Return everything that was written to a terminal; it comes piece by piece, and ends with an error on Linux."""
    text = b""
    with os.fdopen(terminal, "rb", buffering=0) as end, suppress(OSError):
        while piece := end.read(65536):
            text += piece
    return text.decode()


def test_a_terminal_gets_one_line_that_changes(monkeypatch: pytest.MonkeyPatch) -> None:
    """It is rewritten in place, so it takes sequences that steer the cursor."""
    monkeypatch.delenv("NO_COLOR", raising=False)
    text = shown_on_a_terminal(monkeypatch)
    assert "sheets, best plan 84.10" in text
    assert "\x1b[" in text


def test_a_terminal_that_can_t_be_steered_gets_plain_lines(monkeypatch: pytest.MonkeyPatch) -> None:
    """TERM is dumb, as in an editor's window."""
    text = shown_on_a_terminal(monkeypatch, TERM="dumb")
    assert text.endswith("sheets, best plan 84.10\r\n")
    assert "\x1b" not in text


def test_no_color_is_heeded(monkeypatch: pytest.MonkeyPatch) -> None:
    """With NO_COLOR set nothing is coloured (the convention of no-color.org), though the line still changes."""
    text = shown_on_a_terminal(monkeypatch, NO_COLOR="1")
    assert "sheets, best plan 84.10" in text
    assert not any(f"\x1b[{code}" in text for code in ("3", "9", "4", "10", "1;3", "38"))
