"""Which files are read: ordinary texts of sensible size, and of those that a job names only what lies beside it."""

import os
from collections.abc import Callable
from pathlib import Path

import pytest
from job_folders import OFFSETS, OFFSETS_JOB, the_problem, written

from nesting.files import read_job, read_plan
from nesting.files.inside import LARGEST
from nesting.model import JobError, Problem


def naming(folder: Path, name: str) -> Path:
    """Write a job whose panel names a file of offsets."""
    return written(folder, OFFSETS_JOB.replace('"side.csv"', "'''" + name + "'''"))


@pytest.fixture
def job_folder(tmp_path: Path) -> Path:
    """Return a folder for a job, with offsets in it and others outside."""
    folder = tmp_path / "job"
    folder.mkdir()
    written(folder, OFFSETS, "side.csv")
    written(tmp_path, OFFSETS, "outside.csv")
    return folder


@pytest.mark.parametrize("name", ["side.csv", "./side.csv", "../job/side.csv", "deeper/side.csv", "link.csv"])
def test_what_lies_beside_the_job_is_read(job_folder: Path, name: str) -> None:
    """Also in a folder within it, or through a link that stays there."""
    (job_folder / "deeper").mkdir()
    written(job_folder / "deeper", OFFSETS, "side.csv")
    (job_folder / "link.csv").symlink_to("deeper/side.csv")
    assert read_job(naming(job_folder, name)).panels[0].outline.points[0] == (0, 0)


@pytest.mark.parametrize("name", ["../outside.csv", "deep/../../outside.csv", "out.csv", "way/outside.csv", "loop/x"])
def test_a_name_that_leads_out_of_the_folder_is_refused(job_folder: Path, name: str) -> None:
    """By dots, or by a link to a file or to a folder; the file there is not read, though it could be."""
    (job_folder / "out.csv").symlink_to(job_folder.parent / "outside.csv")
    (job_folder / "way").symlink_to("..")
    (job_folder / "loop").symlink_to("loop")
    found = the_problem(naming(job_folder, name))
    assert (found.code, found.line, found.where) == ("outside-folder", 17, 'panel "bottom", outline')


def test_an_absolute_name_is_refused_unless_it_leads_back(job_folder: Path) -> None:
    """What counts is where the file lies."""
    assert the_problem(naming(job_folder, str(job_folder.parent / "outside.csv"))).code == "outside-folder"
    assert read_job(naming(job_folder, str(job_folder / "side.csv"))).panels


def test_a_name_with_a_zero_byte_is_refused(job_folder: Path) -> None:
    """No file system can hold such a name."""
    file = written(job_folder, OFFSETS_JOB.replace("side.csv", r"side\u0000.csv"))
    assert the_problem(file).code == "outside-folder"


@pytest.mark.parametrize("name", ["none.csv", "folder", "", "pipe"])
def test_a_name_without_an_ordinary_file_is_refused(job_folder: Path, name: str) -> None:
    """Nothing there, a folder, or a pipe, at which nobody must be kept waiting."""
    (job_folder / "folder").mkdir()
    os.mkfifo(job_folder / "pipe")
    found = the_problem(naming(job_folder, name))
    assert (found.code, found.line) == ("missing-file", 17)
    assert f'"{name}"' in found.reason


def unreadable(file: Path, read: Callable[[Path], object]) -> Problem:
    """Return the one problem with which a file itself is refused."""
    with pytest.raises(JobError) as refusal:
        read(file)
    (problem,) = refusal.value.problems
    assert (problem.code, problem.file) == ("unreadable", file)
    return problem


@pytest.mark.parametrize("read", [read_job, read_plan])
def test_what_is_no_text_file_is_refused_at_once(tmp_path: Path, read: Callable[[Path], object]) -> None:
    """A folder, a pipe, nothing there, a link to nothing, a file where a folder should be."""
    os.mkfifo(tmp_path / "pipe")
    (tmp_path / "link").symlink_to("nowhere")
    (tmp_path / "file").write_text("")
    assert unreadable(tmp_path, read).reason == "it is not an ordinary file"
    assert unreadable(tmp_path / "pipe", read).reason == "it is not an ordinary file"
    assert unreadable(tmp_path / "nothing", read).reason == "there is no such file"
    assert unreadable(tmp_path / "link", read).reason == "there is no such file"
    assert "can't be read" in unreadable(tmp_path / "file" / "job.toml", read).reason
    assert "can't be read" in unreadable(tmp_path / ("x" * 300), read).reason


@pytest.mark.parametrize("read", [read_job, read_plan])
def test_a_file_beyond_all_sense_is_refused_unread(tmp_path: Path, read: Callable[[Path], object]) -> None:
    """A byte more than is read; the file has holes, so the test costs no disk."""
    file = tmp_path / "job.toml"
    with file.open("wb") as stream:
        stream.truncate(LARGEST + 1)
    found = unreadable(file, read)
    assert found.reason == "it has 34 MB"
    assert found.remedy == "Files up to 32 MB are read."


@pytest.mark.parametrize("read", [read_job, read_plan])
def test_bytes_that_are_no_utf_8_are_refused(tmp_path: Path, read: Callable[[Path], object]) -> None:
    """Latin-1 and UTF-16 texts are told so."""
    for coding in ("latin-1", "utf-16"):
        file = tmp_path / coding
        file.write_bytes('title = "Jölle"'.encode(coding))
        assert unreadable(file, read).reason == "it is not UTF-8 text"


def test_a_byte_order_mark_is_no_part_of_the_text(tmp_path: Path) -> None:
    """Some editors put it first."""
    job = read_job(
        written(tmp_path, "\ufeff" + OFFSETS_JOB.replace('{ offsets = "side.csv" }', "{ rectangle = [9, 9] }"))
    )
    assert job.title == "Tray"
