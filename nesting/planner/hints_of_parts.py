"""Hints on panels and strips."""

from collections.abc import Iterator

from shapely.geometry import Polygon

from nesting.model import Job, Outline, Panel, Problem, Sheet, Strip, sheet_serves
from nesting.outlines import OutlineError, no_joint_zones, polygon


def needless_joints(job: Job) -> Iterator[Problem]:
    """Hint at panels with a joint that are always made in one piece, as some sheet is long enough."""
    for index, panel in enumerate(job.panels):
        span = _span(panel)
        if panel.joint is None or span is None:
            continue
        longest = max((_longest_piece(job, panel, sheet) for sheet in job.sheets), default=0.0)
        if span[1] - span[0] <= longest:
            reason = f"it is {span[1] - span[0]:g} mm long and sheets give {longest:g} mm, so it is never divided"
            yield _hint("joint", ("panels", index, "joint"), panel, reason, "Leave its joint out, or check its length.")


def zones_outside(job: Job) -> Iterator[Problem]:
    """Hint at no-joint zones that lie wholly beyond the ends of their part."""
    for path, item in _parts(job):
        span = _span(item)
        for number, (start, end) in enumerate(item.no_joint):
            if span is not None and (end <= span[0] or start >= span[1]):
                reason = f"the zone from {start:g} to {end:g} mm is beyond the part ({span[0]:g} to {span[1]:g} mm)"
                remedy = "Zones are in the part's own stations, not the boat's: correct it."
                yield _hint("zone", (*path, "no_joint", number), item, reason, remedy)


def frames_outside(job: Job) -> Iterator[Problem]:
    """Hint at panels that name a frame which stands, with its clearance, beyond their ends."""
    for index, panel in enumerate(job.panels):
        span, named = _span(panel), [frame.name for frame in job.frames if frame.name in panel.frames]
        zones = no_joint_zones(job, panel)[len(panel.no_joint) :]
        for name, (start, end) in zip(named, zones, strict=True):
            if span is not None and (end <= span[0] or start >= span[1]):
                reason = f'frame "{name}" stands at its station {(start + end) / 2:g} mm, beyond its ends'
                remedy = "Check the frame's station, the panel's boat_stations, or leave the frame out of its frames."
                yield _hint("frame", ("panels", index, "frames"), panel, reason, remedy)


def _parts(job: Job) -> Iterator[tuple[tuple[str, int], Panel | Strip]]:
    for index, panel in enumerate(job.panels):
        yield ("panels", index), panel
    for index, strip in enumerate(job.strips):
        yield ("strips", index), strip


def _span(item: Panel | Strip) -> tuple[float, float] | None:
    """Return the first and last station of a part; None if its outline can't be used."""
    if isinstance(item, Strip):
        return 0.0, item.length
    if (shape := _shape(item.outline)) is None:
        return None
    west, _, east, _ = shape.bounds
    return west, east


def _longest_piece(job: Job, panel: Panel, sheet: Sheet) -> float:
    """Return the longest piece of a panel, along its x axis, that a sheet gives; 0 if it gives none."""
    usable = _usable(sheet, job.workshop.trim)
    if usable is None or not sheet_serves(job, sheet, panel):
        return 0.0
    along, across = usable
    longest = {"along": along, "across": across, "any": max(along, across)}[panel.grain]
    return min(longest, job.workshop.longest_piece or longest)


def _usable(sheet: Sheet, trim: float) -> tuple[float, float] | None:
    """Return how far a sheet can be used along its grain and across it: an offcut has no factory edge."""
    if sheet.size is not None:
        return sheet.size[0] - 2 * trim, sheet.size[1] - 2 * trim
    if sheet.outline is None or (shape := _shape(sheet.outline)) is None:
        return None
    west, south, east, north = shape.bounds
    return east - west, north - south


def _shape(outline: Outline) -> Polygon | None:
    try:
        return polygon(outline)
    except OutlineError:
        return None


def _hint(code: str, path: tuple[str | int, ...], item: Panel | Strip, reason: str, remedy: str) -> Problem:
    where = f'{str(path[0])[:-1]} "{item.name}", {path[2]}'
    return Problem(code=f"hint-{code}", where=where, path=path, reason=reason, remedy=remedy)
