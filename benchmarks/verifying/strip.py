"""Whether a layout on a strip is one, and how long it is."""

from collections.abc import Sequence

import shapely

from benchmarks.data import StripInstance

from .layout import RELATIVE_TOLERANCE, Laid, as_laid, attitude_faults, count_faults, place_faults


def strip_faults(instance: StripInstance, layout: Sequence[Laid]) -> list[str]:
    """Return what is wrong with a layout: quantities, angles, overlaps, edges of the strip."""
    wrong = list(count_faults(instance.items, [layout]))
    if wrong:
        return wrong
    polygons = [as_laid(instance.items[laid.item].polygon, laid) for laid in layout]
    room = (strip_length(instance, layout), instance.width)
    tolerance = RELATIVE_TOLERANCE * instance.width
    return [*attitude_faults(instance.items, layout), *place_faults(polygons, room, tolerance)]


def strip_length(instance: StripInstance, layout: Sequence[Laid]) -> float:
    """Return how far the layout reaches along x, from 0 on."""
    polygons = [as_laid(instance.items[laid.item].polygon, laid) for laid in layout]
    return float(shapely.total_bounds(polygons)[2])


def strip_density(instance: StripInstance, layout: Sequence[Laid]) -> float:
    """Return the area of the items over that of the strip, in percent."""
    return 100 * instance.area / (instance.width * strip_length(instance, layout))
