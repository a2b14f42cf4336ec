"""What there is to cut from: sheets and lengths."""

from decimal import Decimal
from fractions import Fraction
from itertools import pairwise
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field, model_validator

from .base import Count, Money, Name, Size, Value, _plain_number
from .outline import MOST_POINTS, Outline, Point
from .parts import Stretch
from .price_break import PriceBreak

#: Kilograms in a cubic metre; the heaviest woods are below 1400 (from memory).
Density = Annotated[float, BeforeValidator(_plain_number), Field(gt=0, le=3000)]
Spare = Annotated[int, BeforeValidator(_plain_number), Field(ge=0, le=1000)]


class Fault(Value):
    """A place on a sheet to keep off: a knot, a dent, a broken corner.

    ``side`` is the face on which it is, "good" or "back"; one that goes through ("both") no part may touch.
    """

    points: tuple[Point, ...] = Field(min_length=3, max_length=MOST_POINTS)
    side: Literal["both", "good", "back"] = "both"


class Sheet(Value):
    """A kind of sheet that may be used: whole (``size``), or an offcut of any outline.

    x runs along the face grain. A whole sheet has factory edges, which are trimmed; an offcut is used up to
    its outline. ``available`` left out means as many as needed. ``thickness`` is the label by which panels ask for it;
    ``measured``, if given, is what it truly is, from which laps are taken. ``price`` is paid, or of
    one on the rack what it is worth, which is weighed and not paid; ``price_breaks`` are the numbers from which on each
    costs less. ``supplier``, ``density`` (kilograms per cubic metre) and ``spare`` (how many to buy beyond what the
    plan needs, if it needs any) change no plan.
    """

    name: Name
    material: Name
    grade: Name | None = None
    thickness: Size
    measured: Size | None = None
    size: tuple[Size, Size] | None = None
    outline: Outline | None = None
    faults: tuple[Fault, ...] = ()
    price: Money = Decimal("0")
    price_breaks: tuple[PriceBreak, ...] = Field(default=(), max_length=20)
    available: Count | None = None
    source: Literal["buy", "rack"] = "buy"
    supplier: Name | None = None
    density: Density | None = None
    spare: Spare = 0

    @property
    def true_thickness(self) -> float:
        """What was measured, or else the label."""
        return self.measured or self.thickness

    @model_validator(mode="after")
    def _one_shape(self) -> "Sheet":
        if (self.size is None) == (self.outline is None):
            raise ValueError("needs either size = [length, width] or an outline, and not both")
        return self

    @model_validator(mode="after")
    def _ever_cheaper(self) -> "Sheet":
        if self.price_breaks and self.source == "rack":
            raise ValueError("is on the rack already, so none of it is bought: leave price_breaks out")
        for (count, price), (larger, lower) in pairwise(self.prices):
            if larger <= count or lower >= price:
                raise ValueError(
                    f"costs {lower:.2f} from {larger} on, yet {price:.2f} from {count} on: write its price_breaks "
                    "with rising numbers and falling prices, all below its price"
                )
        return self

    @property
    def prices(self) -> tuple[tuple[int, Decimal], ...]:
        """From how many on each costs what: first from one, then from every break."""
        return ((1, self.price), *((step.at_least, step.price) for step in self.price_breaks))

    def price_of_each(self, count: int) -> Decimal:
        """Return what each costs where so many are bought."""
        return min(price for least, price in self.prices if least <= max(count, 1))

    def bought_for(self, needed: int) -> tuple[int, Decimal]:
        """Return how many to buy where so many are needed, and what each of them then costs.

        More than are needed are bought where a break makes them cheaper in all, if there are so many.
        """
        beyond = [count for count, _ in self.prices if count > needed]
        counts = [needed, *(count for count in beyond if self.available is None or count <= self.available)]
        count = min(counts, key=lambda count: (count * self.price_of_each(count), count))
        return count, self.price_of_each(count)


class Length(Value):
    """A kind of timber of constant section (width, thickness) that may be used.

    ``faults`` are stretches, from and to, that no piece may touch: knots, shakes, split ends. ``offcut_value`` is what
    a metre of a kept offcut of it is worth, if it is bought: never more than it costs, or lengths would be bought to be
    kept. ``supplier``, ``density`` and ``spare`` are what they are of a sheet.
    """

    name: Name
    material: Name
    grade: Name | None = None
    section: tuple[Size, Size]
    length: Size
    faults: tuple[Stretch, ...] = Field(default=(), max_length=100)
    price: Money = Decimal("0")
    offcut_value: Money = Decimal("0")
    available: Count | None = None
    source: Literal["buy", "rack"] = "buy"
    supplier: Name | None = None
    density: Density | None = None
    spare: Spare = 0

    def bought_for(self, needed: int) -> tuple[int, Decimal]:
        """Return how many to buy where so many are needed, and what each of them costs."""
        return needed, self.price

    @model_validator(mode="after")
    def _worth_no_more_than_it_costs(self) -> "Length":
        if self.offcut_value and self.source == "rack":
            raise ValueError("is on the rack already, so its offcuts are not credited: leave offcut_value out")
        worth = Fraction(self.offcut_value) * Fraction(repr(self.length)) / 1000
        if worth > self.price:
            raise ValueError(
                f"would be worth {float(worth):.2f} uncut at its offcut_value, which is a metre's: more than its price"
            )
        return self

    @model_validator(mode="after")
    def _faults_within(self) -> "Length":
        for start, end in self.faults:
            if not 0 <= start < end <= self.length:
                raise ValueError(f"has a fault from {start:g} to {end:g}: write [from, to], within the length")
        return self
