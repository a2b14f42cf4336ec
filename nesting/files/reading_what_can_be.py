"""Reads of a job what can be read, so that one slip does not hide what else is wrong."""

from collections.abc import Mapping, Sequence, Set
from copy import deepcopy
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from nesting.model import Job, JobError, Problem

from .inside import text_of
from .job_file import job_of, located, parsed

#: What can be left out without changing what is said of the rest.
PARTS = ("panels", "strips", "neighbours")

#: Where in the file the items of each of ``PARTS`` stand that are not left out.
Kept = Mapping[str, tuple[int, ...]]


@dataclass(frozen=True, kw_only=True)
class Readable:
    """What can be read of a job file.

    Attributes
    ----------
    job : Job or None
        The job, or what is left of it without the parts that can't be read; None if nothing sound is left.
    problems : sequence of Problem
        What is wrong with the file, each with its place.
    kept : mapping from "panels", "strips" and "neighbours" to indices
        Where in the file the items of ``job`` stand.
    """

    job: Job | None
    problems: Sequence[Problem] = ()
    kept: Kept

    def in_file(self, problem: Problem) -> Problem:
        """Return a problem of ``job`` with its path in the file."""
        return _in_file(problem, self.kept)


def read_what_can_be(file: Path) -> Readable:
    """Return what can be read of a job file, and all that is wrong with the rest; nothing is raised.

    Only parts and pairs of neighbours are left out: where something else is wrong (stock, joints, the workshop), too
    little would be known of what the rest can be made from, and there is no job.
    """
    try:
        text = text_of(file)
        data = parsed(text, file)
    except JobError as error:
        return Readable(job=None, problems=error.problems, kept={})
    job, kept, problems = _sound_parts(data, file.parent)
    return Readable(job=job, problems=located(problems, file, text), kept=kept)


def _sound_parts(data: dict[str, Any], folder: Path) -> tuple[Job | None, Kept, list[Problem]]:
    """Read again and again, each time without the parts that could not be read."""
    told: list[Problem] = []
    kept: Kept = {kind: tuple(range(len(data[kind]))) for kind in PARTS if isinstance(data.get(kind), list)}
    while True:
        try:
            return job_of(_only(data, kept), folder), kept, told
        except JobError as error:
            found = [_in_file(problem, kept) for problem in error.problems]
        told += [problem for problem in found if not (told and problem.code == "no-parts")]
        if not all(len(problem.path) > 1 and problem.path[0] in kept for problem in found):
            return None, kept, told
        kept = _without(data, kept, {problem.path[:2] for problem in found})


def _only(data: dict[str, Any], kept: Kept) -> dict[str, Any]:
    """Return a copy of the data, as reading changes them, with only the items that are kept."""
    return deepcopy({**data, **{kind: [data[kind][index] for index in places] for kind, places in kept.items()}})


def _without(data: dict[str, Any], kept: Kept, gone: Set[tuple[str | int, ...]]) -> Kept:
    """Drop items, and the pairs of neighbours that lose a part by it."""
    names = [_named(data[kind][index], "name") for kind, index in gone if kind in ("panels", "strips")]
    lost = {("neighbours", k) for k in kept.get("neighbours", ()) if _meets(data["neighbours"][k], names)}
    return {kind: tuple(k for k in places if (kind, k) not in gone | lost) for kind, places in kept.items()}


def _meets(pair: Any, names: list[Any]) -> bool:
    between = _named(pair, "between")
    return isinstance(between, list) and any(name in names for name in between)


def _named(item: Any, key: str) -> Any:
    return item.get(key) if isinstance(item, dict) else None


def _in_file(problem: Problem, kept: Kept) -> Problem:
    path = problem.path
    if len(path) < 2 or path[0] not in kept or not isinstance(path[1], int):
        return problem
    return replace(problem, path=(path[0], kept[str(path[0])][path[1]], *path[2:]))
