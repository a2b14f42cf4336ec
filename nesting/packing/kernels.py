"""Compiled: how deep shapes overlap, what that costs, and where one item lies best.

Kept in one file because the compiler's cache does not see changes in another one.
"""

import math

import numpy as np
from numpy.typing import NDArray

from nesting.compiling import inlined, kernel

from .arrays import Floats, Integers, Layout, Tables
from .discs import DISCS

#: Stands for 'none found': infinity would ask the compiler for more care.
NONE = 1e300

#: Overlap below this share of the larger diameter weighs ever less (discs) ...
NEAR = 0.01

#: ... and the loss is faded in over so many times that depth.
RAMP = 1.5


#: Points along each side of a grid of losses.
GRID = 64


@inlined
def margin(boxes: Floats, k: int, x: float, y: float) -> float:
    """Return how far within a box a point is."""
    least: float = min(min(x - boxes[k, 0], boxes[k, 2] - x), min(y - boxes[k, 1], boxes[k, 3] - y))
    return least


@inlined
def deepest(tables: Tables, pair: int, rx: float, ry: float, stop: float) -> float:
    """Return how deep the second look of a pair overlaps the first if moved by r; 0 if it does not.

    That is, over all pairs of convex pieces, the greatest of the least moves that part the two. At ``stop`` or more
    the search for a deeper one ends.
    """
    deep = 0.0
    for g in range(tables.groups[pair], tables.groups[pair + 1]):
        if margin(tables.group_box, g, rx, ry) <= deep:
            continue
        for k in range(tables.regions[g], tables.regions[g + 1]):
            if margin(tables.region_box, k, rx, ry) <= deep:
                continue
            least = NONE
            for e in range(tables.planes[k], tables.planes[k + 1], 4):
                for c in range(e, e + 4):
                    inside = tables.plane[2, c] - tables.plane[0, c] * rx - tables.plane[1, c] * ry
                    least = min(least, inside)
                if least <= deep:
                    break
            if least > deep:
                deep = least
                if deep >= stop:
                    return deep
    return deep


@inlined
def depth_of(tables: Tables, a: int, b: int, rx: float, ry: float, stop: float) -> float:
    """Return how deep look b, moved by r against look a, overlaps it."""
    sign = 1.0 if a <= b else -1.0
    pair = tables.pair[min(a, b), max(a, b)]
    return deepest(tables, pair, sign * rx, sign * ry, stop) if pair >= 0 else 0.0


@inlined
def discs_overlap(tables: Tables, a: int, b: int, rx: float, ry: float) -> float:
    """Return a smooth measure of how much look b, moved by r against look a, overlaps it; the root of an area.

    For each pair of discs it is the smaller radius times the depth of their overlap, which below ``NEAR`` falls off
    as the inverse of the distance and never to zero (the 2025 paper named in ``discs``).
    """
    near = NEAR * max(tables.diameter[a], tables.diameter[b])
    x_move, y_move, close = np.float32(rx), np.float32(ry), np.float32(near)
    none = np.float32(0.0)
    column = np.zeros(DISCS, np.float32)  # one sum a column: so there is no order of adding that forbids vectors
    for i in range(DISCS):
        x, y, radius = tables.discs[a, 0, i] - x_move, tables.discs[a, 1, i] - y_move, tables.discs[a, 2, i]
        for j in range(DISCS):
            dx, dy = x - tables.discs[b, 0, j], y - tables.discs[b, 1, j]
            other = tables.discs[b, 2, j]
            over = radius + other - np.sqrt(dx * dx + dy * dy)
            # Above `near` that is `over` itself, below it near^2 / (2 near - over): written without a branch.
            rest = max(close - over, none)
            column[j] += min(radius, other) * (max(over, close) - rest * close / (close + rest))
    total = 0.0
    for j in range(DISCS):
        total += column[j]
    return math.sqrt(total)


@kernel
def loss_of(tables: Tables, a: int, b: int, rx: float, ry: float) -> float:
    """Return the loss of a pair of looks, without weight and factors; 0 iff they do not overlap."""
    ramp = RAMP * NEAR * max(tables.diameter[a], tables.diameter[b])
    depth = depth_of(tables, a, b, rx, ry, ramp)
    if depth <= 0.0:
        return 0.0
    return discs_overlap(tables, a, b, rx, ry) * min(1.0, depth / ramp)


