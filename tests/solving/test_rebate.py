"""What price breaks take off within a model."""

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st
from ortools.sat.python import cp_model

from nesting.solving import Status, minimize, rebate


@st.composite
def price_lists(draw: st.DrawFn) -> list[tuple[int, int]]:
    """Return numbers that rise from 1 with prices that fall."""
    numbers = sorted(draw(st.sets(st.integers(2, 12), max_size=3)))
    prices = sorted(draw(st.sets(st.integers(1, 99), min_size=4, max_size=4)), reverse=True)
    return list(zip([1, *numbers], prices, strict=False))


@given(price_lists(), st.integers(0, 12), st.integers(0, 8))
def test_the_least_is_paid(prices: list[tuple[int, int]], needed: int, more: int) -> None:
    """As when every number from what is needed up to what is there is tried."""
    there = needed + more
    model = cp_model.CpModel()
    count = model.new_int_var(needed, needed, "needed")
    model.minimize(prices[0][1] * count - rebate(model, count, prices, there))
    answer = minimize(model, effort=1)
    costs = [bought * min(p for least, p in prices if least <= max(bought, 1)) for bought in range(needed, there + 1)]
    assert (answer.status, answer.objective) == (Status.OPTIMAL, min(costs))
    assert all(a[0] < b[0] and a[1] > b[1] for a, b in pairwise(prices))
