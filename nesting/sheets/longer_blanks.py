"""Whether longer blanks than can be handled would help, and how long these have to be."""

import math
from collections.abc import Callable, Sequence

from nesting.model import TOLERANCE, Job

from .blanks import blanks_of, with_blanks
from .parts import Part, part_of
from .stock import Stock, stock_of

Parts = tuple[Part, ...]


def longest_that_helps(job: Job, parts: Sequence[Part], helps: Callable[[Job, Parts], bool]) -> int | None:
    """Return the least ``longest_piece``, in millimetres, at which longer blanks help; None if none would.

    Parameters
    ----------
    parts : sequence of Part
        The panels that are to come from blanks.
    helps : callable
        Whether these can be made, given a job in which longer pieces can be handled and the panels as they are then.
    """
    longest = job.workshop.longest_piece
    if longest is None:
        return None
    sheets = stock_of(job)
    for length in _lengths(job, parts, sheets, longest):
        longer = _with_longest(job, length)
        if helps(longer, _anew(longer, parts, sheets)):
            return length
    return None


def _lengths(job: Job, parts: Sequence[Part], sheets: Sequence[Stock], longest: float) -> list[int]:
    """Return how long blanks are that can't be handled, in whole millimetres, rising."""
    blanks = blanks_of(_with_longest(job, None), parts, sheets)
    lengths = {math.ceil(blank.size_usable[0] - TOLERANCE) for blank in blanks}
    return sorted(length for length in lengths if length > longest)


def _with_longest(job: Job, longest: float | None) -> Job:
    workshop = job.workshop.model_copy(update={"longest_piece": longest})
    return job.model_copy(update={"workshop": workshop})


def _anew(job: Job, parts: Sequence[Part], sheets: Sequence[Stock]) -> Parts:
    """Return the panels as they are where the job lets longer pieces be handled."""
    without = [part_of(part.index, part.panel, part.stocks, job) for part in parts]
    blanks = blanks_of(job, without, sheets)
    return tuple(with_blanks(part, blanks, job) for part in without)
