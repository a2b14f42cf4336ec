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


def same_section(one: tuple[float, float], other: tuple[float, float]) -> bool:
    """Whether two sections, width and thickness, are the same."""
    return all(abs(a - b) <= TOLERANCE for a, b in zip(one, other, strict=True))


def same_timber(length: Length, strip: Strip) -> bool:
    """Whether a length is of the material and section that a strip asks for, its grade apart."""
    return length.material == strip.material and same_section(length.section, strip.section)


def sticks_from(job: Job, length: Length, section: tuple[float, float]) -> int:
    """Return how many sticks of a section lie side by side in a plank that is ripped; 0 if it is not ripped for it.

    It has to be as thick, and wider; n sticks take n widths and n - 1 cuts of the rip saw.
    """
    (width, thickness), kerf = section, job.workshop.kerf.rip
    wider = length.section[0] > width + TOLERANCE
    if kerf is None or not wider or abs(length.section[1] - thickness) > TOLERANCE:
        return 0
    return int((length.section[0] + kerf + TOLERANCE) // (width + kerf))


def timber_gives(job: Job, length: Length, strip: Strip) -> bool:
    """Whether a length is of the material and section that a strip asks for, or is ripped to it; its grade apart."""
    ripped = length.material == strip.material and sticks_from(job, length, strip.section) > 0
    return ripped or same_timber(length, strip)


def length_serves(job: Job, length: Length, strip: Strip) -> bool:
    """Whether a strip may be cut from a length, ripped if need be, how long it is apart."""
    return timber_gives(job, length, strip) and job.rank(length.grade) >= job.rank(strip.grade)
