"""What is taken off where each costs less from some number on, as part of a model."""

from collections.abc import Sequence
from itertools import pairwise

from ortools.sat.python import cp_model


def rebate(
    model: cp_model.CpModel, needed: cp_model.LinearExpr, prices: Sequence[tuple[int, int]], most: int
) -> cp_model.LinearExpr:
    """Return what is taken off if all that is needed would else cost the first price; it is to be made large.

    More than is needed may be bought where that costs less in all.

    Parameters
    ----------
    needed : linear expression
        How many are needed.
    prices : sequence of (number, price)
        From that number on every one of them costs so much: numbers rise from 1, prices fall.
    most : int
        How many can be bought.
    """
    some = [model.new_bool_var("") for _ in prices]
    bought = [model.new_int_var(0, most, "") for _ in prices]
    ends = [*(least - 1 for _, (least, _) in pairwise(prices)), most]
    for taken, count, (least, _), end in zip(some, bought, prices, ends, strict=True):
        model.add(count >= least * taken)
        model.add(count <= end * taken)
    model.add_at_most_one(some)
    model.add(cp_model.LinearExpr.sum(bought) >= needed)
    paid = cp_model.LinearExpr.weighted_sum(bought, [price for _, price in prices])
    return prices[0][1] * needed - paid
