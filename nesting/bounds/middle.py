"""Long pieces on a sheet: each reaches over the middle of its length, and there they have to go abreast."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from .demand import HAIR
from .profile import Profile
from .resources import Floats, Line, Resources

#: Millimetres by which a piece in a blank may lie beside its place: many times the tolerance.
SHIFT = 1e-2


@dataclass(frozen=True)
class Middles:
    """The chord, a gap included, that a piece has at the middle of its sheet at the least; nought if it need not reach.

    Attributes
    ----------
    first, last : ndarray of shape (T, N)
        Of the first piece that ends in a cell, and of the last that begins there, by kind of sheet.
    between : ndarray of shape (T, N, N)
        Of a piece from one cell to another.
    """

    first: Floats
    between: Floats
    last: Floats


def middles_of(
    profile: Profile | None, cells: Sequence[tuple[float, float]], half: float, gap: float, lengths: Sequence[float]
) -> Middles:
    """Return the chords at the middle of sheets of these lengths, of pieces that reach half a lap beyond their joints.

    A piece of length l on a sheet of length X has a point of the sheet's middle between its own l - X/2 and X/2,
    counted from either end.
    """
    count = len(cells)
    if profile is None:
        nothing = np.zeros((len(lengths), count))
        return Middles(nothing, np.zeros((len(lengths), count, count)), nothing)
    low, high = np.array(cells).T
    # The nearest that a piece begins, the nearest that it ends; the panel's own ends stand first and last.
    begins = np.concatenate([[profile.start], high - half])
    ends = np.concatenate([low + half, [profile.end]])
    chords = np.stack([_chords(profile, begins, ends, length, gap) for length in lengths])
    return Middles(chords[:, 0, :-1], chords[:, 1:, :-1], chords[:, 1:, -1])


def middles_in_blank(
    profile: Profile | None,
    cells: Sequence[tuple[float, float]],
    halves: tuple[float, float],
    gap: float,
    lengths: Sequence[float],
) -> Middles:
    """Return the same of pieces from blanks: their joints lie at the ends of sheets, so they can't be moved there.

    What lies on the half of a sheet that was cut across in the middle does not reach the middle of a whole one.

    Parameters
    ----------
    halves : (least, most)
        Half of the shortest lap of sheets that serve, and half of the longest.
    """
    if profile is None:
        return middles_of(None, cells, halves[0], gap, lengths)
    least, most = halves
    low, high = np.array(cells).T
    first, last = [], []
    for length in lengths:
        first.append(_least(profile, low + least - length / 2, high + most - length / 2, gap))
        last.append(_least(profile, low - most + length / 2, high - least + length / 2, gap))
    firsts, lasts = np.stack(first), np.stack(last)
    return Middles(firsts, np.maximum(lasts[:, :, None], firsts[:, None, :]), lasts)


def _least(profile: Profile, starts: Floats, ends: Floats, gap: float) -> Floats:
    """Return the least chord between places of the middle, a gap included; nought where it may leave the panel."""
    chords = np.maximum(profile.least(starts - SHIFT, ends + SHIFT) - HAIR, 0.0)
    return np.where(chords > 0, chords + gap, 0.0)


def middle_of_whole(profile: Profile, gap: float, length: float) -> float:
    """Return the chord that a panel in one piece has at the middle of a sheet, nought if it need not reach there."""
    start, end = np.array([profile.start]), np.array([profile.end])
    return float(_chords(profile, start, end, length, gap)[0, 0])


def weight(line: Line, chords: Floats) -> Floats:
    """Return what chords take of a line across a sheet: their width, or how many parts of the sheet's they exceed.

    Of widths that add up to H at the most, with j/n H each more than j of the n parts, no more than n - 1 parts go in.
    """
    if line.parts == 0:
        return chords
    return np.maximum(np.ceil(chords * line.parts / line.height - 1e-9) - 1.0, 0.0)


@dataclass(frozen=True)
class OverMiddle:
    """What pieces on one kind of sheet take of the lines (L) across its middle, at these places in the resources.

    Attributes
    ----------
    first, last : ndarray of shape (L, N)
    between : ndarray of shape (L, N, N)
    """

    places: NDArray[np.int64]
    first: Floats
    between: Floats
    last: Floats


def over_middles(resources: Resources, kinds: Sequence[int], middles: Middles) -> tuple[OverMiddle, ...]:
    """Return what pieces take of the lines across the middles of these kinds of sheet."""
    return tuple(_over_middle(resources, kind, t, middles) for t, kind in enumerate(kinds))


def _over_middle(resources: Resources, kind: int, t: int, middles: Middles) -> OverMiddle:
    chords = (middles.first[t], middles.between[t], middles.last[t])
    lines = [(place, [weight(line, some) for some in chords]) for place, line in resources.lines_on(kind)]
    first, between, last = (np.stack([taken[k] for _, taken in lines]) for k in range(3))
    return OverMiddle(np.array([place for place, _ in lines]), first, between, last)


def weights(resources: Resources, prices: Floats, owners: Sequence[int], chords: Floats) -> Floats:
    """Return what chords over the lines of these owners cost; the first axis is that of owners."""
    total = np.zeros_like(chords)
    for t, owner in enumerate(owners):
        for place, line in resources.lines_on(owner):
            if prices[place] > 0:
                total[t] += prices[place] * weight(line, chords[t])
    return total


def _chords(profile: Profile, begins: Floats, ends: Floats, length: float, gap: float) -> Floats:
    """Return the least chord between each end less half a sheet and each begin more half a sheet, plus a gap."""
    starts, stops = ends - length / 2, begins + length / 2
    knots, first, last = profile.cut_at(np.concatenate([starts, stops]))
    stretch = np.append(np.minimum(first, last), np.inf)
    at_start = np.searchsorted(knots, np.clip(starts, knots[0], knots[-1]))
    at_stop = np.searchsorted(knots, np.clip(stops, knots[0], knots[-1]))
    found = np.zeros((len(begins), len(ends)))
    for j, k in enumerate(at_start):
        least = np.minimum.accumulate(stretch[k:])
        reaches = (starts[j] >= begins + HAIR) & (stops <= ends[j] - HAIR) & (starts[j] <= stops)
        upto = np.clip(at_stop - 1 - k, 0, len(least) - 1)
        found[reaches, j] = np.maximum(least[upto[reaches]] - HAIR, 0.0) + gap
    return found
