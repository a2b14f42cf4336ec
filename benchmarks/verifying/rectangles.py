"""Whether rectangles lie in a bin without overlap: whole numbers, so no tolerance."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

from benchmarks.data import RectangularInstance


@dataclass(frozen=True)
class LaidRectangle:
    """The rectangle of that index with its lower left corner at (x, y), turned by 90 degrees or not."""

    item: int
    x: int
    y: int
    turned: bool = False


def rectangles_faults(instance: RectangularInstance, bins: Sequence[tuple[int, Sequence[LaidRectangle]]]) -> list[str]:
    """Return what is wrong with bins, each (index of its kind, what lies in it)."""
    wrong = []
    count = Counter(laid.item for _, layout in bins for laid in layout)
    for index, item in enumerate(instance.items):
        if count[index] != item.quantity:
            wrong.append(f"item {index} is there {count[index]} times, not {item.quantity}")
    for kind, used in Counter(kind for kind, _ in bins).items():
        available = instance.bins[kind].available
        if available is not None and used > available:
            wrong.append(f"{used} bins of kind {kind} are used, {available} are there")
    for number, (kind, layout) in enumerate(bins, start=1):
        wrong += [f"bin {number}: {fault}" for fault in _bin_faults(instance, kind, layout)]
    return wrong


def _bin_faults(instance: RectangularInstance, kind: int, layout: Sequence[LaidRectangle]) -> list[str]:
    container, wrong = instance.bins[kind], []
    boxes = [_box(instance, laid) for laid in layout]
    for place, (laid, (left, low, right, high)) in enumerate(zip(layout, boxes, strict=True)):
        if left < 0 or low < 0 or right > container.width or high > container.height:
            wrong.append(f"placement {place} is not within it")
        if laid.turned and not instance.rotation:
            wrong.append(f"placement {place} is turned")
    for (one, a), (other, b) in combinations(enumerate(boxes), 2):
        if a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]:
            wrong.append(f"placements {one} and {other} overlap")
    return wrong


def _box(instance: RectangularInstance, laid: LaidRectangle) -> tuple[int, int, int, int]:
    item = instance.items[laid.item]
    width, height = (item.height, item.width) if laid.turned else (item.width, item.height)
    return laid.x, laid.y, laid.x + width, laid.y + height
