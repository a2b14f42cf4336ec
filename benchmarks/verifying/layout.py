"""Outlines as they were laid, and what is wrong with how they lie."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from shapely import STRtree, affinity
from shapely.geometry import Polygon, box

from benchmarks.data import IrregularItem

#: Depth to which outlines may overlap or overhang, as a share of the width of the strip or bin: instances have
#: units of their own. A tenth of what a micrometre is to a sheet of 1220 mm, and far above what turning by an
#: angle costs in 64-bit arithmetic.
RELATIVE_TOLERANCE = 1e-6

#: Degrees by which an angle may differ from an allowed one.
ANGLE_TOLERANCE = 1e-9


@dataclass(frozen=True)
class Laid:
    """The item of that index, mirrored about its x axis first if so said, turned by ``angle`` degrees anticlockwise
    about the origin of its own coordinates, then moved by (x, y).
    """

    item: int
    angle: float
    x: float
    y: float
    mirrored: bool = False


def as_laid(polygon: Polygon, laid: Laid) -> Polygon:
    """Return an outline where it lies."""
    if laid.mirrored:
        polygon = affinity.scale(polygon, 1, -1, origin=(0, 0))
    return affinity.translate(affinity.rotate(polygon, laid.angle, origin=(0, 0)), laid.x, laid.y)


def attitude_faults(items: Sequence[IrregularItem], layout: Sequence[Laid]) -> Iterator[str]:
    """Yield what lies at an angle that is not allowed, or mirrored: no instance allows that."""
    for laid in layout:
        allowed = items[laid.item].rotations
        if allowed is not None and not any(_same_angle(laid.angle, angle) for angle in allowed):
            yield f"item {laid.item} lies at {laid.angle:g} degrees"
        if laid.mirrored:
            yield f"item {laid.item} is mirrored"


def count_faults(items: Sequence[IrregularItem], layouts: Sequence[Sequence[Laid]]) -> Iterator[str]:
    """Yield items that are not there as often as wanted, over all layouts."""
    count = Counter(laid.item for layout in layouts for laid in layout)
    for index in sorted(count.keys() | set(range(len(items)))):
        wanted = items[index].quantity if 0 <= index < len(items) else 0
        if count[index] != wanted:
            yield f"item {index} is there {count[index]} times, not {wanted}"


def place_faults(polygons: Sequence[Polygon], container: tuple[float, float], tolerance: float) -> Iterator[str]:
    """Yield what is not within the rectangle from the origin to ``container``, or overlaps deeper than tolerated."""
    width, height = container
    room = box(-tolerance, -tolerance, width + tolerance, height + tolerance)
    for index, polygon in enumerate(polygons):
        if not room.covers(polygon):
            yield f"placement {index} is not within {width:g} x {height:g}"
    # Drawn in by half the tolerance each, outlines that overlap no deeper than it do not meet.
    inner = [polygon.buffer(-tolerance / 2, join_style="mitre") for polygon in polygons]
    for one, other in zip(*STRtree(inner).query(inner, predicate="intersects"), strict=True):
        if one < other:
            yield f"placements {one} and {other} overlap"


def _same_angle(one: float, other: float) -> bool:
    return abs((one - other + 180) % 360 - 180) <= ANGLE_TOLERANCE
