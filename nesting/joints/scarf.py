"""The geometry of one scarf: two bevelled ends glued over each other.

Formulas follow from similar triangles; the usual slopes stand in the USDA Wood Handbook (FPL-GTR-190, chapter 10,
"End-Grain Joints"): 1:8 is typical for plywood, 1:12 or flatter is strongest.
"""

import math
from collections.abc import Sequence


def lap(slope: float, thickness: float) -> float:
    """Return the length of the overlap along the member, in the unit of ``thickness``."""
    return slope * thickness


def bevel_angle(slope: float) -> float:
    """Return the angle between bevel and face, in degrees."""
    return math.degrees(math.atan(1 / slope))


def bevel_face(slope: float, thickness: float) -> float:
    """Return the length of the sloping surface, measured along it."""
    return thickness * math.hypot(1, slope)


def glue_area(width: float, thickness: float, slope: float) -> float:
    """Return the glued area of a scarf of constant width, in square units."""
    return width * bevel_face(slope, thickness)


def joined_length(lengths: Sequence[float], lap: float) -> float:
    """Return the length of members scarfed end to end: each joint eats one lap."""
    return sum(lengths) - (len(lengths) - 1) * lap
