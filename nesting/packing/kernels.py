"""Compiled: how deep shapes overlap, what that costs, and where one item lies best.

Kept in one file because the compiler's cache does not see changes in another one.
"""

import math

import numpy as np
from numpy.typing import NDArray

from nesting.compiling import inlined, lean_kernel

from .arrays import TOPS, Around, Floats, Integers, Layout, Tables
from .discs import DISCS

#: Stands for 'none found': infinity would ask the compiler for more care.
NONE = 1e300

#: Overlap below this share of the larger diameter weighs ever less (discs) ...
NEAR = 0.01

#: ... and the loss is faded in over so many times that depth.
RAMP = 1.5

#: Points along each side of a grid of losses.
GRID = 40

#: What stands on the grids: the loss, and the measure that is faded to it.
LOSS, MEASURE = 0, 1


@inlined
def margin(boxes: Floats, k: int, x: float, y: float) -> float:
    """Return how far within a box a point is."""
    least: float = min(min(x - boxes[k, 0], boxes[k, 2] - x), min(y - boxes[k, 1], boxes[k, 3] - y))
    return least


@inlined
def in_frame(tables: Tables, a: int, b: int, rx: float, ry: float) -> tuple[float, float]:
    """Return the move r from look a to look b in the frame of their pair."""
    meeting = tables.meeting
    u = meeting[a, b, 0] * rx + meeting[a, b, 1] * ry
    v = meeting[a, b, 2] * rx + meeting[a, b, 3] * ry
    return u, v


@inlined
def deepest(tables: Tables, pair: int, u: float, v: float, stop: float) -> float:
    """Return how deep the shapes of a pair overlap at a move in its frame; 0 if they do not.

    That is, over all pairs of convex pieces, the greatest of the least moves that part the two. At ``stop`` or more
    the search for a deeper one ends.
    """
    plane = tables.plane
    deep = 0.0
    for g in range(tables.groups[pair], tables.groups[pair + 1]):
        if margin(tables.group_box, g, u, v) <= deep:
            continue
        for k in range(tables.regions[g], tables.regions[g + 1]):
            if margin(tables.region_box, k, u, v) <= deep:
                continue
            least = NONE
            for e in range(tables.planes[k], tables.planes[k + 1]):
                for c in range(4):
                    inside = plane[e, 2, c] - plane[e, 0, c] * u - plane[e, 1, c] * v
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
    pair = tables.pair[a, b]
    if pair < 0:
        return 0.0
    u, v = in_frame(tables, a, b, rx, ry)
    return deepest(tables, pair, u, v, stop)


@inlined
def discs_overlap(
    tables: Tables, column: NDArray[np.float32], a: int, b: int, rx: float, ry: float, close_to: float
) -> float:
    """Return a smooth measure of how much look b, moved by r against look a, overlaps it; the root of an area.

    For each pair of discs it is the smaller radius times the depth of their overlap, which below ``close_to`` falls off
    as the inverse of the distance and never to zero (the 2025 paper named in ``discs``).
    """
    discs = tables.discs
    x_move, y_move, close = np.float32(rx), np.float32(ry), np.float32(close_to)
    none = np.float32(0.0)
    for j in range(DISCS):  # one sum a column: so there is no order of adding that forbids vectors
        column[j] = none
    for i in range(DISCS):
        x, y, radius = discs[a, 0, i] - x_move, discs[a, 1, i] - y_move, discs[a, 2, i]
        for j in range(DISCS):
            dx, dy = x - discs[b, 0, j], y - discs[b, 1, j]
            other = discs[b, 2, j]
            over = radius + other - np.sqrt(dx * dx + dy * dy)
            # Above `close` that is `over` itself, below it close^2 / (2 close - over): written without a branch.
            rest = max(close - over, none)
            column[j] += min(radius, other) * (max(over, close) - rest * close / (close + rest))
    total = 0.0
    for j in range(DISCS):
        total += column[j]
    return math.sqrt(total)


