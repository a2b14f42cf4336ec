"""One way of joining a panel, its stations in cells, and what a division at any of them takes at the least."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from nesting.joints import Reach
from nesting.model import TOLERANCE, JointRule

from .asked import Asked
from .cells import Cells, cells_of
from .crossing import Crossing
from .middle import SHIFT, Middles, OverMiddle, middles_in_blank, middles_of, over_middles
from .resources import Floats, lies_across, scarfs_needed
from .valuing import Valuing
from .worth import Worth, least_chords, worth_of

Flags = NDArray[np.bool_]
Places = NDArray[np.int64]


@dataclass(frozen=True)
class Runs:
    """From where to where pieces can run, by kind of sheet (T) and cell (N).

    Attributes
    ----------
    first, last : ndarray of shape (T, N)
        Whether the first piece can end in a cell, or the last begin there.
    between : ndarray of shape (T, N, N)
        Whether a piece can run from one cell to another.
    """

    first: Flags
    between: Flags
    last: Flags


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
    runs : Runs
        How far pieces can run.
    middles : Middles
        Chords that pieces have at the middle of a sheet.
    over_middles : tuple of OverMiddle
        What these take of the lines there, by kind of sheet.
    payer : ndarray of shape (K, T, T)
        Places in the resources any of which may pay for a joint between two kinds of sheet; -1 where none may lie.
    money : ndarray of shape (N,)
        How much of that a joint takes: cents, or millimetres of chord across a blank's scarf.
    crossing : Crossing or None
        What scarfs it crosses if it is cut from a blank.
    """

    kinds: Places
    cells: Cells
    worth: Worth
    runs: Runs
    middles: Middles
    over_middles: tuple[OverMiddle, ...]
    payer: Places
    money: Floats
    crossing: Crossing | None


def ways_of(asked: Asked) -> tuple[Divisible, ...]:
    """Return each way in which a panel may be joined: divided, or cut from a blank."""
    rule, way = asked.rule, asked.job.workshop.way
    if rule is None or not asked.serving:
        return ()
    ways = [_divided(asked, rule)] if way in ("divided", "both") else []
    if way in ("joined", "both") and _may_be_joined(asked, rule):
        ways += [_from_blank(asked, rule, kind) for kind in _fitting(asked)]
    return tuple(found for found in ways if found is not None)


def _may_be_joined(asked: Asked, rule: JointRule) -> bool:
    """Whether a panel may run along a blank: it lies true there, and no blank is longer than can be handled."""
    handled = asked.job.workshop.longest_piece or asked.length
    return rule.kind == "scarf" and asked.panel.grain != "across" and asked.length <= handled + TOLERANCE


def _divided(asked: Asked, rule: JointRule) -> Divisible | None:
    """Return the pieces of a panel cut first and joined then: each joint is paid by its own width."""
    cells = cells_of(asked.reach, asked.longest)
    if not cells:
        return None
    profile = asked.profile if asked.lies_true else None
    middles = middles_of(profile, cells, asked.reach.lap / 2, asked.job.workshop.gap, asked.reaches)
    count = len(asked.serving)
    chords = least_chords(asked.profile, cells, 0.0)
    return Divisible(
        kinds=np.array(asked.serving),
        cells=cells,
        worth=worth_of(asked, cells, Valuing()),
        runs=_runs(asked.reach, cells, asked.longest),
        middles=middles,
        over_middles=over_middles(asked.resources, asked.serving, middles),
        payer=np.full((1, count, count), asked.resources.joint),
        money=np.array([float(int(rule.cost.of(float(chord)) * 100)) for chord in chords]),
        crossing=None,
    )


def _fitting(asked: Asked) -> list[int]:
    """Return the kinds of scarf across which a panel may lie: of whole sheets, or of strips that are wide enough."""
    scarfs, gap = asked.resources.scarfs, asked.job.workshop.gap
    return [k for k, scarf in enumerate(scarfs) if lies_across(asked.panel, asked.height, gap, scarf)]


def _from_blank(asked: Asked, rule: JointRule, kind: int) -> Divisible | None:
    """Return a panel cut across scarfs of one kind: all that cross one have room within the blank's width.

    Of a blank's sheets all but the last are of whole length, so two scarfs next to one another lie as far apart as
    that, less a lap. None if no sheet of it serves, or the panel can't lie across.
    """
    resources, gap, reach = asked.resources, asked.job.workshop.gap, asked.reach
    serving = [k for k in asked.serving if k in resources.scarfs[kind].members]
    lengths = [resources.supplies[k].length + 2 * asked.job.workshop.allowance for k in serving]
    cells = cells_of(reach, lengths)
    least = scarfs_needed(reach, max(lengths, default=0.0) + TOLERANCE)
    if not cells or not serving or least is None:
        return None
    laps = [rule.lap(resources.supplies[k].sheet.true_thickness) for k in serving]
    apart = [(length - max(laps), length - min(laps)) for length in lengths]
    runs = _runs(reach, cells, lengths)
    runs = replace(runs, between=runs.between & _may_be_apart(cells, apart))
    profile = asked.profile if asked.lies_true else None
    middles = middles_in_blank(profile, cells, (reach.lap / 2, max(laps) / 2), gap, lengths)
    chords = least_chords(asked.profile, cells, 0.0) + gap
    return Divisible(
        kinds=np.array(serving),
        cells=cells,
        worth=worth_of(asked, cells, Valuing()),
        runs=runs,
        middles=middles,
        over_middles=over_middles(resources, serving, middles),
        payer=np.full((1, len(serving), len(serving)), resources.scarf(kind)),
        money=chords,
        crossing=_crossing(kind, least, runs, chords, middles),
    )


def _crossing(kind: int, least: int, runs: Runs, chords: Floats, middles: Middles) -> Crossing:
    """Return what a panel takes at the least of each scarf, and of each sheet between two."""
    if least == 1:
        return Crossing(kind, least, float(chords.min()), 0.0)
    joined = runs.between.any(axis=(0, 1)) | runs.between.any(axis=(0, 2))  # cells from or to which a piece runs
    at_scarf = float(chords[joined].min(initial=np.inf))
    return Crossing(kind, least, at_scarf, float(middles.between[runs.between].min(initial=np.inf)))


def _runs(reach: Reach, cells: Cells, longest: Sequence[float]) -> Runs:
    """Return how far pieces may run on kinds of sheet that give pieces so long."""
    low, high = np.array(cells).T
    most, half = np.array(longest)[:, None] + TOLERANCE, reach.lap / 2
    return Runs(
        first=low[None, :] + half - reach.start <= most,
        between=_between(low, high, reach, most),
        last=reach.end - high[None, :] + half <= most,
    )


def _may_be_apart(cells: Cells, distances: Sequence[tuple[float, float]]) -> Flags:
    """Return whether some station of one cell and some of a later one lie apart by between two distances, for each."""
    low, high = np.array(cells).T
    furthest, nearest = high[None, :] - low[:, None], low[None, :] - high[:, None]
    return np.stack([(nearest <= most + SHIFT) & (furthest >= least - SHIFT) for least, most in distances])


def _between(low: Floats, high: Floats, reach: Reach, most: Floats) -> Flags:
    """Return whether a piece may run from some station of one cell to some of a later one, by kind of sheet."""
    furthest = high[None, :] - low[:, None]
    nearest = np.maximum(low[None, :] - high[:, None], 0.0)
    apart = np.triu(furthest >= reach.spacing - TOLERANCE, 1)
    return apart[None] & (nearest[None] + reach.lap <= most[:, :, None])
