"""The flat arrays that the kernels read and write."""

from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Integers = NDArray[np.int64]

#: How many places are refined of those drawn.
TOPS = 3


class Tables(NamedTuple):
    """All that is known of the shapes in a problem; a look is a shape in one attitude.

    Two looks meet as a pair of shapes in its own frame: the move r from the reference point of look a to that of look b
    is M r there, M being ``meeting[a, b]``; so one pair serves all looks that meet in the same way, turned. In
    the frame they overlap iff M r lies in one of the pair's regions, each convex: all its half-planes n.r <= d hold,
    n being of length 1. The regions of one convex piece of the first shape are a group.

    Attributes
    ----------
    box : (looks, 4)
        West, south, east, north of the shape with half the gap around it.
    edge_box : (looks, 4)
        The same of what must stay within the container.
    discs : (looks, 3, discs)
        x, y, radius.
    pair : (looks, looks)
        Number of the pair, -1 where the two never meet.
    meeting : (looks, looks, 5)
        The matrix into the pair's frame, row by row, and the larger diameter of the two looks.
    groups : (pairs + 1,)
        Where the groups of each pair begin.
    group_box : (groups, 4)
    regions : (groups + 1,)
        Where the regions of each group begin.
    region_box : (regions, 4)
    planes : (regions + 1,)
        Where the half-planes of each region begin, in blocks of four.
    plane : (blocks, 3, 4)
        nx, ny, d of four half-planes.
    pair_box : (pairs, 6)
        Box of all regions of a pair, and how many steps of a grid of losses a unit of length is, in x and in y.
    grids : (grids, points, points, 2)
        For the first pairs their losses over the pair's box, and the measure that is faded to a loss. Each point is
        worked out when first asked for, by the kernels; before, the measure is 0, which else it never is.
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
    pair: Integers
    meeting: Floats
    groups: Integers
    group_box: Floats
    regions: Integers
    region_box: Floats
    planes: Integers
    plane: Floats
    pair_box: Floats
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
    allowed : (movable items, containers) of bool
        In which container an item may lie.
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
    allowed: NDArray[np.bool_]
    chance: NDArray[Any]
    movable: int


class Around(NamedTuple):
    """What the kernels jot down while they look for the place of one item: it need not be allocated each time.

    Attributes
    ----------
    begin : (containers + 1,)
        Where the items of each container begin among those that the one must not overlap.
    look : (items,)
    place : (items, 7)
        West, south, east, north of their boxes; x, y; the weight of an overlap with the one.
    top : (TOPS, 5)
        The best places found so far, each (loss, container, option, x, y).
    drawn : (5,)
        The place last drawn.
    column : (discs,)
        Sums of a measure over discs.
    """

    begin: Integers
    look: Integers
    place: Floats
    top: Floats
    drawn: Floats
    column: NDArray[np.float32]

    @classmethod
    def of(cls, items: int, containers: int, discs: int) -> "Around":
        """Return room for a problem of so many items, containers, and discs in each shape."""
        return cls(
            begin=np.zeros(containers + 1, np.int64),
            look=np.zeros(items, np.int64),
            place=np.zeros((items, 7)),
            top=np.zeros((TOPS, 5)),
            drawn=np.zeros(5),
            column=np.zeros(discs, np.float32),
        )
