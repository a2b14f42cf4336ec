"""Which strips fill a length best: exact knapsacks in whole numbers, compiled.

Sizes hold the kerf of every piece, room that of one cut beyond the end, so that strips fit iff their sizes add up to
no more than the room. Values are whole too, so nothing that is proven from them trusts a float.
"""

import numpy as np
import numpy.typing as npt

from nesting.compiling import kernel

Whole = npt.NDArray[np.int64]


@kernel
def fill_table(values: Whole, sizes: Whole, copies: Whole, room: int) -> tuple[Whole, npt.NDArray[np.int16]]:
    """Return the best value within each room up to ``room``, and how many copies of each kind it takes there.

    ``taken[i, y]`` counts kind i in the best filling of y from kinds up to i; kinds without value are left out.
    """
    best = np.zeros(room + 1, np.int64)
    taken = np.zeros((len(values), room + 1), np.int16)
    for i in range(len(values)):
        size, value, row = sizes[i], values[i], taken[i]
        if value <= 0 or size > room:
            continue
        if copies[i] >= room // size:  # as many as there is room for: those taken below y may be counted on at once
            for y in range(size, room + 1):
                other = best[y - size] + value
                if other > best[y]:
                    best[y] = other
                    row[y] = row[y - size] + 1
            continue
        for _ in range(min(copies[i], room // size)):
            changed = False
            for y in range(room, size - 1, -1):
                other = best[y - size] + value
                if other > best[y]:
                    best[y] = other
                    row[y] = row[y - size] + 1
                    changed = True
            if not changed:
                break
    return best, taken


def filling(taken: npt.NDArray[np.int16], sizes: Whole, room: int) -> tuple[int, ...]:
    """Read from a table of :func:`fill_table` how many copies of each kind fill a room best."""
    counts = [0] * len(sizes)
    for i in range(len(sizes) - 1, -1, -1):
        counts[i] = int(taken[i, room])
        room -= counts[i] * int(sizes[i])
    return tuple(counts)


@kernel
def fill_with_each(
    values: Whole, sizes: Whole, copies: Whole, best: Whole, taken: npt.NDArray[np.int16], rooms: Whole, prices: Whole
) -> tuple[Whole, npt.NDArray[np.int16]]:
    """Return for each kind the room in which it goes best, and copies of all kinds there, one of it among them.

    The rest of a room is filled as a table of :func:`fill_table` says; ``prices`` are what the rooms cost. The place of
    a room is -1 where the kind fits none, or the rest takes all its copies already.
    """
    n = len(values)
    places, strips = np.full(n, -1, np.int64), np.zeros((n, n), np.int16)
    for kind in range(n):
        highest = np.int64(-(2**60))
        for place in range(len(rooms)):
            left = rooms[place] - sizes[kind]
            if values[kind] > 0 and left >= 0 and best[left] - prices[place] > highest:
                highest, places[kind] = best[left] - prices[place], place
        if places[kind] < 0:
            continue
        left = rooms[places[kind]] - sizes[kind]
        for other in range(n - 1, -1, -1):
            strips[kind, other] = taken[other, left]
            left -= taken[other, left] * sizes[other]
        strips[kind, kind] += 1
        if strips[kind, kind] > copies[kind]:
            places[kind] = -1
    return places, strips


@kernel
def fill_listed(  # noqa: C901  (one compiled loop: calls between kernels would hide it from the cache)
    values: Whole, sizes: Whole, copies: Whole, room: int, most_states: int
) -> tuple[int, Whole, bool]:
    """Return the best filling of one room from lists of states, for rooms too large for a table.

    After Nemhauser and Ullmann (1969, from memory): strips are added one at a time to the list of fillings that no
    other beats in room and value; those are dropped that can't beat the best even if the rest of the room were
    filled at the rate of the next kind. Kinds must stand in the order of falling value for their size. Returns the
    value, the copies of each kind, and whether the lists were long enough; unless they were, nothing is proven.
    """
    n = len(values)
    weight, value = np.empty(most_states, np.int64), np.empty(most_states, np.int64)
    parent, kind = np.empty(most_states, np.int32), np.empty(most_states, np.int32)
    current, following = np.empty(most_states, np.int32), np.empty(most_states, np.int32)
    weight[0], value[0], current[0] = 0, 0, 0
    length, made, best, counts = 1, 1, 0, np.zeros(n, np.int64)
    for i in range(n):
        if values[i] <= 0:
            break
        for copy in range(min(copies[i], room // sizes[i])):
            after = i if copy + 1 < min(copies[i], room // sizes[i]) else i + 1
            rate, step = (values[after], sizes[after]) if after < n else (np.int64(0), np.int64(1))
            old, grown, fresh, highest, began = 0, 0, 0, np.int64(-1), made
            while old < length or grown < length:
                if grown < length and weight[current[grown]] + sizes[i] > room:
                    grown = length
                    continue
                take_old = grown >= length or (
                    old < length and weight[current[old]] <= weight[current[grown]] + sizes[i]
                )
                if take_old:
                    state = current[old]
                    old += 1
                    w, v = weight[state], value[state]
                else:
                    state = current[grown]
                    grown += 1
                    w, v = weight[state] + sizes[i], value[state] + values[i]
                better = v > value[best]
                if v <= highest or (
                    not better and (v - value[best]) * step + (room - w) * rate <= 0 and v != value[best]
                ):
                    continue
                if not take_old:
                    if made >= most_states:
                        return value[best], counts, False
                    weight[made], value[made], parent[made], kind[made] = w, v, state, i
                    state = made
                    made += 1
                    if better:
                        best = state
                highest = v
                following[fresh] = state
                fresh += 1
            current, following = following, current
            length = fresh
            if made == began:
                break
    state = best
    while state > 0:
        counts[kind[state]] += 1
        state = parent[state]
    return value[best], counts, True


@kernel
def exact_fill_values(values: Whole, sizes: Whole, copies: Whole, room: int, backwards: bool) -> Whole:
    """Return one table of best values for each kind: of kinds up to it forwards, or from it on backwards.

    Forwards the filling is exact, and what can't be filled is far below nought; backwards it is within the room.
    """
    n = len(values)
    never = np.int64(-(2**60))
    tables = np.zeros((n + 1, room + 1), np.int64)
    row = np.zeros(room + 1, np.int64)
    if not backwards:
        row[1:] = never
        tables[0] = row
    for step in range(n):
        i = n - 1 - step if backwards else step
        size, value = sizes[i], values[i]
        enough = copies[i] >= room // size
        if enough:  # as many as there is room for: one pass upwards does
            for y in range(size, room + 1):
                if row[y - size] > never:
                    row[y] = max(row[y], row[y - size] + value)
        for _ in range(0 if enough else copies[i]):
            changed = False
            for y in range(room, size - 1, -1):
                other = row[y - size] + value
                if other > row[y] and row[y - size] > never:
                    row[y] = other
                    changed = True
            if not changed:
                break
        tables[i if backwards else i + 1] = row
    return tables


@kernel
def worthwhile(
    values: Whole,
    sizes: Whole,
    copies: Whole,
    after: Whole,
    room: int,
    need: int,
    found: npt.NDArray[np.int16],
    start: int,
) -> int:
    """Write every filling of a room worth at least ``need`` into rows of ``found`` from ``start`` on.

    ``after[i, y]`` is the best value of kinds from i on within y. Returns the number of rows that are then
    filled, or -1 if there are too few.
    """
    n = len(values)
    current, left, value = np.zeros(n, np.int64), np.zeros(n + 1, np.int64), np.zeros(n + 1, np.int64)
    left[0], row, i = room, start, 0
    if n == 0 or after[0, room] < need:
        return row
    current[0] = min(copies[0], room // sizes[0]) + 1
    while i >= 0:
        current[i] -= 1
        if current[i] < 0:
            i -= 1
            continue
        left[i + 1] = left[i] - current[i] * sizes[i]
        value[i + 1] = value[i] + current[i] * values[i]
        if value[i + 1] + after[i + 1, left[i + 1]] < need:
            continue
        if i + 1 < n:
            i += 1
            current[i] = min(copies[i], left[i] // sizes[i]) + 1
            continue
        if row == len(found):
            return -1
        for k in range(n):
            found[row, k] = current[k]
        row += 1
    return row
