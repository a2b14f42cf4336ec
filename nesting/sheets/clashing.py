"""Which ways to make two neighbouring panels bring their joints too near to one another."""

from collections.abc import Iterator, Sequence
from itertools import product

from nesting.joints import HAIR
from nesting.model import Job

from .variants import Variant


def clashes(job: Job, variants: Sequence[Sequence[Variant]]) -> dict[tuple[Variant, Variant], None]:
    """Return the pairs of variants of neighbours whose joints come closer than their shift, as an ordered set."""
    return dict.fromkeys(_clashes(job, variants))


def _clashes(job: Job, variants: Sequence[Sequence[Variant]]) -> Iterator[tuple[Variant, Variant]]:
    place = {panel.name: index for index, panel in enumerate(job.panels)}
    for pair in (pair for pair in job.neighbours if place.keys() >= set(pair.between)):
        one, other = (variants[place[name]] for name in pair.between)
        for a, b in product(one, other):
            if any(abs(s - t) < pair.shift - HAIR for s in a.boat_stations for t in b.boat_stations):
                yield a, b
