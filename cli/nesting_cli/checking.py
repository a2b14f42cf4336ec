"""The verb ``check``."""

import json
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import typer

from nesting.files import located, read_what_can_be
from nesting.model import Job, Problem
from nesting.outlines import polygon
from nesting.planner import check, hints

from .failures import UNUSABLE, say
from .hinting import say_each


@dataclass(frozen=True)
class Found:
    """What a check came to; there is no ``job`` if so much of the file can't be read that nothing more can be said."""

    file: Path
    job: Job | None
    problems: Sequence[Problem]
    hints: Sequence[Problem]


def check_job(job_file: Path, tell: Callable[[Found], None]) -> None:
    """Tell all that is wrong with a job; end with the status for unusable input if anything is."""
    found = _found(job_file)
    tell(found)
    if found.problems:
        raise typer.Exit(UNUSABLE)


def tell_as_lines(found: Found) -> None:
    """Say problems and hints on standard error; sum the job up if there are no problems."""
    for problem in found.problems:
        say(str(problem))
    say_each(found.hints)
    if not found.problems and found.job is not None:
        print(f"{found.file}: nothing wrong: {_summary(found.job)}")


def tell_as_json(found: Found) -> None:
    """Print problems and hints as one JSON list."""
    told = [_as_json("problem", item) for item in found.problems] + [_as_json("hint", item) for item in found.hints]
    print(json.dumps(told, indent=1, ensure_ascii=False))


def _found(job_file: Path) -> Found:
    readable = read_what_can_be(job_file)
    job = readable.job
    if job is None:
        return Found(job_file, None, readable.problems, ())
    problems = [readable.in_file(problem) for problem in check(job)]
    guesses = [readable.in_file(hint) for hint in hints(job)] if not readable.problems else []
    found = [*readable.problems, *located(problems, job_file)]
    return Found(job_file, job, sorted(found, key=_order(job_file)), located(guesses, job_file))


def _order(job_file: Path) -> Callable[[Problem], tuple[bool, int]]:
    """Order problems down the job file, those of other files last."""
    return lambda problem: (problem.file != job_file, problem.line or 0)


def _summary(job: Job) -> str:
    """Return how many parts a job asks for, their net area, and the stock there is."""
    panels, strips = sum(panel.quantity for panel in job.panels), sum(strip.quantity for strip in job.strips)
    area = sum(polygon(panel.outline).area * panel.quantity for panel in job.panels) / 1e6
    metres = sum(strip.length * strip.quantity for strip in job.strips) / 1e3
    asked = [f"{panels} panels, {area:.2f} m2 net"] if panels else []
    asked += [f"{strips} strips, {metres:.2f} m"] if strips else []
    stock = [f"{len(job.sheets)} kinds of sheet"] if job.sheets else []
    stock += [f"{len(job.lengths)} kinds of timber"] if job.lengths else []
    return f"{' and '.join(asked)}, from {' and '.join(stock)}"


def _as_json(kind: str, problem: Problem) -> dict[str, Any]:
    return {
        "kind": kind,
        "code": problem.code,
        "file": None if problem.file is None else str(problem.file),
        "line": problem.line,
        "where": problem.where,
        "path": list(problem.path),
        "reason": problem.reason,
        "remedy": problem.remedy,
    }
