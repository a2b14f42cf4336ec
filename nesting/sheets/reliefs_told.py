"""What to write in the job so that a panel can be made, in the builder's words."""

import math
from collections.abc import Iterator

from nesting.joints import Reach, Relief, reliefs
from nesting.model import Job

from .parts import Part, longest_pieces


def reliefs_told(part: Part, job: Job) -> list[str]:
    """Return, for each rule that alone can be eased enough, what to do, and with how many joints it then works."""
    return [f"{_told(relief, part, job)}, with {_joints(relief.joints)}" for relief in reliefs(part.reach)]


def zones_named(part: Part, job: Job) -> list[str]:
    """Return where no joint of a panel may lie, in its own stations, with the frame that stands there if it is one."""
    frames = [f' about frame "{frame.name}"' for frame in job.frames if frame.name in part.panel.frames]
    there = [*([""] * len(part.panel.no_joint)), *frames]
    return [f"{start:g} to {end:g}{frame}" for (start, end), frame in zip(part.reach.zones, there, strict=True)]


def longer_piece(length: float, given: float, handled: float) -> str:
    """Tell what it takes to have a piece of some length: a sheet that gives it, leave to handle it, or both.

    Parameters
    ----------
    length, given, handled : float
        How long it is, the longest that the sheets give, and the longest that can be handled, in millimetres.
    """
    return " and ".join(_longer(math.ceil(length), given, handled))


def longest_given(part: Part) -> float:
    """Return the longest piece of a panel that its sheets give, whether it can be handled or not."""
    return max(longest_pieces(part.panel, part.shape, part.stocks))


def _longer(length: int, given: float, handled: float) -> Iterator[str]:
    if length > given:
        yield f"offer a sheet that gives a piece of {length} (now {round(given, 1):g})"
    if length > handled:
        yield f"raise longest_piece to {length} (now {handled:g})"


def _told(relief: Relief, part: Part, job: Job) -> str:
    reach, by = part.reach, relief.by
    if relief.rule in ("zone start", "zone end"):
        return _zone_told(relief, reach, zones_named(part, job)[relief.zone])
    if relief.rule == "longest piece":
        return longer_piece(reach.usable + by, longest_given(part), job.workshop.longest_piece or math.inf)
    if relief.rule == "least piece":
        return f"allow pieces of {math.floor(reach.least_piece - by)} (now {reach.least_piece:g})"
    return f"allow {_joints(reach.most_joints + round(by))} (now {reach.most_joints})"


def _zone_told(relief: Relief, reach: Reach, zone: str) -> str:
    start, end = reach.zones[relief.zone]
    if relief.rule == "zone start":
        return f"start the no-joint zone {zone} at {start + relief.by:g} ({relief.by:g} later)"
    return f"end the no-joint zone {zone} at {end - relief.by:g} ({relief.by:g} earlier)"


def _joints(count: int) -> str:
    return f"{count} joint{'s' * (count != 1)}"
