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
        If its place is taken by a file, by a non-empty folder that is not ours, or by the current folder.
    """
    try:
        _require_ours_or_empty(folder)
        place = _existing_parent(folder)
    except OSError as error:
        raise _refused(folder, f"it can't be reached ({_told(error)})", "Name another folder with --out.") from None
    if not place.is_dir():
        raise _refused(folder, f"{place} is no folder", "Name another folder with --out.")
    if not _takes_folders(place):
        raise _refused(folder, f"{place} can't be written", "Name a folder with --out that you may write.")


def write_folder(folder: Path, files: Mapping[str, str]) -> None:
    """Write all files into the folder; files there that we did not write are left alone.

    Parameters
    ----------
    files : mapping from file name to text
        ``run.json`` must be among them: its ``format`` "nesting-run" marks the folder as ours, and its ``files``
        lists all that we wrote.

    Raises
    ------
    JobError
        If the folder can't be written; what was there is then still there.
    """
    require_usable(folder)
    folder = folder.absolute()
    try:
        folder.parent.mkdir(parents=True, exist_ok=True)
        fresh = Path(tempfile.mkdtemp(prefix=f".{folder.name[:80]}-", dir=folder.parent))
        try:
            _fill(fresh, files)
            _keep_what_is_not_ours(folder, fresh)
            _swap(fresh, folder)
        finally:
            shutil.rmtree(fresh, ignore_errors=True)
    except OSError as error:
        raise _refused(folder, f"it can't be written ({_told(error)})", "Check the disk and permissions.") from None


def _require_ours_or_empty(folder: Path) -> None:
    if folder.is_symlink() or (folder.exists() and not folder.is_dir()):
        raise _refused(folder, "a file of that name is there", "Name another folder with --out.")
    if Path.cwd().is_relative_to(folder.resolve()):
        reason = "the folder is replaced as a whole, and you stand in it"
        raise _refused(folder, reason, "Name a new folder with --out, such as plan.")
    if folder.exists() and any(folder.iterdir()) and _written_by_us(folder) is None:
        reason = f"the folder is not empty and holds no {RUN_RECORD} of ours, so its files are not ours"
        raise _refused(folder, reason, "Name a new or empty folder with --out.")


def _takes_folders(place: Path) -> bool:
    """Whether a folder can be made in a place, found out by making one: permissions alone don't tell."""
    try:
        Path(tempfile.mkdtemp(prefix=".nesting-", dir=place)).rmdir()
    except OSError:
        return False
    return True


def _fill(folder: Path, files: Mapping[str, str]) -> None:
    folder.chmod(0o777 & ~_umask())
    for name, text in files.items():
        (folder / name).write_bytes(text.encode())


def _keep_what_is_not_ours(old: Path, fresh: Path) -> None:
    """Copy over what somebody else put into the folder."""
    ours = (_written_by_us(old) or set()) | {RUN_RECORD}
    for item in old.iterdir() if old.exists() else ():
        if item.name in ours:
            continue
        if os.path.lexists(fresh / item.name):
            reason = f'"{item.name}" there is not ours, and would be written over'
            raise _refused(old, reason, "Move that file, or name another folder with --out.")
        _copy(item, fresh / item.name)


def _copy(item: Path, place: Path) -> None:
    """Copy a file, a folder or a link as it is."""
    if item.is_dir() and not item.is_symlink():
        shutil.copytree(item, place, symlinks=True)
    else:
        shutil.copy2(item, place, follow_symlinks=False)


def _written_by_us(folder: Path) -> set[str] | None:
    """Return the names of the files that we wrote into a folder; None if it holds no record of ours."""
    try:
        record = json.loads((folder / RUN_RECORD).read_text(encoding="utf-8"))
        return set(record["files"]) if record["format"] == "nesting-run" else None
    except (OSError, ValueError, KeyError, TypeError, RecursionError):
        return None


def _swap(fresh: Path, folder: Path) -> None:
    if not folder.exists():
        fresh.rename(folder)
        return
    old = Path(tempfile.mkdtemp(prefix=f".{folder.name[:80]}-old-", dir=folder.parent))
    try:
        folder.rename(old / folder.name)
        fresh.rename(folder)
    except BaseException:  # Ctrl-C as well: what was there must not be lost
        if not folder.exists():
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


def _told(error: OSError) -> str:
    return error.strerror or str(error)


def _refused(folder: Path, reason: str, remedy: str) -> JobError:
    return JobError(Problem(code="output-folder", where="output folder", file=folder, reason=reason, remedy=remedy))
