"""What can't be planned ends with the right status, one clear line for each problem, and nothing written."""

from dataclasses import dataclass, field
from pathlib import Path

import pytest
from command_runs import TRAY, apart, contents, here, written

OUTLINE = "{ rectangle = [560, 230] }"
STRIP = '[[strips]]\nname = "gunwale"\nmaterial = "spruce"\nsection = [45, 20]\nlength = 2000\n'


@dataclass(frozen=True)
class Refusal:
    """A job that can't be planned; ``says`` holds a part of each line on standard error."""

    text: str
    status: int
    says: list[str] = field(default_factory=list)


REFUSALS = {
    "not TOML": Refusal("[[panels\n", 2, ["job.toml:1: job file: it is not TOML"]),
    "unknown key": Refusal(
        TRAY.replace("price", "pris"),
        2,
        ['job.toml:6: sheet "birch": the key "pris" is not known here. Did you mean "price"?'],
    ),
    "two slips": Refusal(
        TRAY.replace("price", "pris").replace("quantity = 2", "quantity = 0"), 2, ["job.toml:6: ", "job.toml:13: "]
    ),
    "a line break in a key": Refusal(
        TRAY + '"two\\nlines \\u001b[31m" = 1\n', 2, ['job.toml:14: panel "bottom": the key "two lines']
    ),
    "self-crossing outline": Refusal(
        TRAY.replace(OUTLINE, "{ points = [[0, 0], [500, 200], [500, 0], [0, 200]] }"),
        2,
        ['job.toml:12: panel "bottom", outline: '],
    ),
    "NaN": Refusal(TRAY.replace("560", "nan"), 2, ['job.toml:12: panel "bottom", outline: ']),
    "negative size": Refusal(TRAY.replace("[1525,", "[-1525,"), 2, ['job.toml:5: sheet "birch", size, no. 1: -1525: ']),
    "missing file": Refusal(
        TRAY.replace(OUTLINE, '{ offsets = "side.csv" }'),
        2,
        ['job.toml:12: panel "bottom", outline: there is no file "side.csv"'],
    ),
    "path out of the folder": Refusal(
        TRAY.replace(OUTLINE, '{ offsets = "../../etc/passwd" }'),
        2,
        ['"../../etc/passwd" leads out of the job\'s folder'],
    ),
    "empty job": Refusal("", 2, ["it asks for no part"]),
    "too large without a joint": Refusal(TRAY.replace("560", "1560"), 3, ['job.toml:8: panel "bottom": ']),
    "no sheet of that material": Refusal(
        TRAY.replace('"birch"\nthickness = 6\noutline', '"teak"\nthickness = 6\noutline'), 3, ["teak"]
    ),
    "no sheet of that thickness": Refusal(
        TRAY.replace("thickness = 6\noutline", "thickness = 9\noutline"), 3, ["9 mm"]
    ),
    "no timber": Refusal(TRAY + STRIP, 3, ['job.toml:14: strip "gunwale": no length is of spruce 45 x 20']),
    "no sheet and no timber": Refusal(
        TRAY.replace("thickness = 6\noutline", "thickness = 9\noutline") + STRIP,
        3,
        ['panel "bottom"', 'strip "gunwale"'],
    ),
    "too few sheets": Refusal(TRAY.replace("price", "available = 1\nprice").replace("= 2", "= 30"), 3, ["bottom"]),
}


def assert_refused(stderr: str, says: list[str]) -> None:
    """Make sure that what went wrong is said on one line each, and nothing else but progress."""
    assert "Traceback" not in stderr
    assert "\x1b" not in stderr
    lines = [line for line in stderr.splitlines() if " s, timber" not in line and " s, sheets" not in line]
    assert all(line.startswith("nesting: ") for line in lines), lines
    assert len(lines) == len(says), lines
    assert all(said in line for said, line in zip(says, lines, strict=True)), lines


@pytest.mark.parametrize("name", REFUSALS)
def test_a_job_that_can_t_be_planned_is_refused_in_one_line_a_problem(name: str, tmp_path: Path) -> None:
    """With file, line, place, reason and remedy; nothing is written."""
    refusal = REFUSALS[name]
    file = written(tmp_path, refusal.text)
    done = here("plan", file, "--out", tmp_path / "plan")
    assert (done.exit_code, done.stdout) == (refusal.status, "")
    assert_refused(done.stderr, refusal.says)
    assert list(tmp_path.iterdir()) == [file]


@pytest.mark.parametrize("name", ["two slips", "no sheet of that material"])
def test_the_process_ends_with_that_status(name: str, tmp_path: Path) -> None:
    """As a shell sees it."""
    refusal = REFUSALS[name]
    file = written(tmp_path, refusal.text)
    done = apart("plan", file, "--out", tmp_path / "plan")
    assert (done.returncode, done.stdout) == (refusal.status, "")
    assert_refused(done.stderr, refusal.says)
    assert list(tmp_path.iterdir()) == [file]


def test_a_folder_in_the_place_of_the_job_file_is_refused(tmp_path: Path) -> None:
    """And so is nothing at all."""
    for name, reason in (("", "it is not an ordinary file"), ("none.toml", "there is no such file")):
        done = here("plan", tmp_path / name, "--out", tmp_path / "plan")
        assert done.exit_code == 2
        assert_refused(done.stderr, [reason])
    assert list(tmp_path.iterdir()) == []


def test_an_output_folder_that_is_a_file_is_refused(tmp_path: Path) -> None:
    """Before any work is done; the file stays."""
    file, out = written(tmp_path), tmp_path / "plan"
    out.write_text("mine")
    done = here("plan", file, "--out", out)
    assert (done.exit_code, done.stdout) == (2, "")
    assert_refused(done.stderr, [f"{out}: output folder: a file of that name is there"])
    assert out.read_text() == "mine"


def test_an_output_folder_full_of_somebody_s_files_is_refused(tmp_path: Path) -> None:
    """Every one of them stays as it is."""
    file, out = written(tmp_path), tmp_path / "plan"
    out.mkdir()
    (out / "thesis.txt").write_text("mine")
    before = contents(tmp_path)
    done = here("plan", file, "--out", out)
    assert (done.exit_code, done.stdout) == (2, "")
    assert_refused(done.stderr, [f"{out}: output folder: the folder is not empty"])
    assert contents(tmp_path) == before
    assert len(list(tmp_path.iterdir())) == 2


def test_a_job_that_fails_leaves_the_last_plan_as_it_was(tmp_path: Path) -> None:
    """The pages at the bench stay good until there are better ones."""
    out = tmp_path / "plan"
    assert here("plan", written(tmp_path), "--out", out, "--work", 0).exit_code == 0
    before = contents(out)
    for name in ("too large without a joint", "NaN"):
        assert here("plan", written(tmp_path, REFUSALS[name].text), "--out", out).exit_code == REFUSALS[name].status
        assert contents(out) == before
