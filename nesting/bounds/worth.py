"""What the pieces of a panel are worth by a value of chords: as area, or as what few of can lie abreast."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from nesting.joints import Reach

from .asked import Asked
from .demand import HAIR
from .profile import Profile
from .resources import Floats
from .valuing import Valuing


@dataclass(frozen=True)
class Worth:
    """What a panel is worth along its stations, chord by chord, with joints in cells (N).

    Attributes
    ----------
    below, above : ndarray of shape (N,)
        Of the panel, with half a gap above and below, up to the far side of the lap of a joint at its cell's low end,
        and up to the near side of the lap of one at its cell's high end.
    end : float
        The same of the whole panel.
    rest : float
        What the whole panel is worth beyond that, half a gap at its ends.
    twice : ndarray of shape (N,)
        What a joint in each cell takes a second time: its lap, and half a cut on both its sides.
    straps : ndarray of shape (N,)
        Of the strap behind a joint in each cell, half a gap around it included.
    """

    below: Floats
    above: Floats
    end: float
    rest: float
    twice: Floats
    straps: Floats


def worth_of(asked: Asked, cells: Sequence[tuple[float, float]], valuing: Valuing) -> Worth:
    """Return what a panel that may be joined is worth.

    Of a panel that does not lie true along the sheet nothing but the slope of a value counts.
    """
    valuing = valuing if asked.lies_true else Valuing(valuing.slope)
    profile, reach, gap = asked.profile, asked.reach, asked.job.workshop.gap
    low, high = np.array(cells).T
    half = reach.lap / 2
    stations = np.concatenate([low + half, high - half, [profile.end]])
    sums = valuing.sums(profile, gap, stations)
    bands = least_chords(profile, cells, half)
    kerf = asked.job.workshop.kerf.sheet
    return Worth(
        below=sums[: len(cells)],
        above=sums[len(cells) : -1],
        end=float(sums[-1]),
        rest=_rest(asked, profile, valuing, float(sums[-1])),
        twice=reach.lap * valuing.of(bands + gap) + kerf * valuing.of(bands),
        straps=_straps(profile, cells, reach, gap, valuing),
    )


def whole_worth(asked: Asked, valuing: Valuing) -> float:
    """Return what a panel in one piece is worth."""
    profile = asked.abreast
    if valuing.by_width or profile is None:
        return valuing.slope * asked.area
    gap = asked.job.workshop.gap
    end = float(valuing.sums(profile, gap, np.array([profile.end]))[0])
    return max(end + _ends(profile, gap, valuing), valuing.slope * asked.area)


def least_chords(profile: Profile, cells: Sequence[tuple[float, float]], half: float) -> Floats:
    """Return the least chord within ``half`` of any station of each cell."""
    low, high = np.array(cells).T
    return np.maximum(profile.least(low - half, high + half) - HAIR, 0.0)


def _rest(asked: Asked, profile: Profile, valuing: Valuing, end: float) -> float:
    if valuing.by_width:
        return max(0.0, valuing.slope * asked.area - end)
    return _ends(profile, asked.job.workshop.gap, valuing)


def _ends(profile: Profile, gap: float, valuing: Valuing) -> float:
    """Return what half a gap beyond both ends is worth: there the chord is that of the end at the least."""
    first, last = valuing.of(np.array([profile.first[0], profile.last[-1]]))
    return gap / 2 * float(first + last)


def _straps(
    profile: Profile, cells: Sequence[tuple[float, float]], reach: Reach, gap: float, valuing: Valuing
) -> Floats:
    if reach.strap == 0:
        return np.zeros(len(cells))
    chords = least_chords(profile, cells, reach.strap / 2)
    return reach.strap * valuing.of(chords + gap) + gap * valuing.of(chords)
