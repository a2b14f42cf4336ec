"""A job with everything resolved: outlines as clean polygons, nothing left to look up."""

import hashlib
import json
from typing import Any, TypeVar

import shapely
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from nesting.model import Job, JobError, Outline, Panel, Problem, Sheet
from nesting.outlines import OutlineError, grown_outside, polygon, ring_points, shrunk

Item = TypeVar("Item", Panel, Sheet)


def resolved(job: Job) -> Job:
    """Return the job with every outline cleaned and its arcs flattened within 0.05 mm.

    Raises
    ------
    JobError
        Naming every part or sheet whose outline can't be used, and every sheet that trim or faults leave nothing of.
    """
    problems: list[Problem] = []
    panels = tuple(_resolved(panel, ("panels", k), "panel", problems) for k, panel in enumerate(job.panels))
    sheets = tuple(_with_faults(_sheet(sheet, k, problems), k, problems) for k, sheet in enumerate(job.sheets))
    trimmed = [k for k, sheet in enumerate(job.sheets) if _leaves_nothing(job, sheet)]
    problems += [_trimmed_away(job, k) for k in trimmed]
    problems += [_all_fault(job, k) for k, s in enumerate(sheets) if k not in trimmed and _is_all_fault(job, s)]
    if problems:
        raise JobError(problems)
    return job.model_copy(update={"panels": panels, "sheets": sheets})


def job_sha256(job: Job) -> str:
    """Return the hash of a job's canonical JSON: keys sorted, no spaces, UTF-8."""
    text = json.dumps(job.model_dump(mode="json"), sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return hashlib.sha256(text.encode()).hexdigest()


def _sheet(sheet: Sheet, index: int, problems: list[Problem]) -> Sheet:
    return sheet if sheet.outline is None else _resolved(sheet, ("sheets", index), "sheet", problems)


def _resolved(item: Item, path: tuple[str, int], kind: str, problems: list[Problem]) -> Item:
    outline = item.outline
    if outline is None:
        return item
    try:
        return item.model_copy(update={"outline": _flat(outline)})
    except OutlineError as error:
        problems.append(_problem(error, f'{kind} "{item.name}", outline', (*path, "outline")))
        return item


def _flat(outline: Outline) -> Outline:
    shape = polygon(outline)
    holes = tuple(ring_points(hole) for hole in shape.interiors)
    return Outline(points=ring_points(shape.exterior), holes=holes, marks=outline.marks)


def _with_faults(sheet: Sheet, index: int, problems: list[Problem]) -> Sheet:
    faults = []
    for number, fault in enumerate(sheet.faults):
        try:
            points = ring_points(polygon(Outline(points=fault.points)).exterior)
            faults.append(fault.model_copy(update={"points": points}))
        except OutlineError as error:
            where = f'sheet "{sheet.name}", fault no. {number + 1}'
            problems.append(_problem(error, where, ("sheets", index, "faults", number)))
    return sheet.model_copy(update={"faults": tuple(faults)})


def _leaves_nothing(job: Job, sheet: Sheet) -> bool:
    """Whether trim and allowance leave no one region of a sheet in which the lines of parts could lie."""
    left = _room(job, sheet)
    return left is not None and (left.is_empty or not isinstance(left, Polygon))


def _room(job: Job, sheet: Sheet) -> BaseGeometry | None:
    """Return where the lines of parts may lie but for faults; None if the outline is not sound."""
    length, width = sheet.size or (0.0, 0.0)
    try:
        shape = polygon(sheet.outline or Outline(points=((0, 0), (length, 0), (length, width), (0, width))))
    except OutlineError:
        return None  # that is told already
    return shrunk(shape, job.workshop.allowance + (job.workshop.trim if sheet.size else 0.0))


def _is_all_fault(job: Job, sheet: Sheet) -> bool:
    """Whether faults through a sheet leave nothing in which the lines of parts could lie."""
    room, through = _room(job, sheet), [Polygon(fault.points) for fault in sheet.faults if fault.side == "both"]
    if room is None or not through or not all(fault.is_valid for fault in through):
        return False
    grown = [grown_outside(fault, job.workshop.allowance) for fault in through]
    return bool(room.difference(shapely.union_all(grown)).area <= 0)


def _trimmed_away(job: Job, index: int) -> Problem:
    workshop = job.workshop
    also = f" and an allowance of {workshop.allowance:g}" if workshop.allowance else ""
    return Problem(
        code="trimmed-away",
        where=f'sheet "{job.sheets[index].name}"',
        path=("sheets", index),
        reason=f"a trim of {workshop.trim:g}{also} on each edge leaves nothing of it in one region",
        remedy="Lower the trim or the allowance, or correct the sheet's size.",
    )


def _all_fault(job: Job, index: int) -> Problem:
    return Problem(
        code="all-fault",
        where=f'sheet "{job.sheets[index].name}"',
        path=("sheets", index, "faults"),
        reason="its faults leave nothing of it that parts could be cut from",
        remedy="Correct the faults, or leave the sheet out.",
    )


def _problem(error: OutlineError, where: str, path: tuple[Any, ...]) -> Problem:
    return Problem(code=error.code, where=where, path=path, reason=error.reason, remedy=error.remedy)