@lean_kernel
def fill_node(tables: Tables, around: Around, a: int, b: int, i: int, j: int) -> None:
    """Work out one point of the grids of two looks that meet."""
    pair, meeting, box = tables.pair[a, b], tables.meeting, tables.pair_box
    u, v = box[pair, 0] + i / box[pair, 4], box[pair, 1] + j / box[pair, 5]
    rx, ry = meeting[a, b, 0] * u + meeting[a, b, 2] * v, meeting[a, b, 1] * u + meeting[a, b, 3] * v
    close = NEAR * meeting[a, b, 4]
    measure = discs_overlap(tables, around.column, a, b, rx, ry, close)
    tables.grids[pair, i, j, MEASURE] = measure
    tables.grids[pair, i, j, LOSS] = measure * min(1.0, deepest(tables, pair, u, v, RAMP * close) / (RAMP * close))


@inlined
def read_off(
    tables: Tables, around: Around, a: int, b: int, pair: int, move_x: float, move_y: float, which: int
) -> float:
    """Return what stands on a grid of two looks at a move in their frame, between points in proportion."""
    grids, box = tables.grids, tables.pair_box
    u, v = (move_x - box[pair, 0]) * box[pair, 4], (move_y - box[pair, 1]) * box[pair, 5]
    i, j = min(int(u), GRID - 2), min(int(v), GRID - 2)
    u, v = u - i, v - j
    known = grids[pair, i, j, MEASURE] * grids[pair, i, j + 1, MEASURE]
    known *= grids[pair, i + 1, j, MEASURE] * grids[pair, i + 1, j + 1, MEASURE]
    if known == 0.0:
        for k in range(4):
            if grids[pair, i + (k >> 1), j + (k & 1), MEASURE] == 0.0:
                fill_node(tables, around, a, b, i + (k >> 1), j + (k & 1))
    low = (1.0 - v) * grids[pair, i, j, which] + v * grids[pair, i, j + 1, which]
    high = (1.0 - v) * grids[pair, i + 1, j, which] + v * grids[pair, i + 1, j + 1, which]
    return (1.0 - u) * low + u * high


@inlined
def faded(tables: Tables, around: Around, a: int, b: int, rx: float, ry: float, depth: float) -> float:
    """Return the loss of two looks that overlap so deep, or more than it takes to fade it in wholly."""
    pair, close = tables.pair[a, b], NEAR * tables.meeting[a, b, 4]
    if pair < len(tables.grids):
        u, v = in_frame(tables, a, b, rx, ry)
        measure = read_off(tables, around, a, b, pair, u, v, MEASURE)
    else:
        measure = discs_overlap(tables, around.column, a, b, rx, ry, close)
    return measure * min(1.0, depth / (RAMP * close))


@inlined
def loss_of(tables: Tables, around: Around, a: int, b: int, rx: float, ry: float) -> float:
    """Return the loss of look b, moved by r against look a, without weight and factors; 0 iff they do not overlap."""
    depth = depth_of(tables, a, b, rx, ry, RAMP * NEAR * tables.meeting[a, b, 4])
    return faded(tables, around, a, b, rx, ry, depth) if depth > 0.0 else 0.0


@inlined
def rough_loss(tables: Tables, around: Around, a: int, b: int, rx: float, ry: float) -> float:
    """Return about the loss of two looks, read off a grid if they have one."""
    pair = tables.pair[a, b]
    if pair < 0:
        return 0.0
    u, v = in_frame(tables, a, b, rx, ry)
    if margin(tables.pair_box, pair, u, v) <= 0.0:
        return 0.0
    if pair >= len(tables.grids):
        return loss_of(tables, around, a, b, rx, ry)
    return read_off(tables, around, a, b, pair, u, v, LOSS)


