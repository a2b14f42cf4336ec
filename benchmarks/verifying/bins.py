"""Whether layouts in bins are such."""

from collections.abc import Sequence

from benchmarks.data import BinInstance

from .layout import RELATIVE_TOLERANCE, Laid, as_laid, attitude_faults, count_faults, place_faults


def bins_faults(instance: BinInstance, bins: Sequence[Sequence[Laid]], *, steps_of: float | None = None) -> list[str]:
    """Return what is wrong with the layouts of all used bins: quantities, angles, overlaps, edges.

    Parameters
    ----------
    steps_of : float or None
        Degrees of the steps in which items may be turned instead of what the file says: papers commonly allow 90,
        and optima known from cutting whole bins hold for any turning.
    """
    wrong = list(count_faults(instance.items, bins))
    if wrong:
        return wrong
    tolerance = RELATIVE_TOLERANCE * min(instance.width, instance.height)
    for number, layout in enumerate(bins, start=1):
        polygons = [as_laid(instance.items[laid.item].polygon, laid) for laid in layout]
        found = [
            *attitude_faults(instance.items, [_as_if_allowed(instance, laid, steps_of) for laid in layout]),
            *place_faults(polygons, (instance.width, instance.height), tolerance),
        ]
        wrong += [f"bin {number}: {fault}" for fault in found]
    return wrong


def _as_if_allowed(instance: BinInstance, laid: Laid, steps_of: float | None) -> Laid:
    """Return the placement with whole steps taken off its angle."""
    rotations = instance.items[laid.item].rotations
    if steps_of is None or rotations is None:
        return laid
    off = (laid.angle - rotations[0] + steps_of / 2) % steps_of - steps_of / 2
    return Laid(laid.item, rotations[0] + off, laid.x, laid.y, laid.mirrored)
