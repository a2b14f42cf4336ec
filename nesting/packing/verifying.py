"""Whether a layout is feasible, by exact geometry and nothing that made it."""

from collections.abc import Sequence

from shapely import STRtree, affinity
from shapely.geometry import Polygon

from .container import Container
from .first_fit import Item, Placement
from .lines import lies_on_lines

#: Millimetres by which a layout may miss a gap or an edge; the same as the tolerance of the whole program.
TOLERANCE = 0.001


def is_feasible(
    container: Container,
    items: Sequence[Item],
    placements: Sequence[Placement],
    gap: float,
    tolerance: float = TOLERANCE,
) -> bool:
    """Whether all placed shapes are inside, off the obstacles and ``gap`` apart, within the tolerance."""
    shapes = [laid(items, placement) for placement in placements]
    edge = container.outline.buffer(tolerance, join_style="mitre")
    if not all(edge.covers(shape) for shape in shapes):
        return False
    inner = [shape.buffer(-tolerance, join_style="mitre") for shape in shapes]
    for shape, placement in zip(inner, placements, strict=True):
        item = items[placement.item]
        if any(map(shape.intersects, container.in_the_way_of(item.avoids))):
            return False
        if item.lines and not lies_on_lines(item, placement, container.lines):
            return False
    if len(shapes) < 2:
        return True
    # Negative buffers tell overlap from touching where the gap is zero; the tree finds the near pairs.
    tree = STRtree(inner)
    pairs = tree.query(inner, predicate="dwithin", distance=gap + tolerance)
    return all(
        i >= j or (shapes[i].distance(shapes[j]) >= gap - tolerance and not inner[i].intersects(inner[j]))
        for i, j in zip(*pairs, strict=True)
    )


def laid(items: Sequence[Item], placement: Placement) -> Polygon:
    """Return the polygon of a placement where it lies."""
    item = items[placement.item]
    return affinity.translate(item.attitude(placement.angle).of(item.polygon), placement.x, placement.y)