@inlined
def rough_loss(tables: Tables, a: int, b: int, rx: float, ry: float) -> float:
    """Return about the loss of a pair of looks, read off its grid if it has one."""
    sign = 1.0 if a <= b else -1.0
    pair = tables.pair[min(a, b), max(a, b)]
    if pair < 0 or margin(tables.pair_box, pair, sign * rx, sign * ry) <= 0.0:
        return 0.0
    if tables.grid_of[pair] < 0:
        return loss_of(tables, a, b, rx, ry)
    grid = tables.grid_of[pair]
    west, south = tables.pair_box[pair, 0], tables.pair_box[pair, 1]
    u = (sign * rx - west) * ((GRID - 1) / (tables.pair_box[pair, 2] - west))
    v = (sign * ry - south) * ((GRID - 1) / (tables.pair_box[pair, 3] - south))
    i, j = min(int(u), GRID - 2), min(int(v), GRID - 2)
    u, v = u - i, v - j
    low = (1.0 - v) * tables.grids[grid, i, j] + v * tables.grids[grid, i, j + 1]
    high = (1.0 - v) * tables.grids[grid, i + 1, j] + v * tables.grids[grid, i + 1, j + 1]
    return (1.0 - u) * low + u * high


@kernel
def fill_grid(tables: Tables, a: int, b: int, grid: NDArray[np.float32]) -> None:
    """Write the loss of looks a <= b at all points of a grid over the box of their pair."""
    pair = tables.pair[a, b]
    west, south, east, north = tables.pair_box[pair]
    for i in range(GRID):
        for j in range(GRID):
            rx, ry = west + i * (east - west) / (GRID - 1), south + j * (north - south) / (GRID - 1)
            grid[i, j] = loss_of(tables, a, b, rx, ry)


@inlined
def draw(chance: Floats) -> float:
    """Return a random number from 0 to below 1 (xorshift, Marsaglia 2003, from memory)."""
    state = chance[0]
    state ^= state << np.uint64(13)
    state ^= state >> np.uint64(7)
    state ^= state << np.uint64(17)
    chance[0] = state
    return float(state >> np.uint64(11)) * (1.0 / 9007199254740992.0)


@kernel
def loss_at(
    tables: Tables, layout: Layout, item: int, container: int, look: int, x: float, y: float, bound: float, rough: bool
) -> float:
    """Return the weighted loss of an item if it lay there, roughly where that will do.

    Whatever is not less than the bound stands for more.
    """
    box = tables.box
    west, south, east, north = x + box[look, 0], y + box[look, 1], x + box[look, 2], y + box[look, 3]
    own = layout.factor[item]
    total = 0.0
    for j in range(len(layout.x)):
        if layout.container[j] != container or j == item:
            continue
        other, qx, qy = layout.look[j], layout.x[j], layout.y[j]
        if qx + box[other, 0] >= east or qx + box[other, 2] <= west:
            continue
        if qy + box[other, 1] >= north or qy + box[other, 3] <= south:
            continue
        weight = layout.weight[item, j]
        if weight == 0.0:
            continue
        if rough:
            loss = rough_loss(tables, look, other, qx - x, qy - y)
        else:
            loss = loss_of(tables, look, other, qx - x, qy - y)
        total += weight * own * layout.factor[j] * loss
        if total >= bound:
            return total
    return total


@inlined
def clamped(value: float, low: float, high: float) -> float:
    """Return the value nearest to one given that lies between two limits."""
    return min(max(value, low), high)


@kernel
def descend(
    tables: Tables,
    layout: Layout,
    item: int,
    place: Floats,
    step: float,
    least: float,
    rough: bool,
) -> None:
    """Move a place (loss, container, option, x, y) along axes drawn by chance as long as its loss falls.

    Steps grow after a success and shrink after a failure, from ``step`` down to ``least``.
    """
    container, option = int(place[1]), int(place[2])
    look = tables.option_look[option]
    free = tables.option_x[option] == tables.option_x[option + 1]
    room, box = layout.room[container], tables.edge_box[look]
    low_x, high_x = room[0] - box[0], room[2] - box[2]
    low_y, high_y = room[1] - box[1], room[3] - box[3]
    while step > least and place[0] > 0.0:
        axis = int(draw(layout.chance) * 4) if free else 1
        dx = step if axis != 1 else 0.0
        dy = step if axis == 1 or axis == 2 else (-step if axis == 3 else 0.0)
        better = False
        for sign in (1.0, -1.0):
            x = clamped(place[3] + sign * dx, low_x, high_x) if free else place[3]
            y = clamped(place[4] + sign * dy, low_y, high_y)
            if x == place[3] and y == place[4]:
                continue
            loss = loss_at(tables, layout, item, container, look, x, y, place[0], rough)
            if loss < place[0]:
                place[0], place[3], place[4] = loss, x, y
                better = True
                break
        step *= 1.1 if better else (0.5 if axis < 2 else 0.7)


