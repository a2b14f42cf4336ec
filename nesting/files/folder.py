"""Writes an output folder whole: beside its place first, then swapped in, so that nothing stale survives."""

import json
import os
import shutil
import tempfile
from collections.abc import Mapping
from pathlib import Path

from nesting.model import JobError, Problem

#: The file by which a folder is known as ours.
RUN_RECORD = "run.json"


def require_usable(folder: Path) -> None:
    """Make sure that the output folder may be written, before any work is done.

    Raises
    ------
    JobError
        If its place is taken by a file, or by a non-empty folder that is not ours.
    """
    if folder.is_symlink() or (folder.exists() and not folder.is_dir()):
        raise _refused(folder, "a file of that name is there", "Name another folder with --out.")
    if folder.exists() and any(folder.iterdir()) and not (folder / RUN_RECORD).is_file():
        reason = f"the folder is not empty and holds no {RUN_RECORD}, so its files are not ours"
        raise _refused(folder, reason, "Name a new or empty folder with --out.")
    place = _existing_parent(folder)
    if not os.access(place, os.W_OK | os.X_OK):
        raise _refused(folder, f"{place} can't be written", "Name a folder with --out that you may write.")


def write_folder(folder: Path, files: Mapping[str, str]) -> None:
    """Write all files into the folder; files there that we did not write are left alone.

    Parameters
    ----------
    files : mapping from file name to text
        ``run.json`` must be among them: it marks the folder as ours; its ``files`` lists all that we wrote.

    Raises
    ------
    JobError
        If the folder can't be written; what was there is then still there.
    """
    require_usable(folder)
    try:
        folder.parent.mkdir(parents=True, exist_ok=True)
        fresh = Path(tempfile.mkdtemp(prefix=f".{folder.name}-", dir=folder.parent))
        try:
            _fill(fresh, files)
            _keep_what_is_not_ours(folder, fresh)
            _swap(fresh, folder)
        finally:
            shutil.rmtree(fresh, ignore_errors=True)
    except OSError as error:
        raise _refused(folder, f"it can't be written ({error.strerror})", "Check the disk and permissions.") from None


def _fill(folder: Path, files: Mapping[str, str]) -> None:
    folder.chmod(0o777 & ~_umask())
    for name, text in files.items():
        (folder / name).write_bytes(text.encode())


def _keep_what_is_not_ours(old: Path, fresh: Path) -> None:
    """Copy over what somebody else put into the folder."""
    if not (old / RUN_RECORD).is_file():
        return
    ours = _written_by_us(old / RUN_RECORD)
    for item in old.iterdir():
        if item.name not in ours and item.name != RUN_RECORD and not (fresh / item.name).exists():
            shutil.copytree(item, fresh / item.name) if item.is_dir() else shutil.copy2(item, fresh / item.name)


def _written_by_us(record: Path) -> set[str]:
    try:
        return set(json.loads(record.read_text())["files"])
    except (ValueError, KeyError, TypeError):
        return set()


def _swap(fresh: Path, folder: Path) -> None:
    if not folder.exists():
        fresh.rename(folder)
        return
    old = Path(tempfile.mkdtemp(prefix=f".{folder.name}-old-", dir=folder.parent))
    folder.rename(old / folder.name)
    try:
        fresh.rename(folder)
    except OSError:
        (old / folder.name).rename(folder)
        raise
    finally:
        shutil.rmtree(old, ignore_errors=True)


def _existing_parent(folder: Path) -> Path:
    place = folder if folder.exists() else folder.absolute().parent
    while not place.exists():
        place = place.parent
    return place


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


def _refused(folder: Path, reason: str, remedy: str) -> JobError:
    return JobError(Problem(code="output-folder", where="output folder", file=folder, reason=reason, remedy=remedy))
