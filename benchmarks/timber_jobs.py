"""Made-up jobs of timber without joints: several stocks, up to two hundred strips, whole or tenths of millimetres."""

import random
from dataclasses import replace

from .data import SpliceInstance, SpliceStock, SpliceStrip

#: Jobs of each unit, and the seed of the first.
JOBS = 20

#: Strips of a job, and stocks, at least and at most.
STRIPS, STOCKS = (20, 200), (2, 10)

#: Lengths of stock that merchants have, in millimetres; what a metre costs in cents, and by how much that differs.
LENGTHS, RATE, SPREAD = range(1800, 7201, 300), 310, 0.15

#: The shortest strip, in millimetres, and shares of the longest stock that the longest of a job is.
SHORTEST, LONGEST = 150, (0.25, 0.9)

#: Copies of a strip, and lengths there are of a stock that is limited, at most.
COPIES, AVAILABLE = 8, 12


def several_stocks() -> tuple[SpliceInstance, ...]:
    """Return jobs whose stock differs in length and price; half of it is limited."""
    return tuple(job(seed, units) for units in (1, 10) for seed in range(JOBS))


def job(seed: int, units: int) -> SpliceInstance:
    """Return a job; ``units`` are in a millimetre, and cuts are given to one of them."""
    draw = random.Random(f"timber {seed} {units}")
    lengths = sorted(draw.sample(LENGTHS, draw.randint(*STOCKS)))
    stock = [_stock(draw, length, units) for length in lengths]
    stock[-1] = replace(stock[-1], available=None)  # so that all can be made
    longest = int(lengths[-1] * units * draw.uniform(*LONGEST))
    left, strips = draw.randint(*STRIPS), []
    while left:
        length = draw.randint(SHORTEST * units, longest)
        strips.append(SpliceStrip(length, min(left, draw.randint(1, COPIES)), (), 0))
        left -= strips[-1].quantity
    return SpliceInstance(
        name=f"{'tenths' if units > 1 else 'whole'}-{seed:02}",
        family="tenths of mm" if units > 1 else "whole mm",
        kerf=3 * units,
        lap=0,
        least_piece=1,
        joint_cost=0,
        stock=tuple(stock),
        strips=tuple(strips),
        shift=(),
        study_cost=0,
        study_bound=0,
        study_proven=False,
    )


def ten_times(given: SpliceInstance, times: int = 10) -> SpliceInstance:
    """Return the job with so many times as many of each strip, and of each stock."""
    return replace(
        given,
        stock=tuple(replace(s, available=None if s.available is None else s.available * times) for s in given.stock),
        strips=tuple(replace(strip, quantity=strip.quantity * times) for strip in given.strips),
    )


def _stock(draw: random.Random, length: int, units: int) -> SpliceStock:
    price = round(length * RATE * draw.uniform(1 - SPREAD, 1 + SPREAD) / 1000)
    available = draw.randint(1, AVAILABLE) if draw.random() < 0.5 else None
    return SpliceStock(length * units, price, available, ())
