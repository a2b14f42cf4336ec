"""What a panel needs of a sheet at the least: area with its share of the kerf, laps, and straps."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from nesting.joints import Reach, least_chord, least_joints
from nesting.model import Job, Panel, sheet_serves
from nesting.outlines import grown_inside, no_joint_zones, polygon

from .supply import Supply

#: Millimetres taken off a least chord: many times what it can be overstated by.
HAIR = 1e-5


@dataclass(frozen=True)
class Demand:
    """The least that all copies of one panel take, in square millimetres."""

    panel: Panel
    area: float


def demand_of(job: Job, panel: Panel, supplies: Sequence[Supply]) -> Demand:
    """Return the least that a panel can take.

    Pieces lie a gap apart, so their outlines grown by half a gap don't overlap. Together these cover the grown
    panel, and each lap, at least as large as the lap's length by the least chord where it can lie, a second time.
    Behind a butt the strap is cut from such a sheet as well, at least as large in the same way.
    """
    shape = polygon(panel.outline)
    area = float(grown_inside(shape, job.workshop.gap / 2).area)
    if panel.joint is not None:
        reach = reach_of(job, panel, shape.bounds, supplies)
        joints = least_joints(reach) or 0
        half = reach.band / 2
        chord = (
            least_chord(shape, reach.start + reach.spacing - half, reach.end - reach.spacing + half) if joints else 0.0
        )
        chord = max(0.0, chord - HAIR)
        area += joints * reach.band * chord
    return Demand(panel, area * panel.quantity)


def reach_of(job: Job, panel: Panel, bounds: tuple[float, float, float, float], supplies: Sequence[Supply]) -> Reach:
    """Return where a panel's joints may lie, with the longest piece and the shortest lap of all sheets that serve."""
    rule, thinnest = job.joints[panel.joint or ""], _thinnest(job, panel, supplies)
    west, south, east, north = bounds
    serving = [supply for supply in supplies if sheet_serves(job, supply.sheet, panel)]
    # Along a blank a sheet needs no allowance at its scarfed ends: twice that is more than it can gain.
    gained = 0.0 if job.workshop.way == "divided" else 2 * job.workshop.allowance
    longest = gained + max((longest_on(panel, supply, north - south) for supply in serving), default=0.0)
    return Reach(
        start=west,
        end=east,
        lap=rule.lap(thinnest),
        usable=min(longest, job.workshop.longest_piece or longest),
        least_piece=rule.least_piece,
        zones=no_joint_zones(job, panel),
        strap=rule.strap_length(thinnest),
    )


def longest_on(panel: Panel, supply: Supply, height: float) -> float:
    """Return a length that no piece of a panel, as high as ``height`` over all, can exceed on a sheet.

    Lying true it is the sheet's length that way, and turned at will the diagonal. In a piece turned by no more than t
    two points lie L apart along the panel and no more than ``height`` apart across it. On the sheet they then lie at
    least L cos t - height sin t apart lengthwise, and that is no more than its length. Nor is L more than the sheet's
    box as seen along the panel, length cos t + width sin t. Both limits grow with t, the second up to the diagonal.
    """
    diagonal = math.hypot(supply.length, supply.width)
    if panel.grain == "any":
        return diagonal
    box = (supply.length, supply.width)
    length, width = box if panel.grain == "along" else box[::-1]
    turn = math.radians(panel.grain_tolerance)
    cos, sin = math.cos(turn), math.sin(turn)
    box_limit = length * cos + width * sin if turn < math.atan2(width, length) else diagonal
    return min((length + height * sin) / cos, box_limit)


def _thinnest(job: Job, panel: Panel, supplies: Sequence[Supply]) -> float:
    """Return the least thickness that the panel's sheets have as measured: for the shortest lap or strap."""
    serving = [supply.sheet.true_thickness for supply in supplies if sheet_serves(job, supply.sheet, panel)]
    return min(serving, default=panel.thickness)
