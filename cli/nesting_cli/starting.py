"""The verb ``new``."""

import shlex
from pathlib import Path

from nesting.model import JobError, Problem
from nesting.starters import JOB_FILE, STARTERS, starter_files


def write_starter(file: Path, starter: str) -> None:
    """Write a starter job and the files that it names beside it; nothing is overwritten."""
    if starter not in STARTERS:
        _refuse("starter", None, f'there is no starter "{starter}"', f"Choose one of: {', '.join(STARTERS)}.")
    texts = starter_files(starter)
    if file.name != JOB_FILE and file.name in texts:
        _refuse("file", file, f'the starter job brings its own "{file.name}"', "Name a job file, such as job.toml.")
    places = {file if name == JOB_FILE else file.parent / name: text for name, text in texts.items()}
    for place in places:
        if place.exists():
            _refuse("file", place, "it is there already", "Name a file in a new folder.")
    try:
        for place, text in places.items():
            place.parent.mkdir(parents=True, exist_ok=True)
            place.write_text(text, encoding="utf-8")
    except OSError as error:
        _refuse("file", file, f"it can't be written ({error.strerror})", "Name a file that you may write.")
    print(f"wrote {', '.join(str(place) for place in places)}")
    print(f"now: {shlex.join(['nesting', 'plan', str(file), '--out', str(file.parent / 'plan')])}")


def _refuse(where: str, file: Path | None, reason: str, remedy: str) -> None:
    raise JobError(Problem(code="new", where=where, file=file, reason=reason, remedy=remedy))
