"""What the model refuses, told as problems with place, reason and remedy."""

import re
from collections.abc import Sequence
from typing import Any

from pydantic import BaseModel, ValidationError

from nesting.model import (
    Fault,
    Frame,
    Job,
    JointCost,
    JointRule,
    Kerf,
    Length,
    Mark,
    Neighbours,
    Outline,
    Panel,
    PriceBreak,
    Problem,
    Sheet,
    Strip,
    Workshop,
    suggestion,
)

#: Which model the table of a key is.
_MODELS: dict[str, type[BaseModel]] = {
    "workshop": Workshop,
    "kerf": Kerf,
    "cost": JointCost,
    "sheets": Sheet,
    "panels": Panel,
    "frames": Frame,
    "neighbours": Neighbours,
    "lengths": Length,
    "strips": Strip,
    "outline": Outline,
    "price_breaks": PriceBreak,
    "faults": Fault,
    "marks": Mark,
}

#: How pydantic tells of limits, and how a builder would.
_LIMITS = (
    ("greater than or equal to", r"\1 or more"),
    ("less than or equal to", r"\1 or less"),
    ("greater than", r"more than \1"),
)

Path = tuple[str | int, ...]


def problems_of(error: ValidationError, data: dict[str, Any]) -> list[Problem]:
    """Return one problem for each place that the model refused; ``data`` is what it was given."""
    found: dict[Path, Problem] = {}
    for detail in error.errors(include_url=False):
        if _of_the_other_branch(detail):
            continue
        path = _within(detail["loc"], data, extra=detail["type"] == "missing")
        found.setdefault(path, _problem(detail, path, data))
    return [problem for path, problem in found.items() if not _follows_from_deeper(problem, path, found)]


def _of_the_other_branch(detail: Any) -> bool:
    """Whether pydantic only misses the bulge of a vertex that is given without one."""
    return detail["type"] == "missing" and isinstance(detail["loc"][-1], int)


def _follows_from_deeper(problem: Problem, path: Path, found: dict[Path, Problem]) -> bool:
    """Whether a list is called too short only because its items were refused."""
    return "after validation" in problem.reason and any(len(p) > len(path) and p[: len(path)] == path for p in found)


def place(path: Sequence[str | int], data: Any) -> str:
    """Return a path in words, such as ``panel "bilge", outline``."""
    if len(path) >= 2 and isinstance(path[1], int):
        kind, index = str(path[0]), int(path[1])
        item = data[kind][index]
        name = item.get("name") if isinstance(item, dict) else None
        head = f'{str(path[0])[:-1]} "{name}"' if isinstance(name, str) else f"{path[0]} no. {index + 1}"
        return ", ".join([head, *(_step(step) for step in path[2:])])
    return ", ".join(_step(step) for step in path) or "job"


def _step(step: str | int) -> str:
    return f"no. {step + 1}" if isinstance(step, int) else step


def _within(location: tuple[str | int, ...], data: Any, *, extra: bool) -> Path:
    """Drop from a location what names a branch of the model rather than a place in the data."""
    path: list[str | int] = []
    for step in location:
        if _holds(data, step):
            data = data[step]
        elif extra and step == location[-1]:
            pass
        else:
            continue
        path.append(step)
    return tuple(path)


def _holds(data: Any, step: str | int) -> bool:
    if isinstance(data, dict):
        return step in data
    return isinstance(data, list | tuple) and isinstance(step, int) and step < len(data)


def _problem(detail: Any, path: Path, data: dict[str, Any]) -> Problem:
    if detail["type"] == "extra_forbidden":
        return _unknown_key(path, data)
    if detail["type"] == "missing":
        return Problem(
            code="missing-key",
            where=place(path[:-1], data),
            path=path,
            reason=f'the key "{path[-1]}" is missing',
            remedy="Add it.",
        )
    reason = _in_words(detail["msg"])
    return Problem(
        code="bad-value",
        where=place(path, data),
        path=path,
        reason=f"{_shown(detail['input'])}{reason[0].lower()}{reason[1:]}",
        remedy="Correct the value.",
    )


def _in_words(message: str) -> str:
    """Return what pydantic says of a value in words for the builder."""
    plain = message.removeprefix("Value error, ").replace("Input should be ", "it must be ", 1)
    for theirs, ours in _LIMITS:
        plain = re.sub(f"^it must be {theirs} (.*)$", f"it must be {ours}", plain)
    return plain


def _unknown_key(path: Path, data: dict[str, Any]) -> Problem:
    model = _model_at(path[:-1])
    known = sorted([*model.model_fields, *_other_forms(model, path)])
    otherwise = f"Known here: {', '.join(known)}."
    return Problem(
        code="unknown-key",
        where=place(path[:-1], data),
        path=path,
        reason=f'the key "{path[-1]}" is not known here',
        remedy=suggestion(str(path[-1]), known, otherwise),
    )


def _other_forms(model: type[BaseModel], path: Path) -> tuple[str, ...]:
    """Return the keys by which an outline may be given instead of points; only a panel's may name a file."""
    if model is not Outline:
        return ()
    return ("offsets", "rectangle") if path[0] == "panels" else ("rectangle",)


def _model_at(path: Path) -> type[BaseModel]:
    if len(path) == 2 and path[0] == "joints":
        return JointRule
    names = [step for step in path if isinstance(step, str)]
    return _MODELS[names[-1]] if names else Job


def _shown(value: Any) -> str:
    if isinstance(value, dict | list | tuple):
        return ""
    return f"{value!r}: "[:80] if isinstance(value, str) else f"{value}: "[:80]