@inlined
def draw(chance: Floats) -> float:
    """Return a random number from 0 to below 1 (xorshift, Marsaglia 2003, from memory)."""
    state = chance[0]
    state ^= state << np.uint64(13)
    state ^= state >> np.uint64(7)
    state ^= state << np.uint64(17)
    chance[0] = state
    return float(state >> np.uint64(11)) * (1.0 / 9007199254740992.0)


@lean_kernel
def gather(tables: Tables, layout: Layout, item: int, around: Around) -> None:
    """Jot down all that an item must not overlap, container by container."""
    begin, look, place, box = around.begin, around.look, around.place, tables.box
    for c in range(len(begin)):
        begin[c] = 0
    for j in range(len(layout.x)):
        if j != item and layout.container[j] >= 0 and layout.weight[item, j] > 0.0:
            begin[layout.container[j]] += 1
    for c in range(1, len(begin)):
        begin[c] += begin[c - 1]
    for j in range(len(layout.x) - 1, -1, -1):
        if j != item and layout.container[j] >= 0 and layout.weight[item, j] > 0.0:
            begin[layout.container[j]] -= 1  # in the end it is where the container's items begin
            k = begin[layout.container[j]]
            other, x, y = layout.look[j], layout.x[j], layout.y[j]
            look[k] = other
            place[k, 0], place[k, 1], place[k, 2] = x + box[other, 0], y + box[other, 1], x + box[other, 2]
            place[k, 3], place[k, 4], place[k, 5] = y + box[other, 3], x, y
            place[k, 6] = layout.weight[item, j] * layout.factor[item] * layout.factor[j]


@inlined
def loss_at(
    tables: Tables, around: Around, container: int, look: int, x: float, y: float, bound: float, rough: bool
) -> float:
    """Return the weighted loss of the item that was gathered for if it lay there, roughly where that will do.

    Whatever is not less than the bound stands for more.
    """
    box, place = tables.box, around.place
    west, south, east, north = x + box[look, 0], y + box[look, 1], x + box[look, 2], y + box[look, 3]
    total = 0.0
    for k in range(around.begin[container], around.begin[container + 1]):
        if place[k, 0] >= east or place[k, 2] <= west or place[k, 1] >= north or place[k, 3] <= south:
            continue
        rx, ry = place[k, 4] - x, place[k, 5] - y
        if rough:
            loss = rough_loss(tables, around, look, around.look[k], rx, ry)
        else:
            loss = loss_of(tables, around, look, around.look[k], rx, ry)
        total += place[k, 6] * loss
        if total >= bound:
            break
    return total


@lean_kernel
def exact_at(tables: Tables, around: Around, container: int, look: int, x: float, y: float) -> float:
    """Return the weighted loss of the item that was gathered for if it lay there."""
    return loss_at(tables, around, container, look, x, y, NONE, False)


@inlined
def clamped(value: float, low: float, high: float) -> float:
    """Return the value nearest to one given that lies between two limits."""
    return min(max(value, low), high)


@lean_kernel
def descend(tables: Tables, layout: Layout, around: Around, top: int, step: float, least: float, rough: bool) -> None:
    """Move one of the top places along axes drawn by chance as long as its loss falls.

    Steps grow after a success and shrink after a failure, from ``step`` down to ``least``.
    """
    place = around.top
    container, option = int(place[top, 1]), int(place[top, 2])
    look = tables.option_look[option]
    free = tables.option_x[option] == tables.option_x[option + 1]
    room, edge = layout.room, tables.edge_box
    low_x, high_x = room[container, 0] - edge[look, 0], room[container, 2] - edge[look, 2]
    low_y, high_y = room[container, 1] - edge[look, 1], room[container, 3] - edge[look, 3]
    best, best_x, best_y = place[top, 0], place[top, 3], place[top, 4]
    while step > least and best > 0.0:
        axis = int(draw(layout.chance) * 4) if free else 1
        dx = step if axis != 1 else 0.0
        dy = step if axis == 1 or axis == 2 else (-step if axis == 3 else 0.0)
        better = False
        for _ in range(2):
            x = clamped(best_x + dx, low_x, high_x) if free else best_x
            y = clamped(best_y + dy, low_y, high_y)
            if x != best_x or y != best_y:
                loss = loss_at(tables, around, container, look, x, y, best, rough)
                if loss < best:
                    best, best_x, best_y = loss, x, y
                    better = True
                    break
            dx, dy = -dx, -dy
        step *= 1.1 if better else (0.5 if axis < 2 else 0.7)
    place[top, 0], place[top, 3], place[top, 4] = best, best_x, best_y


