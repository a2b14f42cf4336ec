"""Gathers the pieces on each sheet, so that what is left of it is one large piece worth keeping."""

from dataclasses import replace

from nesting.effort import Effort
from nesting.model import Job
from nesting.packing import Container, Workshop, gather_across, gather_along

from .boards import lying
from .layouts import Layout
from .leftover import offcuts
from .selecting import Selection

#: A sheet that is fuller than this leaves nothing to be gathered.
FULL = 0.85

#: Of the effort that is left, the share that goes into the next sheet.
SHARE = 0.4


def gathered(job: Job, selection: Selection, workshop: Workshop, effort: Effort, seed: int) -> Selection:
    """Return a selection in which what is left of each sheet is worth no less, emptier sheets first."""
    better: dict[Layout, Layout] = {}
    for layout in sorted(selection.layouts, key=lambda layout: layout.area / layout.stock.area):
        if layout.stock.blank is None and layout.area < FULL * layout.stock.area and not effort.over:
            better[layout] = _gathered(job, layout, workshop, effort.share_of_rest(SHARE), seed)
    return replace(selection, layouts=tuple(better.get(layout, layout) for layout in selection.layouts))


def _gathered(job: Job, layout: Layout, workshop: Workshop, effort: Effort, seed: int) -> Layout:
    """Return the best of the layout as it is, gathered along the sheet and gathered across it."""
    items = [kind.item for kind, _ in layout.laid]
    places = tuple(replace(place, item=index) for index, (_, place) in enumerate(layout.laid))
    found = [layout]
    for gather in (gather_along, gather_across):
        moved = gather(workshop, layout.stock.container, items, places, effort.share_of_rest(1 / 2), seed)
        pieces = tuple(
            (kind, replace(place, item=old.item)) for (kind, old), place in zip(layout.laid, moved, strict=True)
        )
        found.append(Layout(layout.stock, pieces))
    return max(found, key=lambda one: _worth_of_rest(job, one))


def _worth_of_rest(job: Job, layout: Layout) -> float:
    """Return the area of the rectangles that are left and worth keeping; the largest counts twice."""
    shapes = [lying(kind, place) for kind, place in layout.laid]
    shop = job.workshop
    room = Container(layout.stock.usable, layout.stock.faults)
    found = offcuts(room, shapes, shop.kerf.sheet, shop.allowance, shop.keep_from)
    areas = [float(rectangle.area) for rectangle in found]
    return sum(areas) + max(areas, default=0.0)
