"""One way of joining a panel, its stations in cells, and what a division at any of them takes at the least."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from nesting.joints import Reach
from nesting.model import TOLERANCE, JointRule

from .asked import Asked
from .cells import cells_of
from .demand import HAIR
from .profile import Profile
from .resources import Floats

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
    below, above : ndarray of shape (N,)
        Area of the panel, with half a gap above and below, up to the far side of the lap of a joint at its cell's
        low end, and up to the near side of the lap of one at its cell's high end.
    end : float
        The same area of the whole panel.
    rest : float
        What the whole panel takes beyond that at its ends.
    twice : ndarray of shape (N,)
        What a joint in each cell takes a second time: its lap, and half a cut on both its sides.
    straps : ndarray of shape (N,)
        Area of the strap behind a joint in each cell, half a gap around it included.
    first, last : ndarray of shape (T, N)
        Whether the first piece can end in a cell, or the last begin there, on each kind of sheet.
    between : ndarray of shape (T, N, N)
        Whether a piece can run from one cell to another on each kind of sheet.
    payer : ndarray of shape (T, T)
        Place in the resources that pays for a joint between two kinds of sheet; -1 where none may lie.
    money : ndarray of shape (N,)
        How much of that a joint takes: cents, or millimetres of chord across a blank's scarf.
    """

    kinds: Places
    below: Floats
    above: Floats
    end: float
    rest: float
    twice: Floats
    straps: Floats
    first: Flags
    last: Flags
    between: Flags
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
    payer = np.full((count, count), asked.resources.joint)
    return _divisible(asked, asked.longest, payer, lambda chord: float(int(rule.cost.of(chord) * 100)))


def _from_blanks(asked: Asked) -> Divisible | None:
    """Return a panel cut across the scarfs of a blank: all that cross one have room within its width."""
    resources, gap = asked.resources, asked.job.workshop.gap
    payer = np.full((len(asked.serving), len(asked.serving)), -1)
    for kind, scarf in enumerate(resources.scarfs):
        if scarf.joint == asked.panel.joint:
            within = [k for k, place in enumerate(asked.serving) if place in scarf.members]
            payer[np.ix_(within, within)] = resources.scarf(kind)
    longest = [resources.supplies[k].length + 2 * asked.job.workshop.allowance for k in asked.serving]
    return _divisible(asked, longest, payer, lambda chord: chord + gap)


def _divisible(asked: Asked, longest: Sequence[float], payer: Places, paid: Paid) -> Divisible | None:
    reach = asked.reach()
    cells = cells_of(reach, longest)
    if not cells:
        return None
    profile, gap, half = asked.profile(), asked.job.workshop.gap, reach.lap / 2
    low, high = np.array(cells).T
    most = np.array(longest)[:, None] + TOLERANCE
    bands = _least_chords(profile, cells, half)
    end = _area_to(profile, np.array([profile.end]), gap)[0]
    return Divisible(
        kinds=np.array(asked.serving),
        below=_area_to(profile, low + half, gap),
        above=_area_to(profile, high - half, gap),
        end=float(end),
        rest=max(0.0, asked.area - float(end)),
        twice=reach.lap * (bands + gap) + asked.job.workshop.kerf.sheet * bands,
        straps=_straps(profile, cells, reach, gap),
        first=low[None, :] + half - reach.start <= most,
        last=reach.end - high[None, :] + half <= most,
        between=_between(low, high, reach, most),
        payer=payer,
        money=np.array([paid(float(chord)) for chord in _least_chords(profile, cells, 0.0)]),
    )


def _least_chords(profile: Profile, cells: Sequence[tuple[float, float]], half: float) -> Floats:
    """Return the least chord within ``half`` of any station of each cell."""
    return np.array([max(0.0, profile.least(a - half, b + half) - HAIR) for a, b in cells])


def _area_to(profile: Profile, stations: Floats, gap: float) -> Floats:
    """Return the area up to each station, half a gap above and below every chord included."""
    return profile.area_below(stations) + gap * (stations - profile.start)


def _straps(profile: Profile, cells: Sequence[tuple[float, float]], reach: Reach, gap: float) -> Floats:
    if reach.strap == 0:
        return np.zeros(len(cells))
    chords = _least_chords(profile, cells, reach.strap / 2)
    return reach.strap * (chords + gap) + gap * chords


def _between(low: Floats, high: Floats, reach: Reach, most: Floats) -> Flags:
    """Return whether a piece may run from some station of one cell to some of a later one, by kind of sheet."""
    furthest = high[None, :] - low[:, None]
    nearest = np.maximum(low[None, :] - high[:, None], 0.0)
    apart = np.triu(furthest >= reach.spacing - TOLERANCE, 1)
    return apart[None] & (nearest[None] + reach.lap <= most[:, :, None])