@kernel
def sample(tables: Tables, layout: Layout, item: int, place: Floats, spread: float) -> bool:
    """Draw a place: anywhere, or no further than ``spread`` from where the item lies; whether there is one.

    A place is (loss, container, option, x, y).
    """
    first, end = tables.option[item], tables.option[item + 1]
    if spread < 0.0:
        option = first + int(draw(layout.chance) * (end - first))
        container = int(draw(layout.chance) * len(layout.room))
        if not layout.allowed[item, container]:
            return False
    else:
        again = draw(layout.chance) < 0.5
        option = first + int(draw(layout.chance) * (end - first)) if again else layout.choice[item]
        container = layout.container[item]
    room, box = layout.room[container], tables.edge_box[tables.option_look[option]]
    low_x, high_x = room[0] - box[0], room[2] - box[2]
    low_y, high_y = room[1] - box[1], room[3] - box[3]
    if low_x > high_x + 1e-9 * (room[2] - room[0]) or low_y > high_y + 1e-9 * (room[3] - room[1]):
        return False
    start, stop = tables.option_x[option], tables.option_x[option + 1]
    across, up = draw(layout.chance), draw(layout.chance)
    if spread < 0.0:
        x, y = low_x + across * (high_x - low_x), low_y + up * (high_y - low_y)
    else:
        centre_x, centre_y = middle(tables.edge_box[layout.look[item]])
        new_x, new_y = middle(box)
        x = clamped(layout.x[item] + centre_x - new_x + (2 * across - 1) * spread, low_x, high_x)
        y = clamped(layout.y[item] + centre_y - new_y + (2 * up - 1) * spread, low_y, high_y)
    if stop > start:
        x = tables.allowed_x[start + int(draw(layout.chance) * (stop - start))]
    place[1], place[2], place[3], place[4] = container, option, x, y
    return True


@inlined
def middle(box: Floats) -> tuple[float, float]:
    """Return the middle of a box."""
    return 0.5 * (box[0] + box[2]), 0.5 * (box[1] + box[3])


@kernel
def best_place(
    tables: Tables, layout: Layout, item: int, anywhere: int, nearby: int, fine: float, best: Floats
) -> None:
    """Find the place of least weighted loss for an item, (loss, container, option, x, y), among samples and descents.

    Parameters
    ----------
    anywhere, nearby : int
        How many places are drawn from all containers, and from around where it lies.
    fine : float
        Length at which the last descent ends.
    best : (5,)
        Takes the place; its loss is ``NONE`` if there is none.
    """
    top = np.full((3, 5), NONE)
    place = np.empty(5)
    box = tables.box[layout.look[item]]
    size = min(box[2] - box[0], box[3] - box[1])
    if layout.container[item] >= 0:
        top[0, 1], top[0, 2] = layout.container[item], layout.choice[item]
        top[0, 3], top[0, 4] = layout.x[item], layout.y[item]
        top[0, 0] = loss_at(
            tables, layout, item, layout.container[item], layout.look[item], layout.x[item], layout.y[item], NONE, False
        )
    else:
        nearby = 0
    for k in range(anywhere + nearby):
        if top[0, 0] == 0.0:
            break
        if not sample(tables, layout, item, place, -1.0 if k < anywhere else 0.25 * size):
            continue
        look = tables.option_look[int(place[2])]
        place[0] = loss_at(tables, layout, item, int(place[1]), look, place[3], place[4], top[2, 0], True)
        if place[0] < top[2, 0]:
            keep_apart(top, place, 0.02 * size)
    for k in range(3):
        if top[k, 0] < NONE:
            descend(tables, layout, item, top[k], 0.05 * size, 0.005 * size, True)
    first = np.argmin(top[:, 0])
    for c in range(5):
        best[c] = top[first, c]
    if best[0] < NONE:
        look = tables.option_look[int(best[2])]
        best[0] = loss_at(tables, layout, item, int(best[1]), look, best[3], best[4], NONE, False)
        descend(tables, layout, item, best, 0.01 * size, fine, False)


