"""The flat arrays that the kernels read and write."""

from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Integers = NDArray[np.int64]


class Tables(NamedTuple):
    """All that is known of the shapes in a problem; a look is a shape in one attitude. Never written to by kernels.

    For a pair of looks a <= b and the move r from the reference point of a to that of b, b overlaps a iff r lies in
    one of the pair's regions, each convex: all its half-planes n.r <= d hold, n being of
    length 1. The regions of one piece of a are a group.

    Attributes
    ----------
    box : (looks, 4)
        West, south, east, north of the shape with half the gap around it.
    edge_box : (looks, 4)
        The same of what must stay within the container.
    discs : (looks, 3, discs)
        x, y, radius.
    diameter : (looks,)
    pair : (looks, looks)
        Number of the pair, -1 where the two never meet.
    groups : (pairs + 1,)
        Where the groups of each pair begin.
    group_box : (groups, 4)
    regions : (groups + 1,)
        Where the regions of each group begin.
    region_box : (regions, 4)
    planes : (regions + 1,)
        Where the half-planes of each region begin; their number is a multiple of four.
    plane : (3, planes)
        nx, ny, d.
    pair_box : (pairs, 4)
        Box of all regions of a pair.
    grid_of : (pairs,)
        Number of the pair's grid, -1 if it has none.
    grids : (grids, points, points)
        Losses over the pair's box.
    option : (items + 1,)
        Where the options of each item begin.
    option_look : (options,)
    option_x : (options + 1,)
        Where the list of allowed moves along x of each option begins; an empty list allows any.
    allowed_x : (allowed,)
    """

    box: Floats
    edge_box: Floats
    discs: NDArray[np.float32]
    diameter: Floats
    pair: Integers
    groups: Integers
    group_box: Floats
    regions: Integers
    region_box: Floats
    planes: Integers
    plane: Floats
    pair_box: Floats
    grid_of: Integers
    grids: NDArray[np.float32]
    option: Integers
    option_look: Integers
    option_x: Integers
    allowed_x: Floats


class Layout(NamedTuple):
    """Where the items lie, and how they are weighed against each other. Written to by kernels.

    The first ``movable`` items may be moved, the others lie fast.

    Attributes
    ----------
    x, y : (items,)
        Moves of the reference point.
    look, container : (items,)
        How, and in which; a container of -1 means not placed.
    choice : (items,)
        Number of the option that the look belongs to.
    weight : (items, items)
        Symmetric; 0 where two may overlap.
    factor : (items,)
        Root of the root of the area over the mean: two factors together scale the loss of a pair.
    depth, loss : (items, items)
        Depth of overlap, and the loss without weight.
    room : (containers, 4)
        West, south, east, north of each container.
    chance : (1,) of uint64
        State of the random numbers.
    """

    x: Floats
    y: Floats
    look: Integers
    container: Integers
    choice: Integers
    weight: Floats
    factor: Floats
    depth: Floats
    loss: Floats
    room: Floats
    chance: NDArray[Any]
    movable: int
