"""Files that a job names: they must lie within the job's own folder."""

import stat
from pathlib import Path

from nesting.model import JobError, Problem

#: Bytes beyond which a job, offsets or plan file is taken for nonsense.
LARGEST = 32 * 1024 * 1024


def named_file(folder: Path, name: str, *, where: str, path: tuple[str | int, ...]) -> Path:
    """Return the file that a job names, after making sure that it may be read.

    Raises
    ------
    JobError
        If the name leads out of the folder (also by a link), or no ordinary file is there.
    """
    try:
        file = (folder / name).resolve()
        inside = file.is_relative_to(folder.resolve())
    except (OSError, ValueError, RuntimeError):
        inside = False
    if not inside:
        raise JobError(
            Problem(
                code="outside-folder",
                where=where,
                path=path,
                reason=f'"{name}" leads out of the job\'s folder',
                remedy="Put the file beside the job file and name it from there.",
            )
        )
    if not file.is_file():
        raise JobError(
            Problem(
                code="missing-file",
                where=where,
                path=path,
                reason=f'there is no file "{name}" beside the job file',
                remedy="Check the name, or put the file there.",
            )
        )
    return folder / name  # as the builder writes it: messages name it so


def text_of(file: Path) -> str:
    """Return the text of an ordinary file of sensible size, UTF-8 with or without a byte order mark.

    Raises
    ------
    JobError
        If the file is missing, not an ordinary file, too large or not UTF-8 text.
    """
    try:
        status = file.stat()
        if not stat.S_ISREG(status.st_mode):
            raise _unreadable(file, "it is not an ordinary file", "Name a text file.")
        if status.st_size > LARGEST:
            raise _unreadable(
                file, f"it has {status.st_size / 1e6:.0f} MB", f"Files up to {LARGEST >> 20} MB are read."
            )
        return file.read_bytes().decode("utf-8-sig")
    except FileNotFoundError:
        raise _unreadable(file, "there is no such file", "Check the name and the folder.") from None
    except OSError as error:
        raise _unreadable(file, f"it can't be read ({error.strerror})", "Check its permissions.") from None
    except UnicodeDecodeError:
        raise _unreadable(file, "it is not UTF-8 text", "Save it as UTF-8.") from None


def _unreadable(file: Path, reason: str, remedy: str) -> JobError:
    return JobError(Problem(code="unreadable", where="file", file=file, reason=reason, remedy=remedy))
