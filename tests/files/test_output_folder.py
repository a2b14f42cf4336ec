"""An output folder is swapped in whole, and what is not ours is left alone."""

import json
import os
import stat
import tempfile
from pathlib import Path

import pytest

from nesting.files import RUN_RECORD, require_usable, write_folder
from nesting.files import folder as room
from nesting.model import JobError


def files(*names: str, text: str = "new") -> dict[str, str]:
    """Return the texts of a plan's files, the record among them."""
    record = json.dumps({"format": "nesting-run", "files": [*names, RUN_RECORD]})
    return {**dict.fromkeys(names, text), RUN_RECORD: record}


def contents(folder: Path) -> dict[str, str]:
    """Return every file below a folder with its text."""
    return {str(file.relative_to(folder)): file.read_text() for file in folder.rglob("*") if file.is_file()}


def names(folder: Path) -> list[str]:
    """Return the names of what lies in a folder, hidden or not."""
    return sorted(item.name for item in folder.iterdir())


def reason(folder: Path, **texts: str) -> str:
    """Return why writing is refused."""
    with pytest.raises(JobError) as refusal:
        write_folder(folder, {**files("plan.json"), **texts})
    (problem,) = refusal.value.problems
    assert (problem.code, problem.where) == ("output-folder", "output folder")
    return problem.reason


def test_a_new_folder_is_made_with_those_above_it(tmp_path: Path) -> None:
    """Nothing else is left beside it."""
    write_folder(tmp_path / "a" / "b" / "plan", files("plan.json"))
    assert contents(tmp_path) == {f"a/b/plan/{name}": text for name, text in files("plan.json").items()}
    assert names(tmp_path / "a" / "b") == ["plan"]


def test_an_empty_folder_is_taken(tmp_path: Path) -> None:
    """It holds nothing that could be lost."""
    (tmp_path / "plan").mkdir()
    write_folder(tmp_path / "plan", files("plan.json"))
    assert contents(tmp_path / "plan") == files("plan.json")


def test_the_folder_can_be_read_by_whom_the_usual_mask_allows(tmp_path: Path) -> None:
    """A temporary folder is for its owner alone; the finished one is like any other."""
    before = os.umask(0o022)
    try:
        write_folder(tmp_path / "plan", files("plan.json"))
    finally:
        os.umask(before)
    assert stat.S_IMODE((tmp_path / "plan").stat().st_mode) == 0o755


def test_no_stale_file_of_ours_survives_and_all_others_are_kept(tmp_path: Path) -> None:
    """The drawing of a third sheet goes when there are but two; notes, folders and links of others stay as they are."""
    plan = tmp_path / "plan"
    write_folder(plan, files("plan.json", "sheet-S3.svg", text="old"))
    (plan / "notes.txt").write_text("mine")
    (plan / "photos").mkdir()
    (plan / "photos" / "bow.txt").write_text("bow")
    (plan / "dangling").symlink_to("nowhere")
    (plan / "photos" / "self").symlink_to("..")
    write_folder(plan, files("plan.json", "sheet-S1.svg"))
    assert names(plan) == ["dangling", "notes.txt", "photos", "plan.json", "run.json", "sheet-S1.svg"]
    assert (plan / "plan.json").read_text() == "new"
    assert (plan / "notes.txt").read_text() == "mine"
    assert (plan / "photos" / "bow.txt").read_text() == "bow"
    assert (plan / "dangling").readlink() == Path("nowhere")
    assert (plan / "photos" / "self").readlink() == Path("..")
    assert names(tmp_path) == ["plan"]


def test_a_file_of_somebody_else_is_never_written_over(tmp_path: Path) -> None:
    """Somebody put a sheet-S2.svg beside our files; a plan with two sheets would take its place, and is refused."""
    plan = tmp_path / "plan"
    write_folder(plan, files("plan.json", text="old"))
    (plan / "sheet-S2.svg").write_text("mine")
    before = contents(tmp_path)
    assert reason(plan, **{"sheet-S2.svg": "new"}) == '"sheet-S2.svg" there is not ours, and would be written over'
    assert contents(tmp_path) == before
    assert names(tmp_path) == ["plan"]


@pytest.mark.parametrize(
    "record", [None, "", "{}", "[]", '{"files": []}', '{"format": "other", "files": []}', '{"format": "nesting-run"}']
)
def test_a_folder_of_somebody_else_is_refused(tmp_path: Path, record: str | None) -> None:
    """Without a run.json, or with one that is not ours."""
    plan = tmp_path / "plan"
    plan.mkdir()
    (plan / "thesis.txt").write_text("mine")
    if record is not None:
        (plan / RUN_RECORD).write_text(record)
    before = contents(tmp_path)
    assert "not ours" in reason(plan)
    assert contents(tmp_path) == before


