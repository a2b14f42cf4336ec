"""Hints: what in a job can be planned, yet looks like a slip."""

from nesting.model import Job, Problem

from .hints_of_parts import frames_outside, needless_joints, zones_outside
from .hints_of_stock import (
    breaks_out_of_reach,
    dearer_twins,
    heavy_trim,
    no_price,
    strange_sizes,
    uneven_sheets,
    unlimited_offcuts,
    useless_stock,
)
from .hints_of_workshop import no_kerf, short_least_piece

#: Every kind of hint, in the order in which they are told.
KINDS_OF_HINT = (
    strange_sizes,
    no_kerf,
    heavy_trim,
    short_least_piece,
    no_price,
    breaks_out_of_reach,
    unlimited_offcuts,
    dearer_twins,
    uneven_sheets,
    useless_stock,
    needless_joints,
    zones_outside,
    frames_outside,
)


def hints(job: Job) -> tuple[Problem, ...]:
    """Return what looks like a slip in a job, yet keeps no plan from being made; each code begins with ``hint-``."""
    return tuple(hint for kind in KINDS_OF_HINT for hint in kind(job))
