"""A number from which on a merchant asks less for each."""

from typing import Annotated

from pydantic import BeforeValidator, Field

from .base import Money, Value, _plain_number


class PriceBreak(Value):
    """From ``at_least`` of a kind on every one of them costs ``price``, the first ones too (common practice)."""

    at_least: Annotated[int, BeforeValidator(_plain_number), Field(ge=2, le=100_000)]
    price: Money
