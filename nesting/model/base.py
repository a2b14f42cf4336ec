"""What every value of the model shares: it is frozen and refuses what it does not know."""

from decimal import Decimal, InvalidOperation
from typing import Annotated, Any

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, PlainSerializer

from .measures import millimetres, scaled

#: Nothing on a bench is longer than a kilometre; larger figures are slips and would ruin float geometry.
LONGEST = 1_000_000.0

#: Millimetres below which two places are the same. No saw, pencil or tape sees a micrometre, while 64-bit
#: arithmetic on figures of ten metres, turned and mirrored a few times, errs by less than a nanometre.
TOLERANCE = 0.001


class Value(BaseModel):
    """A frozen value that refuses unknown keys, NaN and infinity."""

    model_config = ConfigDict(
        frozen=True,
        extra="forbid",
        allow_inf_nan=False,
        validate_by_name=True,
        validate_by_alias=True,
        serialize_by_alias=True,
    )


def length_of(value: Any) -> Any:
    """Return a length in millimetres, given as a figure in the units that hold now or as a text with its own.

    What is neither is handed back for pydantic to refuse.

    Raises
    ------
    ValueError
        If a text is no length, or the value is true or false.
    """
    if isinstance(value, bool):
        raise ValueError("must be a length, not true or false")
    if isinstance(value, str):
        return millimetres(value)
    return scaled(float(value)) if isinstance(value, int | float | Decimal) else value


def _plain_number(value: Any) -> Any:
    """Refuse what pydantic would quietly turn into a number: true, false and texts."""
    if isinstance(value, bool):
        raise ValueError("must be a number, not true or false")
    if isinstance(value, str):
        raise ValueError("must be a number without quotes")
    return value


def _exact_money(value: Any) -> Any:
    """Take a number or a text; a float becomes the decimal figure that it prints as."""
    if isinstance(value, bool):
        raise ValueError("must be an amount, not true or false")
    try:
        return Decimal(str(value))
    except InvalidOperation:
        raise ValueError("must be an amount such as 84.00") from None


Number = Annotated[float, BeforeValidator(length_of), Field(ge=-LONGEST, le=LONGEST)]
Size = Annotated[float, BeforeValidator(length_of), Field(gt=0, le=LONGEST)]
Gap = Annotated[float, BeforeValidator(length_of), Field(ge=0, le=LONGEST)]
Ratio = Annotated[float, BeforeValidator(_plain_number), Field(ge=-LONGEST, le=LONGEST)]
#: Degrees off the grain: at more than 20 plywood bends and bears as another material (common practice).
Angle = Annotated[float, BeforeValidator(_plain_number), Field(ge=0, le=20)]
Count = Annotated[int, BeforeValidator(_plain_number), Field(ge=1, le=100_000)]
Money = Annotated[
    Decimal,
    BeforeValidator(_exact_money),
    Field(ge=0, max_digits=12, decimal_places=2),
    PlainSerializer(lambda amount: f"{amount:.2f}", return_type=str, when_used="json"),
]
Name = Annotated[str, Field(min_length=1, max_length=80, pattern=r"^[^\s\x00-\x1f](?:[^\x00-\x1f]*[^\s\x00-\x1f])?$")]
