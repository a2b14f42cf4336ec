"""Gathers what lies in a container at one end of it, so that what is left is one large piece with a straight edge."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from shapely import affinity
from shapely.geometry import Polygon

from nesting.effort import Effort

from .attitude import whole_turns_off
from .container import Container
from .first_fit import Item, Placement
from .strip_chain import Chain, attempt
from .verifying import is_feasible
from .wanting import offered, pose_in, want_within
from .workshop import Workshop

Placements = tuple[Placement, ...]


def gather_along(
    workshop: Workshop, container: Container, items: Sequence[Item], places: Placements, effort: Effort, seed: int = 0
) -> Placements:
    """Return places for the same items, verified, that reach less far along x than those given, if any were found.

    Parameters
    ----------
    items : sequence of Item
        Without lines.
    places : tuple of Placement
        Of some of the items: these stay in the container, the others stay out of it.
    """
    inside = [items[place.item] for place in places]
    if not inside or any(item.lines for item in inside):
        return places
    wanted = [want_within(workshop, item, container) for item in inside]
    search = pose_in(workshop, [container], inside, wanted, effort, seed)
    for index, (place, want) in enumerate(zip(places, wanted, strict=True)):
        search.lay(index, 0, replace(offered(workshop, items[place.item], want, place), item=index))
    search.start_anew()
    chain, chance = Chain(search.reach(), search.places()), np.random.default_rng(seed)
    while not effort.over:
        chain = attempt(search, chain, effort.share, chance)
    search.restore(chain.places)
    gathered = tuple(search.placement(index, place.item) for index, place in enumerate(places))
    return gathered if is_feasible(container, items, gathered, workshop.gaps.parts) else places


def gather_across(
    workshop: Workshop, container: Container, items: Sequence[Item], places: Placements, effort: Effort, seed: int = 0
) -> Placements:
    """Return the same along y."""
    turned = Container(
        _turned(container.outline),
        tuple(map(_turned, container.obstacles)),
        tuple((mark, _turned(polygon)) for mark, polygon in container.marked),
    )
    lying = [replace(item, angles=tuple(whole_turns_off(angle - 90) for angle in item.angles)) for item in items]
    start = tuple(Placement(p.item, whole_turns_off(p.angle - 90), p.y, -p.x) for p in places)
    gathered = gather_along(workshop, turned, lying, start, effort, seed)
    if gathered == start:
        return places
    back = tuple(Placement(p.item, whole_turns_off(p.angle + 90), -p.y, p.x) for p in gathered)
    return back if is_feasible(container, items, back, workshop.gaps.parts) else places


def _turned(polygon: Polygon) -> Polygon:
    """Return a polygon turned clockwise by a right angle."""
    return affinity.affine_transform(polygon, (0, 1, -1, 0, 0, 0))