@kernel
def settle(tables: Tables, layout: Layout, item: int, place: Floats, fine: float) -> None:
    """Slide a place without loss to the left and down as far as it stays without, by ever smaller steps."""
    container, look = int(place[1]), tables.option_look[int(place[2])]
    free = tables.option_x[int(place[2])] == tables.option_x[int(place[2]) + 1]
    low_x = layout.room[container, 0] - tables.edge_box[look, 0]
    low_y = layout.room[container, 1] - tables.edge_box[look, 1]
    step = 0.5 * (layout.room[container, 2] - layout.room[container, 0])
    while step > fine:
        moved = False
        for axis in range(2):
            x = max(place[3] - step, low_x) if axis == 0 and free else place[3]
            y = max(place[4] - step, low_y) if axis == 1 else place[4]
            if x == place[3] and y == place[4]:
                continue
            if loss_at(tables, layout, item, container, look, x, y, NONE, False) == 0.0:
                place[3], place[4], moved = x, y, True
        if not moved:
            step *= 0.5


@kernel
def keep_apart(top: Floats, place: Floats, near: float) -> None:
    """Put a place among the three best, in place of one that is the same but for ``near``, or of the worst."""
    at = 2
    for k in range(3):
        same = top[k, 0] < NONE and top[k, 1] == place[1] and top[k, 2] == place[2]
        if same and abs(top[k, 3] - place[3]) + abs(top[k, 4] - place[4]) < near:
            if top[k, 0] <= place[0]:
                return
            at = k
            break
    for c in range(5):  # one by one: assigning rows would take seconds to compile
        top[at, c] = place[c]
    while at > 0 and top[at, 0] < top[at - 1, 0]:
        for c in range(5):
            top[at, c], top[at - 1, c] = top[at - 1, c], top[at, c]
        at -= 1


@kernel
def put(tables: Tables, layout: Layout, item: int, place: Floats) -> None:
    """Lay an item at a place and work out its overlaps anew."""
    layout.container[item] = int(place[1])
    layout.choice[item] = int(place[2])
    layout.look[item] = tables.option_look[int(place[2])]
    layout.x[item], layout.y[item] = place[3], place[4]
    measure(tables, layout, item)


@kernel
def measure(tables: Tables, layout: Layout, item: int) -> None:
    """Work out depth and loss of an item against all others."""
    look, x, y = layout.look[item], layout.x[item], layout.y[item]
    box = tables.box[look]
    for j in range(len(layout.x)):
        depth, loss = 0.0, 0.0
        other = layout.look[j]
        around = tables.box[other]
        rx, ry = layout.x[j] - x, layout.y[j] - y
        apart = rx + around[0] >= box[2] or rx + around[2] <= box[0] or ry + around[1] >= box[3]
        apart = apart or ry + around[3] <= box[1]
        together = layout.container[j] == layout.container[item] and layout.container[item] >= 0
        if j != item and together and not apart and layout.weight[item, j] > 0.0:
            depth = depth_of(tables, look, other, rx, ry, NONE)
            if depth > 0.0:
                loss = layout.factor[item] * layout.factor[j] * loss_of(tables, look, other, rx, ry)
        layout.depth[item, j] = layout.depth[j, item] = depth
        layout.loss[item, j] = layout.loss[j, item] = loss


@kernel
def measure_all(tables: Tables, layout: Layout) -> None:
    """Work out depth and loss of all pairs of which one may be moved."""
    for item in range(layout.movable):
        measure(tables, layout, item)


@kernel
def totals(layout: Layout) -> tuple[float, float]:
    """Return the sums of depth and of loss over all pairs."""
    depth, loss = 0.0, 0.0
    for i in range(layout.movable):
        for j in range(len(layout.x)):
            if j > i:
                depth += layout.depth[i, j]
                loss += layout.loss[i, j]
    return depth, loss


@kernel
def colliding(layout: Layout, tolerance: float, found: Integers) -> int:
    """Write the movable items that overlap deeper than tolerated, in an order drawn by chance; return how many."""
    count = 0
    for i in range(layout.movable):
        for j in range(len(layout.x)):
            if layout.depth[i, j] > tolerance:
                found[count] = i
                count += 1
                break
    for k in range(count - 1, 0, -1):
        other = int(draw(layout.chance) * (k + 1))
        found[k], found[other] = found[other], found[k]
    return count


@kernel
def reweigh(layout: Layout, tolerance: float) -> None:
    """Raise the weights of pairs that overlap, by their share of the greatest loss; let the others fall to 1."""
    most = 1e-300
    for i in range(layout.movable):
        for j in range(len(layout.x)):
            most = max(most, layout.loss[i, j])
    for i in range(layout.movable):
        for j in range(len(layout.x)):
            if j < layout.movable and j <= i:
                continue
            weight = layout.weight[i, j]
            if weight == 0.0:
                continue
            if layout.depth[i, j] > tolerance:
                weight *= 1.1 + 0.4 * layout.loss[i, j] / most
            else:
                weight = max(1.0, 0.97 * weight)
            layout.weight[i, j] = layout.weight[j, i] = min(weight, 1e100)


