"""Which stock may serve which part: material, measure, and a grade at least as good."""

from .base import TOLERANCE
from .job import Job
from .parts import Panel, Strip
from .stock import Length, Sheet


def same_goods(sheet: Sheet, panel: Panel) -> bool:
    """Whether a sheet is of the material and thickness that a panel asks for, its grade apart."""
    return sheet.material == panel.material and abs(sheet.thickness - panel.thickness) <= TOLERANCE


def sheet_serves(job: Job, sheet: Sheet, panel: Panel) -> bool:
    """Whether a panel may be cut from a sheet, its size apart."""
    return same_goods(sheet, panel) and job.rank(sheet.grade) >= job.rank(panel.grade)


def length_serves(job: Job, length: Length, strip: Strip) -> bool:
    """Whether a strip may be cut from a length, how long it is apart."""
    apart = max(abs(a - b) for a, b in zip(length.section, strip.section, strict=True))
    same = length.material == strip.material and apart <= TOLERANCE
    return same and job.rank(length.grade) >= job.rank(strip.grade)
