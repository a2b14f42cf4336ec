"""Reads a job from TOML or JSON, with everything that it names."""

import json
import re
import tomllib
from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal, InvalidOperation
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from nesting.model import UNITS, Job, JobError, Problem, figures_in

from .complaints import place, problems_of
from .inside import named_file, text_of
from .offsets_csv import read_offsets
from .places import line_of


def read_job(file: Path) -> Job:
    """Return the job that a file describes; outlines that it names are read from beside it.

    Parameters
    ----------
    file : Path
        TOML, or JSON of the same structure if its name ends in ``.json``.

    Raises
    ------
    JobError
        With all that is wrong, each with file, line, place, reason and remedy.
    """
    text = text_of(file)
    data = parsed(text, file)
    try:
        return job_of(data, file.parent)
    except JobError as error:
        raise JobError(located(error.problems, file, text)) from None


def job_of(data: dict[str, Any], folder: Path) -> Job:
    """Return the job that parsed data describe; outlines read from ``folder`` take the place of their names."""
    with figures_in(_unit(data)):
        problems = _resolve_outlines(data, folder)
    return _validated(data, problems)


def located(problems: Sequence[Problem], file: Path, text: str | None = None) -> list[Problem]:
    """Return the problems of a job with the file and the lines that their paths lead to.

    Parameters
    ----------
    text : str or None
        The file's text if it is at hand.
    """
    if file.suffix == ".json":
        return [problem.at(file, None) for problem in problems]
    source = text_of(file) if text is None else text
    return [p if p.file else p.at(file, line_of(source, p.path)) for p in problems]


def parsed(text: str, file: Path) -> dict[str, Any]:
    """Return what stands in a job file, unchecked."""
    try:
        data = _json(text) if file.suffix == ".json" else tomllib.loads(text, parse_float=_figure)
    except (ValueError, RecursionError) as error:
        kind = "JSON" if file.suffix == ".json" else "TOML"
        line = re.search(r"line (\d+)", str(error))
        problem = Problem(
            code="syntax",
            where="job file",
            file=file,
            line=int(line[1]) if line else None,
            reason=f"it is not {kind} ({error})",
            remedy="Mend the text at that place; texts need quotes, tables a [name].",
        )
        raise JobError(problem) from None
    if not isinstance(data, dict):
        raise JobError(
            Problem(code="syntax", where="job file", file=file, reason="it holds no job", remedy="Write keys.")
        )
    return data


def _json(text: str) -> Any:
    return json.loads(text, parse_float=_figure, object_pairs_hook=_without_repeats)


def _without_repeats(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    """Refuse a key that stands twice, as TOML does: one of the two would be ignored."""
    found = dict(pairs)
    if len(found) < len(pairs):
        keys = [key for key, _ in pairs]
        raise ValueError(f'the key "{next(key for key in keys if keys.count(key) > 1)}" stands twice in one object')
    return found


def _figure(text: str) -> Decimal | float:
    """Return the exact figure; one that is not finite becomes a float, which can be compared and so refused."""
    try:
        figure = Decimal(text)
    except InvalidOperation:
        return float(text)
    return figure if figure.is_finite() else float(text)


def _unit(data: dict[str, Any]) -> str:
    """Return the units of the job, or millimetres where it has none that are known."""
    unit = data.get("units", "mm")
    return unit if isinstance(unit, str) and unit in UNITS else "mm"


def _resolve_outlines(data: dict[str, Any], folder: Path) -> list[Problem]:
    """Put the outline in the place of each outline that names a file; return what went wrong."""
    problems: list[Problem] = []
    panels = data.get("panels")
    for index, panel in enumerate(panels if isinstance(panels, list) else ()):
        outline = panel.get("outline") if isinstance(panel, dict) else None
        if isinstance(outline, dict) and "offsets" in outline:
            path = ("panels", index, "outline", "offsets")
            try:
                panel["outline"] = _offsets(outline, folder, place(path[:3], data), path)
            except JobError as error:
                problems += [replace(problem, path=problem.path or path) for problem in error.problems]
                panel["outline"] = {"rectangle": [1000, 100]}  # lets the rest of the job be checked
    return problems


def _offsets(outline: dict[str, Any], folder: Path, where: str, path: tuple[str | int, ...]) -> Any:
    name = outline["offsets"]
    if not isinstance(name, str) or len(outline) > 1:
        reason = "offsets takes the name of a CSV file and no other key beside it"
        raise JobError(
            Problem(code="bad-value", where=where, path=path, reason=reason, remedy='{ offsets = "bilge.csv" }')
        )
    return read_offsets(named_file(folder, name, where=where, path=path))


def _validated(data: dict[str, Any], problems: list[Problem]) -> Job:
    try:
        job = Job.model_validate(data)
    except ValidationError as error:
        raise JobError([*problems, *problems_of(error, data)]) from None
    except JobError as error:
        raise JobError([*problems, *error.problems]) from None
    if problems:
        raise JobError(problems)
    return job