@kernel
def separate(
    tables: Tables, layout: Layout, moves: int, tolerance: float, fine: float, best: Floats, outcome: Floats
) -> int:
    """Move colliding items, sweep after sweep, until none is left or so many moves were made; return the moves.

    Parameters
    ----------
    best : (2, items, 4)
        Takes container, option, x, y of the layouts of least depth and of least loss after a sweep.
    outcome : (5,)
        Takes sweeps, depth and loss at the end, least depth, least loss.
    """
    found = np.empty(layout.movable, np.int64)
    place = np.empty(5)
    made = 0
    outcome[0] = 0.0
    outcome[3], outcome[4] = NONE, NONE
    while True:
        depth, loss = totals(layout)
        outcome[1], outcome[2] = depth, loss
        if depth < outcome[3]:
            outcome[3] = depth
            note(layout, best[0])
        if loss < outcome[4]:
            outcome[4] = loss
            note(layout, best[1])
        count = colliding(layout, tolerance, found)
        if count == 0 or made >= moves:
            return made
        for k in range(count):
            item = found[k]
            now = 0.0
            for j in range(len(layout.x)):
                now += layout.weight[item, j] * layout.loss[item, j]
            if now == 0.0:
                continue
            best_place(tables, layout, item, 40, 15, fine, place)
            made += 1
            if place[0] < now:
                put(tables, layout, item, place)
        reweigh(layout, tolerance)
        outcome[0] += 1.0


@kernel
def note(layout: Layout, places: Floats) -> None:
    """Write container, option, x, y of all items."""
    for i in range(len(layout.x)):
        places[i, 0], places[i, 1] = layout.container[i], layout.choice[i]
        places[i, 2], places[i, 3] = layout.x[i], layout.y[i]


@kernel
def near_regions(tables: Tables, layout: Layout, reach: float, pairs: Integers, rows: Floats) -> int:
    """Write for each two convex pieces that are near the half-plane that parts them best; return how many.

    Parameters
    ----------
    reach : float
        Pieces further apart than this are left out.
    pairs : (most, 2)
        Takes the two items of each row.
    rows : (most, 3)
        Takes (nx, ny, d): the two are apart iff n.r >= d for the move r from the first to the second. If there are
        more than ``most``, those that don't fit in are counted only.
    """
    count = 0
    for i in range(layout.movable):
        for j in range(len(layout.x)):
            if (j < layout.movable and j <= i) or not near(tables, layout, i, j, reach):
                continue
            a, b = layout.look[i], layout.look[j]
            sign = 1.0 if a <= b else -1.0
            pair = tables.pair[min(a, b), max(a, b)]
            if pair < 0:
                continue
            rx, ry = layout.x[j] - layout.x[i], layout.y[j] - layout.y[i]
            for k in range(tables.regions[tables.groups[pair]], tables.regions[tables.groups[pair + 1]]):
                widest, at = parting(tables, k, sign * rx, sign * ry)
                if widest < reach:
                    if count < len(rows):
                        pairs[count, 0], pairs[count, 1] = i, j
                        rows[count, 0] = sign * tables.plane[0, at]
                        rows[count, 1] = sign * tables.plane[1, at]
                        rows[count, 2] = tables.plane[2, at]
                    count += 1
    return count


@inlined
def parting(tables: Tables, region: int, rx: float, ry: float) -> tuple[float, int]:
    """Return how far outside a region a move is, at least, and the half-plane that says so."""
    widest, at = -NONE, -1
    for e in range(tables.planes[region], tables.planes[region + 1]):
        apart = tables.plane[0, e] * rx + tables.plane[1, e] * ry - tables.plane[2, e]
        if apart > widest:
            widest, at = apart, e
    return widest, at


@inlined
def near(tables: Tables, layout: Layout, i: int, j: int, reach: float) -> bool:
    """Whether two items lie in one container, may not overlap, and have boxes no further apart than that."""
    if layout.container[j] != layout.container[i] or layout.container[i] < 0 or layout.weight[i, j] == 0.0:
        return False
    a, b, box = layout.look[i], layout.look[j], tables.box
    rx, ry = layout.x[j] - layout.x[i], layout.y[j] - layout.y[i]
    across = rx + box[b, 0] < box[a, 2] + reach and rx + box[b, 2] > box[a, 0] - reach
    return across and ry + box[b, 1] < box[a, 3] + reach and ry + box[b, 3] > box[a, 1] - reach
