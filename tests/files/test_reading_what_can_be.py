"""One slip in a file does not hide what else is wrong with it."""

from pathlib import Path

import pytest

from nesting.files import read_what_can_be
from nesting.model import Problem

HEAD = """
[[sheets]]
name = "ply"
material = "gaboon"
thickness = 6
size = [2440, 1220]
"""


def part(name: str, more: str = "thickness = 6\noutline = { rectangle = [800, 300] }") -> str:
    """Return a panel's table."""
    return f'\n[[panels]]\nname = "{name}"\nmaterial = "gaboon"\n{more}\n'


def written(folder: Path, *texts: str) -> Path:
    """Write a job file."""
    file = folder / "job.toml"
    file.write_text("".join(texts), encoding="utf-8")
    return file


def test_a_sound_job_is_read_whole(tmp_path: Path) -> None:
    """Without a problem."""
    readable = read_what_can_be(written(tmp_path, HEAD, part("shelf")))
    assert readable.job is not None
    assert readable.problems == []


def test_parts_that_cant_be_read_are_left_out_and_told(tmp_path: Path) -> None:
    """What is found only once the keys are right (pairs, names of joints) is told as well, with its line."""
    (tmp_path / "side.csv").write_text("edge,station,offset\nupper,1,x\n")
    file = written(
        tmp_path,
        HEAD,
        part("typo", "thicknes = 6\noutline = { rectangle = [800, 300] }"),
        part("shelf"),
        part("odd", "thickness = 6\nhanded = true\noutline = { rectangle = [800, 300] }"),
        part("no table", 'thickness = 6\noutline = { offsets = "nowhere.csv" }'),
        part("bad table", 'thickness = 6\noutline = { offsets = "side.csv" }'),
        part("last"),
        '\n[[neighbours]]\nbetween = ["typo", "shelf"]\nshift = 200\n',
        '\n[[neighbours]]\nbetween = ["last", "shelf"]\nshift = 200\n',
    )
    readable = read_what_can_be(file)
    assert readable.job is not None
    assert [panel.name for panel in readable.job.panels] == ["shelf", "last"]
    assert [pair.between for pair in readable.job.neighbours] == [("last", "shelf")]
    told = sorted((problem.code, problem.path[1]) for problem in readable.problems)
    assert told == [("missing-file", 3), ("missing-key", 0), ("odd-pair", 2), ("offsets", 4), ("unknown-key", 0)]
    lines = file.read_text().splitlines()
    assert {lines[p.line - 1] for p in readable.problems if p.code == "unknown-key" and p.line} == {"thicknes = 6"}


def test_a_problem_of_what_is_left_is_led_back_to_its_place_in_the_file(tmp_path: Path) -> None:
    """The first panel is left out, so the second is the first of what is left."""
    readable = read_what_can_be(written(tmp_path, HEAD, part("typo", "thicknes = 6"), part("shelf")))
    problem = Problem(code="x", where="x", reason="x", remedy="x", path=("panels", 0, "outline"))
    assert readable.in_file(problem).path == ("panels", 1, "outline")


@pytest.mark.parametrize(
    "text",
    [
        "title = 3\n" + HEAD + part("shelf"),
        HEAD.replace("thickness", "thicknes") + part("shelf"),
        "panels = 3\n",
        HEAD + part("typo", "thicknes = 6"),
        "[workshop]\nkerf = true\n" + HEAD + part("shelf"),
        "title = ",
        "",
    ],
    ids=["title", "sheet", "no list", "no part left", "workshop", "syntax", "empty"],
)
def test_where_more_than_parts_is_wrong_there_is_no_job(text: str, tmp_path: Path) -> None:
    """Nothing could be said of the parts; what is wrong is told."""
    readable = read_what_can_be(written(tmp_path, text))
    assert readable.job is None
    assert readable.problems
    assert all(problem.file for problem in readable.problems)


def test_a_missing_file_is_a_problem(tmp_path: Path) -> None:
    """Told, not raised."""
    assert [problem.code for problem in read_what_can_be(tmp_path / "none.toml").problems] == ["unreadable"]
