"""Compiled: the half-planes of a pair of shapes."""

import numpy as np

from nesting.compiling import kernel

from .arrays import Floats, Integers


@kernel
def half_planes(a: Floats, b: Floats, box: Floats, plane: Floats) -> int:
    """Write the half-planes of all moves r by which convex b + r overlaps convex a; return how many.

    Normals are those of the edges of a and of -b (the Minkowski sum of a and -b). Parallel ones are kept once. They are
    put in an order in which the first four clip most, one for each quadrant, and filled up to a multiple of four.

    Parameters
    ----------
    a, b : (corners, 2)
        Anticlockwise.
    box : (4,)
        Of the moves by which their boxes overlap.
    plane : (corners of both + 3, 3)
        Takes nx, ny, d.
    """
    count = 0
    for side in range(len(a) + len(b)):
        if side < len(a):
            following = (side + 1) % len(a)
            ex, ey = a[following, 0] - a[side, 0], a[following, 1] - a[side, 1]
        else:
            k = side - len(a)
            following = (k + 1) % len(b)
            ex, ey = b[k, 0] - b[following, 0], b[k, 1] - b[following, 1]
        length = np.sqrt(ex * ex + ey * ey)
        if length < 1e-12:
            continue
        nx, ny = ey / length, -ex / length
        known = False
        for k in range(count):
            if abs(plane[k, 0] - nx) + abs(plane[k, 1] - ny) < 1e-12:
                known = True
                break
        if known:
            continue
        far, near = -1e300, 1e300
        for k in range(len(a)):
            far = max(far, nx * a[k, 0] + ny * a[k, 1])
        for k in range(len(b)):
            near = min(near, nx * b[k, 0] + ny * b[k, 1])
        plane[count, 0], plane[count, 1], plane[count, 2] = nx, ny, far - near
        count += 1
    _best_first(plane, count, box)
    return _filled_up(plane, count)


@kernel
def _filled_up(plane: Floats, count: int) -> int:
    """Repeat the first half-plane until their number is a multiple of four; return it."""
    while count % 4:
        for c in range(3):  # one by one: assigning rows would take seconds to compile
            plane[count, c] = plane[0, c]
        count += 1
    return count


@kernel
def _best_first(plane: Floats, count: int, box: Floats) -> None:
    """Bring to the front, for each quadrant, the half-plane that cuts the most off the corner of the box."""
    front = 0
    for quadrant in range(4):
        best, most = -1, 1e-9
        for k in range(front, count):
            nx, ny = plane[k, 0], plane[k, 1]
            if (nx > 0) + 2 * (ny > 0) != quadrant:
                continue
            cut = nx * (box[2] if nx > 0 else box[0]) + ny * (box[3] if ny > 0 else box[1]) - plane[k, 2]
            if cut > most:
                best, most = k, cut
        if best >= 0:
            for c in range(3):
                plane[best, c], plane[front, c] = plane[front, c], plane[best, c]
            front += 1


@kernel
def _span(points: Floats, axis: int) -> tuple[float, float]:
    """Return the least and the greatest coordinate along an axis."""
    low, high = points[0, axis], points[0, axis]
    for k in range(1, len(points)):
        low, high = min(low, points[k, axis]), max(high, points[k, axis])
    return low, high


@kernel
def pair_arrays(
    a: Floats, a_start: Integers, b: Floats, b_start: Integers
) -> tuple[Floats, Integers, Floats, Integers, Floats]:
    """Return group boxes, group starts, region boxes, region starts and half-planes of two shapes.

    Parameters
    ----------
    a, b : (corners, 2)
        Corners of all convex pieces.
    a_start, b_start : (pieces + 1,)
        Where the corners of each piece begin.
    """
    groups, others = len(a_start) - 1, len(b_start) - 1
    group_box = np.empty((groups, 4))
    group_start = np.empty(groups + 1, np.int64)
    group_start[0] = 0
    region_box = np.empty((groups * others, 4))
    region_start = np.zeros(groups * others + 1, np.int64)
    plane = np.empty((groups * len(b) + others * len(a) + 4 * groups * others, 3))
    at = 0
    for i in range(groups):
        group_start[i + 1] = (i + 1) * others
        one = a[a_start[i] : a_start[i + 1]]
        group_box[i, 0], group_box[i, 1], group_box[i, 2], group_box[i, 3] = 1e300, 1e300, -1e300, -1e300
        for j in range(others):
            other = b[b_start[j] : b_start[j + 1]]
            k = i * others + j
            for c in range(2):
                low, high = _span(one, c)
                least, most = _span(other, c)
                region_box[k, c], region_box[k, c + 2] = low - most, high - least
            at += half_planes(one, other, region_box[k], plane[at:])
            region_start[k + 1] = at
            for c in range(2):
                group_box[i, c] = min(group_box[i, c], region_box[k, c])
                group_box[i, c + 2] = max(group_box[i, c + 2], region_box[k, c + 2])
    return group_box, group_start, region_box, region_start, plane[:at].copy()
