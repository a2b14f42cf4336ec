"""One way of joining a panel, its stations in cells, and what a division at any of them takes at the least."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from nesting.joints import Reach
from nesting.model import TOLERANCE, JointRule

from .asked import Asked
from .cells import Cells, cells_of
from .middle import Middles, OverMiddle, middles_of, over_middles
from .resources import Floats, lies_across
from .valuing import Valuing
from .worth import Worth, least_chords, worth_of

Flags = NDArray[np.bool_]
Places = NDArray[np.int64]

#: How much a joint takes of what pays for it, by the least chord there.
Paid = Callable[[float], float]


@dataclass(frozen=True)
class Divisible:
    """What one way of joining a panel takes, by cells (N) and by the kinds of sheet that serve it (T).

    Attributes
    ----------
    kinds : ndarray of shape (T,)
        Places of those kinds of sheet in the resources.
    cells : sequence of (from, to)
        Stretches of stations, rising, that hold every station at which a joint may lie.
    worth : Worth
        What pieces between joints in the cells are worth.
    first, last : ndarray of shape (T, N)
        Whether the first piece can end in a cell, or the last begin there, on each kind of sheet.
    between : ndarray of shape (T, N, N)
        Whether a piece can run from one cell to another on each kind of sheet.
    middles : Middles
        Chords that pieces have at the middle of a sheet.
    over_middles : tuple of OverMiddle
        What these take of the lines there, by kind of sheet.
    payer : ndarray of shape (K, T, T)
        Places in the resources any of which may pay for a joint between two kinds of sheet; -1 where none may lie.
    money : ndarray of shape (N,)
        How much of that a joint takes: cents, or millimetres of chord across a blank's scarf.
    """

    kinds: Places
    cells: Cells
    worth: Worth
    first: Flags
    last: Flags
    between: Flags
    middles: Middles
    over_middles: tuple[OverMiddle, ...]
    payer: Places
    money: Floats


def ways_of(asked: Asked) -> tuple[Divisible, ...]:
    """Return each way in which a panel may be joined: divided, or cut from a blank."""
    rule, way = asked.rule, asked.job.workshop.way
    if rule is None or not asked.serving:
        return ()
    ways = [_divided(asked, rule)] if way in ("divided", "both") else []
    ways += [_from_blanks(asked)] if way in ("joined", "both") and _may_be_joined(asked, rule) else []
    return tuple(found for found in ways if found is not None)


def _may_be_joined(asked: Asked, rule: JointRule) -> bool:
    """Whether a panel may run along a blank: it lies true there, and no blank is longer than can be handled."""
    handled = asked.job.workshop.longest_piece or asked.length
    return rule.kind == "scarf" and asked.panel.grain != "across" and asked.length <= handled + TOLERANCE


def _divided(asked: Asked, rule: JointRule) -> Divisible | None:
    """Return the pieces of a panel cut first and joined then: each joint is paid by its own width."""
    count = len(asked.serving)
    payer = np.full((1, count, count), asked.resources.joint)
    return _divisible(asked, asked.longest, payer, lambda chord: float(int(rule.cost.of(chord) * 100)))


def _from_blanks(asked: Asked) -> Divisible | None:
    """Return a panel cut across the scarfs of a blank: all that cross one have room within its width.

    The blank may be of whole sheets, or of strips that are wide enough for the panel. None if none is.
    """
    resources, gap = asked.resources, asked.job.workshop.gap
    fitting = [k for k, scarf in enumerate(resources.scarfs) if lies_across(asked.panel, asked.height, gap, scarf)]
    if not fitting:
        return None
    payer = np.full((len(fitting), len(asked.serving), len(asked.serving)), -1)
    for place, kind in enumerate(fitting):
        within = [k for k, sheet in enumerate(asked.serving) if sheet in resources.scarfs[kind].members]
        payer[np.ix_([place], within, within)] = resources.scarf(kind)
    longest = [resources.supplies[k].length + 2 * asked.job.workshop.allowance for k in asked.serving]
    return _divisible(asked, longest, payer, lambda chord: chord + gap)


def _divisible(asked: Asked, longest: Sequence[float], payer: Places, paid: Paid) -> Divisible | None:
    reach = asked.reach
    cells = cells_of(reach, longest)
    if not cells:
        return None
    half = reach.lap / 2
    low, high = np.array(cells).T
    most = np.array(longest)[:, None] + TOLERANCE
    profile = asked.profile if asked.lies_true else None
    middles = middles_of(profile, cells, half, asked.job.workshop.gap, asked.reaches)
    return Divisible(
        kinds=np.array(asked.serving),
        cells=cells,
        worth=worth_of(asked, cells, Valuing()),
        first=low[None, :] + half - reach.start <= most,
        last=reach.end - high[None, :] + half <= most,
        between=_between(low, high, reach, most),
        middles=middles,
        over_middles=over_middles(asked.resources, asked.serving, middles),
        payer=payer,
        money=np.array([paid(float(chord)) for chord in least_chords(asked.profile, cells, 0.0)]),
    )


def _between(low: Floats, high: Floats, reach: Reach, most: Floats) -> Flags:
    """Return whether a piece may run from some station of one cell to some of a later one, by kind of sheet."""
    furthest = high[None, :] - low[:, None]
    nearest = np.maximum(low[None, :] - high[:, None], 0.0)
    apart = np.triu(furthest >= reach.spacing - TOLERANCE, 1)
    return apart[None] & (nearest[None] + reach.lap <= most[:, :, None])