@inlined
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
    room, edge, look = layout.room, tables.edge_box, tables.option_look[option]
    low_x, high_x = room[container, 0] - edge[look, 0], room[container, 2] - edge[look, 2]
    low_y, high_y = room[container, 1] - edge[look, 1], room[container, 3] - edge[look, 3]
    hair_x, hair_y = 1e-9 * (room[container, 2] - room[container, 0]), 1e-9 * (room[container, 3] - room[container, 1])
    if low_x > high_x + hair_x or low_y > high_y + hair_y:
        return False
    start, stop = tables.option_x[option], tables.option_x[option + 1]
    across, up = draw(layout.chance), draw(layout.chance)
    if spread < 0.0:
        x, y = low_x + across * (high_x - low_x), low_y + up * (high_y - low_y)
    else:
        old = layout.look[item]
        to_x = 0.5 * (edge[old, 0] + edge[old, 2] - edge[look, 0] - edge[look, 2])
        to_y = 0.5 * (edge[old, 1] + edge[old, 3] - edge[look, 1] - edge[look, 3])
        x = clamped(layout.x[item] + to_x + (2 * across - 1) * spread, low_x, high_x)
        y = clamped(layout.y[item] + to_y + (2 * up - 1) * spread, low_y, high_y)
    if stop > start:
        x = tables.allowed_x[start + int(draw(layout.chance) * (stop - start))]
    place[1], place[2], place[3], place[4] = container, option, x, y
    return True


