"""Reads of a job what can be read, so that one slip does not hide what else is wrong."""

from collections.abc import Mapping, Sequence, Set
from copy import deepcopy
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from nesting.model import Job, JobError, Problem

from .inside import text_of
from .job_file import job_of, located, parsed

#: What is left out item by item where it can't be read.
LISTS = ("panels", "strips", "neighbours", "frames", "sheets", "lengths")

#: Of which parts nothing can be said where stock is left out, or the workshop: it might have served, or hindered, them.
DEPENDENT = {"sheets": ("panels",), "lengths": ("strips",), "workshop": ("panels", "strips")}

#: Where in the file the items of each of ``LISTS`` stand that are not left out.
Kept = Mapping[str, tuple[int, ...]]

#: What is left out: a kind of item, or a table, and its place or name.
Gone = tuple[str, int | str]


@dataclass(frozen=True, kw_only=True)
class Readable:
    """What can be read of a job file.

    Attributes
    ----------
    job : Job or None
        The job, or what is left of it without what can't be read; None if nothing sound is left.
    problems : sequence of Problem
        What is wrong with the file, each with its place.
    kept : mapping from kinds of item to indices
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

    With a joint or a frame the parts that name it are left out. Where stock is wrong nothing can be said of what might
    have come from it, and where the workshop is, nothing of any part: there is no such part in the job then.
    """
    try:
        text = text_of(file)
        data = parsed(text, file)
    except JobError as error:
        return Readable(job=None, problems=error.problems, kept={})
    read = _Reading(data, file.parent)
    return Readable(job=read.job, problems=located(read.told, file, text), kept=read.kept)


class _Reading:
    """Reads again and again, each time without what could not be read."""

    def __init__(self, data: dict[str, Any], folder: Path) -> None:
        self._data, self._folder = data, folder
        self.told: list[Problem] = []
        self.kept: Kept = {kind: tuple(range(len(data[kind]))) for kind in LISTS if isinstance(data.get(kind), list)}
        self._gone: set[Gone] = set()
        self.job = self._read()

    def _read(self) -> Job | None:
        while True:
            try:
                job = job_of(self._sound(), self._folder)
            except JobError as error:
                found = [_in_file(problem, self.kept) for problem in error.problems]
            else:
                return self._judged(job)
            self.told += [problem for problem in found if not (self.told and problem.code == "no-parts")]
            gone = {_item(problem, self.kept) for problem in found}
            if None in gone or gone <= self._gone:
                return None
            self._leave_out({item for item in gone if item is not None})

    def _judged(self, job: Job) -> Job | None:
        """Return the job without the parts of which nothing can be said."""
        kinds = {kind for kind, _ in self._gone}
        parts = {part for kind, those in DEPENDENT.items() if kind in kinds for part in those}
        if not parts:
            return job
        self._leave_out({(part, k) for part in parts for k in self.kept.get(part, ())})
        return None if not (self.kept.get("panels") or self.kept.get("strips")) else job_of(self._sound(), self._folder)

    def _sound(self) -> dict[str, Any]:
        """Return a copy of the data, as reading changes them, with only what is kept."""
        items = {kind: [self._data[kind][index] for index in places] for kind, places in self.kept.items()}
        data = {**self._data, **items}
        if ("workshop", "") in self._gone:
            del data["workshop"]
        if isinstance(data.get("joints"), dict):
            data["joints"] = {name: rule for name, rule in data["joints"].items() if ("joints", name) not in self._gone}
        return deepcopy(data)

    def _leave_out(self, gone: Set[Gone]) -> None:
        """Drop items, the parts that name a joint or frame among them, and the pairs of neighbours that lose one."""
        self._gone |= gone
        joints = [name for kind, name in gone if kind == "joints"]
        frames = [_named(self._data[kind][k], "name") for kind, k in gone if kind == "frames" and isinstance(k, int)]
        parts = {(kind, k) for kind in ("panels", "strips") for k in self.kept.get(kind, ())}
        lost = gone | {(kind, k) for kind, k in parts if _names(self._data[kind][k], joints, frames)}
        names = [_named(self._data[kind][k], "name") for kind, k in lost & parts]
        lost |= {
            ("neighbours", k) for k in self.kept.get("neighbours", ()) if _meets(self._data["neighbours"][k], names)
        }
        self.kept = {kind: tuple(k for k in places if (kind, k) not in lost) for kind, places in self.kept.items()}


def _item(problem: Problem, kept: Kept) -> Gone | None:
    """Return what to leave out so that a problem is gone; None where that is not one item."""
    kind, *rest = problem.path or ("",)
    if kind == "workshop":
        return "workshop", ""
    if not rest or (kind not in kept and kind != "joints"):
        return None
    return str(kind), rest[0]


def _names(part: Any, joints: Sequence[Any], frames: Sequence[Any]) -> bool:
    """Whether a part names one of these joints or frames."""
    named = _named(part, "frames")
    return _named(part, "joint") in joints or (isinstance(named, list) and any(name in frames for name in named))


def _meets(pair: Any, names: list[Any]) -> bool:
    between = _named(pair, "between")
    return isinstance(between, list) and any(name in names for name in between)


def _named(item: Any, key: str) -> Any:
    """Return a text or list that an item holds; None for what is neither."""
    value = item.get(key) if isinstance(item, dict) else None
    return value if isinstance(value, str | list) else None


def _in_file(problem: Problem, kept: Kept) -> Problem:
    path = problem.path
    if len(path) < 2 or path[0] not in kept or not isinstance(path[1], int):
        return problem
    return replace(problem, path=(path[0], kept[str(path[0])][path[1]], *path[2:]))
