"""Where the open instances lie, and how their files are read."""

import json
from pathlib import Path
from typing import Any


class MissingDataError(Exception):
    """The folder of open instances, or a file in it, is not there."""


def data_folder(named: Path | None) -> Path:
    """Return the folder of open instances.

    Raises
    ------
    MissingDataError
        If no folder was named, or it is not there.
    """
    if named is None:
        raise MissingDataError(
            "this benchmark reads open instances: say where they lie with --data FOLDER or the variable NESTING_DATA"
        )
    if not named.is_dir():
        raise MissingDataError(f"there is no folder {named}: say where the open instances lie with --data FOLDER")
    return named


def read_file(folder: Path, name: str) -> dict[str, Any]:
    """Return what stands in one file.

    Raises
    ------
    MissingDataError
        If the file is not there.
    """
    try:
        found: dict[str, Any] = json.loads((folder / name).read_text(encoding="utf-8"))
    except FileNotFoundError:
        raise MissingDataError(f"there is no file {name} in {folder}") from None
    return found