@lean_kernel
def best_place(
    tables: Tables, layout: Layout, around: Around, item: int, anywhere: int, nearby: int, fine: float, best: Floats
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
    top, box, old = around.top, tables.box, layout.look[item]
    gather(tables, layout, item, around)
    for k in range(TOPS):
        top[k, 0] = NONE
    if layout.container[item] >= 0:
        top[0, 1], top[0, 2] = layout.container[item], layout.choice[item]
        top[0, 3], top[0, 4] = layout.x[item], layout.y[item]
        top[0, 0] = exact_at(tables, around, layout.container[item], old, layout.x[item], layout.y[item])
    else:
        nearby = 0
    size = min(box[old, 2] - box[old, 0], box[old, 3] - box[old, 1])
    draw_places(tables, layout, around, item, anywhere, nearby, size)
    first = 0
    for k in range(TOPS):
        if top[k, 0] < NONE:
            descend(tables, layout, around, k, 0.05 * size, 0.005 * size, True)
        if top[k, 0] < top[first, 0]:
            first = k
    if top[first, 0] < NONE:
        look = tables.option_look[int(top[first, 2])]
        top[first, 0] = exact_at(tables, around, int(top[first, 1]), look, top[first, 3], top[first, 4])
        descend(tables, layout, around, first, 0.01 * size, fine, False)
    for c in range(5):
        best[c] = top[first, c]


@inlined
def draw_places(
    tables: Tables, layout: Layout, around: Around, item: int, anywhere: int, nearby: int, size: float
) -> None:
    """Draw places for an item and keep the best of them."""
    top, place = around.top, around.drawn
    for k in range(anywhere + nearby):
        if top[0, 0] == 0.0:
            break
        # Those nearby come first: they are better on the whole, and what is worse than three others is soon told.
        if not sample(tables, layout, item, place, 0.25 * size if k < nearby else -1.0):
            continue
        look = tables.option_look[int(place[2])]
        place[0] = loss_at(tables, around, int(place[1]), look, place[3], place[4], top[TOPS - 1, 0], True)
        if place[0] < top[TOPS - 1, 0]:
            keep_apart(top, place, 0.02 * size)


@lean_kernel
def settle(tables: Tables, layout: Layout, around: Around, item: int, place: Floats, fine: float) -> None:
    """Slide a place without loss to the left and down as far as it stays without, by ever smaller steps."""
    container, look = int(place[1]), tables.option_look[int(place[2])]
    free = tables.option_x[int(place[2])] == tables.option_x[int(place[2]) + 1]
    low_x = layout.room[container, 0] - tables.edge_box[look, 0]
    low_y = layout.room[container, 1] - tables.edge_box[look, 1]
    step = 0.5 * (layout.room[container, 2] - layout.room[container, 0])
    gather(tables, layout, item, around)
    while step > fine:
        moved = False
        for axis in range(2):
            x = max(place[3] - step, low_x) if axis == 0 and free else place[3]
            y = max(place[4] - step, low_y) if axis == 1 else place[4]
            if x == place[3] and y == place[4]:
                continue
            if exact_at(tables, around, container, look, x, y) == 0.0:
                place[3], place[4], moved = x, y, True
        if not moved:
            step *= 0.5


@lean_kernel
def keep_apart(top: Floats, place: Floats, near: float) -> None:
    """Put a place among the best, in place of one that is the same but for ``near``, or of the worst."""
    at = TOPS - 1
    for k in range(TOPS):
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


@lean_kernel
def put(tables: Tables, layout: Layout, around: Around, item: int, place: Floats) -> None:
    """Lay an item at a place and work out its overlaps anew."""
    layout.container[item] = int(place[1])
    layout.choice[item] = int(place[2])
    layout.look[item] = tables.option_look[int(place[2])]
    layout.x[item], layout.y[item] = place[3], place[4]
    measure(tables, layout, around, item)


@lean_kernel
def measure(tables: Tables, layout: Layout, around: Around, item: int) -> None:
    """Work out depth and loss of an item against all others."""
    look, x, y, box = layout.look[item], layout.x[item], layout.y[item], tables.box
    for j in range(len(layout.x)):
        depth, loss = 0.0, 0.0
        other = layout.look[j]
        rx, ry = layout.x[j] - x, layout.y[j] - y
        apart = rx + box[other, 0] >= box[look, 2] or rx + box[other, 2] <= box[look, 0]
        apart = apart or ry + box[other, 1] >= box[look, 3] or ry + box[other, 3] <= box[look, 1]
        together = layout.container[j] == layout.container[item] and layout.container[item] >= 0
        if j != item and together and not apart and layout.weight[item, j] > 0.0:
            depth = depth_of(tables, look, other, rx, ry, NONE)
            if depth > 0.0:
                loss = faded(tables, around, look, other, rx, ry, depth)
                loss *= layout.factor[item] * layout.factor[j]
        layout.depth[item, j] = layout.depth[j, item] = depth
        layout.loss[item, j] = layout.loss[j, item] = loss


@lean_kernel
def measure_all(tables: Tables, layout: Layout, around: Around) -> None:
    """Work out depth and loss of all pairs of which one may be moved."""
    for item in range(layout.movable):
        measure(tables, layout, around, item)


@lean_kernel
def totals(layout: Layout) -> tuple[float, float]:
    """Return the sums of depth and of loss over all pairs."""
    depth, loss = 0.0, 0.0
    for i in range(layout.movable):
        for j in range(i + 1, len(layout.x)):
            depth += layout.depth[i, j]
            loss += layout.loss[i, j]
    return depth, loss


@lean_kernel
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


@lean_kernel
def reweigh(layout: Layout, tolerance: float) -> None:
    """Raise the weights of pairs that overlap, by their share of the greatest loss; let the others fall to 1."""
    most = 1e-300
    for i in range(layout.movable):
        for j in range(len(layout.x)):
            most = max(most, layout.loss[i, j])
    for i in range(layout.movable):
        for j in range(i + 1, len(layout.x)):
            weight = layout.weight[i, j]
            if weight == 0.0:
                continue
            if layout.depth[i, j] > tolerance:
                weight *= 1.1 + 0.4 * layout.loss[i, j] / most
            else:
                weight = max(1.0, 0.97 * weight)
            layout.weight[i, j] = layout.weight[j, i] = min(weight, 1e100)


@lean_kernel
def separate(
    tables: Tables,
    layout: Layout,
    around: Around,
    moves: int,
    tolerance: float,
    fine: float,
    found: Integers,
    place: Floats,
    best: Floats,
    outcome: Floats,
) -> int:
    """Move colliding items, sweep after sweep, until none is left or so many moves were made; return the moves.

    Parameters
    ----------
    found : (items,), place : (5,)
        To work in.
    best : (2, items, 4)
        Takes container, option, x, y of the layouts of least depth and of least loss after a sweep.
    outcome : (5,)
        Takes sweeps, depth and loss at the end, least depth, least loss.
    """
    made = 0
    outcome[0] = 0.0
    outcome[3], outcome[4] = NONE, NONE
    while True:
        depth, loss = totals(layout)
        outcome[1], outcome[2] = depth, loss
        if depth < outcome[3]:
            outcome[3] = depth
            note(layout, best, 0)
        if loss < outcome[4]:
            outcome[4] = loss
            note(layout, best, 1)
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
            best_place(tables, layout, around, item, 40, 15, fine, place)
            made += 1
            if place[0] < now:
                put(tables, layout, around, item, place)
        reweigh(layout, tolerance)
        outcome[0] += 1.0


@lean_kernel
def note(layout: Layout, places: Floats, row: int) -> None:
    """Write container, option, x, y of all items."""
    for i in range(len(layout.x)):
        places[row, i, 0], places[row, i, 1] = layout.container[i], layout.choice[i]
        places[row, i, 2], places[row, i, 3] = layout.x[i], layout.y[i]


@lean_kernel
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
    meeting, plane = tables.meeting, tables.plane
    for i in range(layout.movable):
        for j in range(i + 1, len(layout.x)):
            if not near(tables, layout, i, j, reach):
                continue
            a, b = layout.look[i], layout.look[j]
            pair = tables.pair[a, b]
            if pair < 0:
                continue
            u, v = in_frame(tables, a, b, layout.x[j] - layout.x[i], layout.y[j] - layout.y[i])
            for k in range(tables.regions[tables.groups[pair]], tables.regions[tables.groups[pair + 1]]):
                widest, at = parting(tables, k, u, v)
                if widest < reach:
                    if count < len(rows):
                        nx, ny = plane[at // 4, 0, at % 4], plane[at // 4, 1, at % 4]
                        pairs[count, 0], pairs[count, 1] = i, j
                        rows[count, 0] = meeting[a, b, 0] * nx + meeting[a, b, 2] * ny
                        rows[count, 1] = meeting[a, b, 1] * nx + meeting[a, b, 3] * ny
                        rows[count, 2] = plane[at // 4, 2, at % 4]
                    count += 1
    return count


@inlined
def parting(tables: Tables, region: int, u: float, v: float) -> tuple[float, int]:
    """Return how far outside a region a move is, at least, and the half-plane that says so."""
    plane = tables.plane
    widest, at = -NONE, -1
    for e in range(tables.planes[region], tables.planes[region + 1]):
        for c in range(4):
            apart = plane[e, 0, c] * u + plane[e, 1, c] * v - plane[e, 2, c]
            if apart > widest:
                widest, at = apart, 4 * e + c
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