def test_a_file_or_a_link_in_the_way_is_refused(tmp_path: Path) -> None:
    """It is not written over, nor followed."""
    (tmp_path / "file").write_text("mine")
    (tmp_path / "elsewhere").mkdir()
    (tmp_path / "link").symlink_to("elsewhere")
    (tmp_path / "dangling").symlink_to("nowhere")
    for name in ("file", "link", "dangling"):
        assert reason(tmp_path / name) == "a file of that name is there"
    assert reason(tmp_path / "file" / "deeper") == f"{tmp_path / 'file'} is no folder"
    assert contents(tmp_path) == {"file": "mine"}


def test_the_current_folder_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Swapped in whole it would leave the shell standing in a folder that is gone."""
    (tmp_path / "a").mkdir()
    monkeypatch.chdir(tmp_path / "a")
    for name in (Path(), Path(".."), tmp_path, tmp_path / "a"):
        assert "you stand in it" in reason(name)
    assert names(tmp_path) == ["a"]


def test_a_name_that_no_disk_takes_is_refused(tmp_path: Path) -> None:
    """Too long by a few letters."""
    assert "can't be reached" in reason(tmp_path / ("x" * 300))


def test_a_place_that_may_not_be_written_is_refused_before_any_work(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The superuser may write nearly anywhere, so the system's answer is put in its mouth."""

    def refuse(prefix: str, dir: Path) -> str:  # noqa: A002 - as the standard library calls it
        raise PermissionError(13, "Permission denied", f"{dir}/{prefix}")

    monkeypatch.setattr(tempfile, "mkdtemp", refuse)
    with pytest.raises(JobError, match="can't be written"):
        require_usable(tmp_path / "a" / "plan")
    assert names(tmp_path) == []


@pytest.mark.parametrize("error", [OSError(28, "No space left on device"), KeyboardInterrupt()])
@pytest.mark.parametrize("step", ["_fill", "_copy", "_swap"])
def test_a_failure_in_the_middle_leaves_everything_as_it_was(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, step: str, error: BaseException
) -> None:
    """A full disk, or Ctrl-C; nothing temporary is left either."""
    plan = tmp_path / "plan"
    write_folder(plan, files("plan.json", text="old"))
    (plan / "notes.txt").write_text("mine")
    before = contents(tmp_path)

    def fail(*_: object) -> None:
        raise error

    monkeypatch.setattr(room, step, fail)
    with pytest.raises((JobError, KeyboardInterrupt)):
        write_folder(plan, files("plan.json"))
    assert contents(tmp_path) == before
    assert names(tmp_path) == ["plan"]


@pytest.mark.parametrize("error", [OSError(5, "Input/output error"), KeyboardInterrupt()])
@pytest.mark.parametrize("rename", [1, 2])
def test_a_failure_between_the_two_renames_puts_the_old_folder_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, rename: int, error: BaseException
) -> None:
    """The old one is out of the way and the new one not yet there: the worst moment of all."""
    plan = tmp_path / "plan"
    write_folder(plan, files("plan.json", text="old"))
    before = contents(tmp_path)
    calls = []
    move = Path.rename

    def failing(self: Path, target: Path) -> Path:
        calls.append(target)
        if len(calls) == rename:
            raise error
        return move(self, target)

    monkeypatch.setattr(Path, "rename", failing)
    with pytest.raises((JobError, KeyboardInterrupt)):
        write_folder(plan, files("plan.json"))
    assert contents(tmp_path) == before
    assert names(tmp_path) == ["plan"]
    assert len(calls) == (1 if rename == 1 else 3)


def test_an_interrupt_after_the_swap_keeps_the_new_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """There is always one of the two, whole."""
    plan = tmp_path / "plan"
    write_folder(plan, files("plan.json", text="old"))
    move = Path.rename

    def late(self: Path, target: Path) -> Path:
        done = move(self, target)
        if target == plan:
            raise KeyboardInterrupt
        return done

    monkeypatch.setattr(Path, "rename", late)
    with pytest.raises(KeyboardInterrupt):
        write_folder(plan, files("plan.json"))
    assert contents(plan) == files("plan.json")
    assert names(tmp_path) == ["plan"]
