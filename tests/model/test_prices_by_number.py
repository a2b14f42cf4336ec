"""What so many sheets cost where a merchant asks less from some number on."""

from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from nesting.model import Sheet

PLY = {"name": "ply", "material": "gaboon", "thickness": 6, "size": [2440, 1220], "price": "60.00"}


def sheet(*breaks: tuple[int, Any], **more: Any) -> Sheet:
    """Return a sheet for 60 with these price breaks."""
    steps = [{"at_least": count, "price": price} for count, price in breaks]
    return Sheet.model_validate({**PLY, "price_breaks": steps, **more})


@pytest.mark.parametrize(
    ("needed", "bought", "each"), [(1, 1, "60"), (4, 4, "60"), (5, 5, "52"), (9, 10, "45"), (12, 12, "45")]
)
def test_all_cost_less_from_a_break_on(needed: int, bought: int, each: str) -> None:
    """By hand: 4 cost 240 and 5 at 52 cost 260; 9 at 52 cost 468 and 10 at 45 only 450."""
    assert sheet((5, 52), (10, 45)).bought_for(needed) == (bought, Decimal(each))


def test_no_more_are_bought_than_there_are() -> None:
    """Nine are there, so the break from ten on is never reached."""
    assert sheet((5, 52), (10, 45), available=9).bought_for(9) == (9, Decimal(52))


@given(st.sets(st.integers(2, 30), max_size=4), st.integers(1, 40), st.one_of(st.none(), st.integers(1, 40)))
def test_the_least_is_paid_for_what_is_needed(numbers: set[int], needed: int, there: int | None) -> None:
    """Of all numbers that are there and enough; of equal ones the smallest. One more, if there, never costs less."""
    breaks = [(count, 60 - 7 * (k + 1)) for k, count in enumerate(sorted(numbers))]
    kind = sheet(*breaks, available=there)
    enough = range(needed, max(needed, there or 100) + 1)
    by_trying = min((n * min([60, *(p for least, p in breaks if least <= n)]), n) for n in enough)
    count, each = kind.bought_for(needed)
    assert (count * each, count) == by_trying
    if there is None or needed < there:
        larger, lower = kind.bought_for(needed + 1)
        assert count * each <= larger * lower


@pytest.mark.parametrize(
    ("breaks", "words"),
    [
        ([(5, 60)], "costs 60.00 from 5 on, yet 60.00 from 1 on"),
        ([(5, 65)], "costs 65.00 from 5 on, yet 60.00 from 1 on"),
        ([(5, 52), (10, 52)], "costs 52.00 from 10 on, yet 52.00 from 5 on"),
        ([(5, 52), (5, 45)], "costs 45.00 from 5 on, yet 52.00 from 5 on"),
        ([(10, 52), (5, 45)], "costs 45.00 from 5 on, yet 52.00 from 10 on"),
        ([(1, 52)], "greater than or equal to 2"),
        ([(5, -1)], "greater than or equal to 0"),
    ],
)
def test_breaks_that_are_none_are_refused(breaks: list[tuple[int, int]], words: str) -> None:
    """Numbers rise from two and prices fall."""
    with pytest.raises(ValidationError, match=words):
        sheet(*breaks)


def test_nothing_on_the_rack_has_a_price_break() -> None:
    """It is not bought."""
    with pytest.raises(ValidationError, match="leave price_breaks out"):
        sheet((5, 52), source="rack")
