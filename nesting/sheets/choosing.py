"""Chooses one variant of each panel such that neighbours keep their joints apart."""

from collections.abc import Collection, Iterator, Sequence
from itertools import product
from random import Random

from ortools.sat.python import cp_model

from nesting.model import Job
from nesting.solving import minimize

from .parts import Part
from .variants import Variant

#: Deterministic solver time for a choice; a choice takes a few milliseconds.
EFFORT = 2.0


def clashes(job: Job, variants: Sequence[Sequence[Variant]]) -> dict[tuple[Variant, Variant], None]:
    """Return the pairs of variants of neighbours whose joints come closer than their shift, as an ordered set."""
    return dict.fromkeys(_clashes(job, variants))


def choose(
    parts: Sequence[Part],
    variants: Sequence[Sequence[Variant]],
    clashing: Collection[tuple[Variant, Variant]],
    chance: Random | None,
) -> tuple[Variant, ...] | None:
    """Return one variant for each panel, cheapest in joints, or as chance values them; None if there is no choice.

    Parameters
    ----------
    chance : Random or None
        Adds a random cost to each variant, so that different choices come out.
    """
    model = cp_model.CpModel()
    chosen = {v: model.new_bool_var(f"{p}/{k}") for p, several in enumerate(variants) for k, v in enumerate(several)}
    for several in variants:
        model.add_exactly_one(chosen[variant] for variant in several)
    for one, other in clashing:
        model.add_at_most_one(chosen[one], chosen[other])
    model.minimize(
        sum(
            _cost(parts[p], variant, chance) * chosen[variant]
            for p, several in enumerate(variants)
            for variant in several
        )
    )
    answer = minimize(model, effort=EFFORT)
    if not answer.found:
        return None
    return tuple(
        next(variant for k, variant in enumerate(several) if answer.values[f"{p}/{k}"])
        for p, several in enumerate(variants)
    )


def altered(
    choice: Sequence[Variant],
    variants: Sequence[Sequence[Variant]],
    clashing: Collection[tuple[Variant, Variant]],
    chance: Random,
) -> tuple[Variant, ...]:
    """Return the choice with the variant of one panel, drawn by chance, exchanged for one that clashes with none."""
    panel = chance.randrange(len(choice))
    others = [variant for variant in choice if variant.panel != panel]
    free = [v for v in variants[panel] if not any((v, o) in clashing or (o, v) in clashing for o in others)]
    return tuple(chance.choice(free) if variant.panel == panel else variant for variant in choice)


def _cost(part: Part, variant: Variant, chance: Random | None) -> int:
    joints = part.panel.quantity * variant.joint_cost
    return joints if chance is None else joints + chance.randrange(1 + part.panel.quantity * 1000)


def _clashes(job: Job, variants: Sequence[Sequence[Variant]]) -> Iterator[tuple[Variant, Variant]]:
    place = {panel.name: index for index, panel in enumerate(job.panels)}
    for pair in job.neighbours:
        one, other = (variants[place[name]] for name in pair.between)
        for a, b in product(one, other):
            if any(abs(s - t) < pair.shift - 1e-9 for s in a.boat_stations for t in b.boat_stations):
                yield a, b
