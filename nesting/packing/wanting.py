"""Items and containers as the search wants them."""

from collections.abc import Sequence

from nesting.effort import Effort

from .container import Container
from .first_fit import Item, Placement
from .lines import moves_onto_lines
from .posing import Fixed, Wanted, pose
from .searching import Search
from .workshop import Option, Workshop


def want(workshop: Workshop, item: Item) -> Wanted:
    """Return an item, prepared, that may lie anywhere."""
    looks = workshop.options(item.polygon, [item.attitude(angle) for angle in item.angles])
    return Wanted(tuple(Option(look) for look in looks), float(item.polygon.area))


def want_within(workshop: Workshop, item: Item, container: Container) -> Wanted:
    """Return an item, prepared, with those of its options that fit within the container's bounding box.

    An item with lines has only the moves along x that bring it onto the container's lines.
    """
    area = float(item.polygon.area)
    if not item.lines:
        return Wanted(tuple(o for o in want(workshop, item).options if _fits(workshop, o, container)), area)
    options = []
    for angle in item.angles:
        look = workshop.look(item.polygon, item.attitude(angle))
        moves = [
            move
            for move in moves_onto_lines(item, angle, container.lines)
            if _within(move + look.edge_box[0], move + look.edge_box[2], container, workshop, 0)
        ]
        if moves and _fits(workshop, Option(look), container):
            options.append(Option(look, tuple(moves)))
    return Wanted(tuple(options), area)


def offered(workshop: Workshop, item: Item, wanted: Wanted, place: Placement) -> Placement:
    """Return where an item lies, at that of its angles which a search keeps of those that look alike.

    Raises
    ------
    ValueError
        If it lies at no such angle.
    """
    look = workshop.look(item.polygon, item.attitude(place.angle))
    for option in wanted.options:
        if option.look.same_but_moved(look):
            x, y = look.edge_box[:2] - option.look.edge_box[:2]
            return Placement(place.item, option.look.attitude.angle, place.x + float(x), place.y + float(y))
    raise ValueError(f"item {place.item} may not lie turned by {place.angle:g} degrees")


def pose_in(
    workshop: Workshop,
    containers: Sequence[Container],
    items: Sequence[Item],
    wanted: Sequence[Wanted],
    effort: Effort,
    seed: int,
    allowed: Sequence[frozenset[int]] | None = None,
) -> Search:
    """Return a search for these items, as they are wanted, in these containers with all that is in the way there.

    Parameters
    ----------
    allowed : sequence of set of int, or None
        In which containers each item may lie; None for all.
    """
    fixed: list[Fixed] = []
    spared: list[tuple[int, int]] = []
    for number, container in enumerate(containers):
        here = in_the_way(workshop, container, number)
        spared += [(item, len(fixed) + k) for item, k in harmless(items, container, len(here))]
        fixed += here
    outlines = [container.outline for container in containers]
    return pose(workshop, wanted, outlines, fixed, effort, seed, spared, allowed)


def in_the_way(workshop: Workshop, container: Container, number: int = 0) -> list[Fixed]:
    """Return what lies fast in a container: notches of its outline, obstacles, marked obstacles, in this order."""
    marked = [polygon for _, polygon in container.marked]
    looks = [
        *workshop.notches(container.outline),
        *(workshop.fault(polygon) for polygon in (*container.obstacles, *marked)),
    ]
    return [Fixed(look, number) for look in looks]


def harmless(items: Sequence[Item], container: Container, fixed: int) -> list[tuple[int, int]]:
    """Return which items may overlap which of the marked obstacles, the last ones of so many fixed."""
    first = fixed - len(container.marked)
    return [
        (index, first + k)
        for index, item in enumerate(items)
        for k, (mark, _) in enumerate(container.marked)
        if mark not in item.avoids
    ]


def _fits(workshop: Workshop, option: Option, container: Container) -> bool:
    """Whether the box of an option is no larger than the container's, less the gap to the edge, within rounding."""
    west, south, east, north = container.outline.bounds
    box, edge = option.look.edge_box, 2 * workshop.gaps.edge
    wide, high = east - west - edge, north - south - edge
    return bool(box[2] - box[0] <= wide * (1 + 1e-9) and box[3] - box[1] <= high * (1 + 1e-9))


def _within(low: float, high: float, container: Container, workshop: Workshop, axis: int) -> bool:
    bounds, edge = container.outline.bounds, workshop.gaps.edge
    hair = 1e-9 * (bounds[axis + 2] - bounds[axis])
    return bool(low >= bounds[axis] + edge - hair and high <= bounds[axis + 2] - edge + hair)
