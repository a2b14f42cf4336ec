"""Lengths as whole numbers, so that cutting and proving need no trust in floats."""

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from math import gcd

from nesting.model import Job

#: Grains in a millimetre. Every figure in 1/128 inch or in 0.1 micrometre is a whole number of grains; what is
#: finer is noise of float arithmetic, far below what the model calls the same place.
GRAINS = 10_000_000


@dataclass(frozen=True)
class Measure:
    """Turns millimetres into whole units and back.

    Attributes
    ----------
    grains : int
        Grains in one unit: the greatest common divisor of all figures of a job. Cutting in such units loses
        nothing: with pieces given to lengths, all rules bound sums over two families of sets (the pieces of a
        length; the first pieces of a strip, and single pieces), each nested or apart, so that the system is
        totally unimodular and has whole solutions wherever it has any.
    """

    grains: int

    def units(self, millimetres: float) -> int:
        """Return a figure of the job in units."""
        return round(millimetres * GRAINS) // self.grains

    def units_up(self, millimetres: float) -> int:
        """Return the fewest units that are at least a figure."""
        return -(-round(millimetres * GRAINS) // self.grains)

    def cents_a_unit(self, a_metre: Decimal) -> Fraction:
        """Return in cents what one unit is worth at a price for the metre."""
        return Fraction(a_metre) * 100 * self.grains / (1000 * GRAINS)

    def millimetres(self, units: int) -> float:
        """Return units in millimetres, correctly rounded."""
        return units * self.grains / GRAINS


def common_measure(job: Job) -> Measure:
    """Return the measure in which every figure of the job's timber is whole."""
    return Measure(gcd(*(round(figure * GRAINS) for figure in _figures(job))) or 1)


def cents(amount: Decimal) -> int:
    """Return money in whole cents."""
    return int(amount * 100)


def _figures(job: Job) -> Iterator[float]:
    """Yield all lengths that rules are made of; of a lap its half, since a station is the middle of one."""
    yield job.workshop.kerf.crosscut
    if job.workshop.longest_piece is not None:
        yield job.workshop.longest_piece
    if any(length.offcut_value for length in job.lengths):
        yield job.workshop.keep_length_from
    for length in job.lengths:
        yield length.length
        yield from (end for fault in length.faults for end in fault)
    strips = {strip.name for strip in job.strips}
    yield from (pair.shift for pair in job.neighbours if strips.issuperset(pair.between))
    for strip in job.strips:
        yield strip.length
        if strip.joint is not None:
            rule = job.joints[strip.joint]
            yield from (rule.lap(strip.bevelled) / 2, strip.least_piece or rule.least_piece)
            yield from (end for zone in (*strip.no_joint, *strip.prefer) for end in zone)
