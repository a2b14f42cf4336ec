"""One variant of each panel, as variables of a model: clashing ones are not taken together."""

from collections.abc import Collection, Mapping, Sequence

from ortools.sat.python import cp_model

from .variants import Variant


def one_of_each(
    model: cp_model.CpModel,
    variants: Sequence[Sequence[Variant]],
    clashing: Collection[tuple[Variant, Variant]],
) -> dict[Variant, cp_model.IntVar]:
    """Add one variable for each variant: one of each panel is taken, and of clashing ones not both."""
    chosen = {v: model.new_bool_var(f"{p}/{k}") for p, several in enumerate(variants) for k, v in enumerate(several)}
    for several in variants:
        model.add_exactly_one(chosen[variant] for variant in several)
    for one, other in clashing:
        if one in chosen and other in chosen:
            model.add_at_most_one(chosen[one], chosen[other])
    return chosen


def variants_taken(variants: Sequence[Sequence[Variant]], values: Mapping[str, int]) -> tuple[Variant, ...]:
    """Return the variants that an answer takes."""
    return tuple(
        next(variant for k, variant in enumerate(several) if values[f"{p}/{k}"]) for p, several in enumerate(variants)
    )
