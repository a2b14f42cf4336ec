"""What single figures, amounts and names may be, and that nothing is taken that is not known."""

import math
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import BaseModel, ValidationError

from nesting.model import (
    LONGEST,
    TOLERANCE,
    Fault,
    Frame,
    Job,
    JointCost,
    JointRule,
    Kerf,
    Length,
    Mark,
    Neighbours,
    Outline,
    Panel,
    PriceBreak,
    Sheet,
    Strip,
    Value,
    Workshop,
)

PLAIN: list[tuple[type[Value], dict[str, Any]]] = [
    (Panel, {"name": "bilge", "material": "gaboon", "thickness": 6, "outline": {"rectangle": [4000, 300]}}),
    (Strip, {"name": "gunwale", "material": "spruce", "section": [45, 20], "length": 4350}),
    (Sheet, {"name": "6 mm", "material": "gaboon", "thickness": 6, "size": [2440, 1220], "price": "84.00"}),
    (Length, {"name": "3.6 m", "material": "spruce", "section": [45, 20], "length": 3600}),
    (Frame, {"name": "frame 3", "station": 1800, "clear": 50}),
    (Neighbours, {"between": ["bilge", "sheer"], "shift": 250}),
    (Outline, {"points": [[0, 0], [10, 0], [10, 5]]}),
    (Mark, {"points": [[5, 5]], "text": "frame 3"}),
    (Fault, {"points": [[0, 0], [10, 0], [10, 5]]}),
    (PriceBreak, {"at_least": 5, "price": "78.00"}),
    (Kerf, {"sheet": 2.0}),
    (Workshop, {}),
    (JointRule, {}),
    (JointCost, {}),
    (Job, {"panels": [{"name": "a", "material": "b", "thickness": 6, "outline": {"rectangle": [9, 9]}}]}),
]
BY_TYPE = pytest.mark.parametrize(("kind", "plain"), PLAIN, ids=[kind.__name__ for kind, _ in PLAIN])


def _sheet(**changes: Any) -> Sheet:
    return Sheet.model_validate({**PLAIN[2][1], **changes})


@BY_TYPE
def test_an_unknown_key_is_refused(kind: type[Value], plain: dict[str, Any]) -> None:
    """A key that is not planned with is refused, never ignored."""
    with pytest.raises(ValidationError) as refused:
        kind.model_validate({**plain, "colour": "red"})
    assert [(error["type"], error["loc"]) for error in refused.value.errors()] == [("extra_forbidden", ("colour",))]


@BY_TYPE
def test_a_value_is_frozen(kind: type[Value], plain: dict[str, Any]) -> None:
    """No field can be set anew."""
    value = kind.model_validate(plain)
    for field in kind.model_fields:
        with pytest.raises(ValidationError, match="frozen"):
            setattr(value, field, getattr(value, field))


@BY_TYPE
def test_a_value_survives_json(kind: type[BaseModel], plain: dict[str, Any]) -> None:
    """Written and read again it is the same, and so is what is written then."""
    value = kind.model_validate(plain)
    text = value.model_dump_json()
    assert kind.model_validate_json(text) == value
    assert kind.model_validate_json(text).model_dump_json() == text


@pytest.mark.parametrize(
    "figure", [math.nan, math.inf, -math.inf, True, False, "six", "6 miles", None, [6], 0, -6, 1e7]
)
def test_a_thickness_that_is_no_size_is_refused(figure: Any) -> None:
    """Sizes are plain figures above zero and below a kilometre."""
    with pytest.raises(ValidationError):
        _sheet(thickness=figure)


@pytest.mark.parametrize("figure", [math.nan, math.inf, True, "three", -0.1, 1e7])
def test_a_kerf_that_is_no_gap_is_refused(figure: Any) -> None:
    """Gaps may be zero, and are plain figures else."""
    with pytest.raises(ValidationError):
        Kerf.model_validate({"sheet": figure})
    with pytest.raises(ValidationError):
        Workshop.model_validate({"trim": figure})


@pytest.mark.parametrize("figure", [math.nan, math.inf, True, "3 m each", LONGEST * 2, -LONGEST * 2])
@pytest.mark.parametrize("place", [0, 1, 2])
def test_a_point_that_is_no_number_is_refused(figure: Any, place: int) -> None:
    """Neither x nor y nor bulge."""
    vertex = [10.0, 20.0, 0.5]
    vertex[place] = figure
    with pytest.raises(ValidationError):
        Outline.model_validate({"points": [[0, 0], vertex, [10, 50]]})


@pytest.mark.parametrize("count", [0, -1, 1.5, True, "2", 100_001])
def test_a_quantity_is_a_whole_number_of_at_least_one(count: Any) -> None:
    """Half a panel can't be asked for."""
    with pytest.raises(ValidationError):
        Panel.model_validate({**PLAIN[0][1], "quantity": count})


@pytest.mark.parametrize("name", ["", " ", " bilge", "bilge ", "bi\nlge", "bilge\n", "x" * 81, 7, None])
def test_a_name_that_would_spoil_a_list_is_refused(name: Any) -> None:
    """Names stand on drawings, labels and lists."""
    with pytest.raises(ValidationError):
        _sheet(name=name)


@pytest.mark.parametrize("name", ["a", "marine 6 mm", '1/2" ply', "Bordwandstück, außen", "舷側"])
def test_any_other_name_is_taken_as_it_is(name: str) -> None:
    """In the builder's own language."""
    assert _sheet(name=name).name == name


@pytest.mark.parametrize("given_price", ["84.10", 84.1, Decimal("84.1"), "84.1"])
def test_money_stays_exact(given_price: Any) -> None:
    """84.10 as text or number is 84.10 to the cent, and is written so."""
    sheet = _sheet(price=given_price)
    assert sheet.price == Decimal("84.10")
    assert sheet.model_dump(mode="json")["price"] == "84.10"


@given(st.integers(0, 10**10 - 1))
def test_every_amount_in_cents_survives_as_a_number_in_json(cents: int) -> None:
    """A float of a whole number of cents is read as exactly that many cents."""
    assert _sheet(price=cents / 100).price == Decimal(cents) / 100


@pytest.mark.parametrize(
    "amount", ["abc", "", True, None, [84], math.nan, math.inf, "NaN", -1, "-0.01", "84.105", 1e12]
)
def test_what_is_no_amount_is_refused(amount: Any) -> None:
    """Neither below zero, nor in parts of a cent, nor without end."""
    with pytest.raises(ValidationError):
        _sheet(price=amount)


def test_a_sheet_has_a_size_or_an_outline_but_not_both() -> None:
    """Whole sheets have a size, offcuts an outline."""
    offcut = {"rectangle": [900, 400]}
    assert _sheet(size=None, outline=offcut).outline is not None
    for changes in ({"outline": offcut}, {"size": None}):
        with pytest.raises(ValidationError, match="needs either size"):
            _sheet(**changes)


def test_one_number_stands_for_both_kerfs() -> None:
    """As in the job file."""
    assert Workshop.model_validate({"kerf": 2}).kerf == Kerf(sheet=2, crosscut=2)
    assert Kerf.model_validate({"sheet": 3.18}).crosscut == 3.0


@pytest.mark.parametrize("slope", [3.9, 50.1, math.nan, True, "8"])
def test_a_slope_no_scarf_has_is_refused(slope: Any) -> None:
    """Planks at least 4:1 (Souppez, "The Strength of Scarf Joints")."""
    with pytest.raises(ValidationError):
        JointRule.model_validate({"slope": slope})


def test_a_rule_knows_its_lap() -> None:
    """Trade guidance: 6 mm takes 48 mm at 8:1, which is also the slope if none is given; spars 12:1 (Souppez)."""
    assert JointRule().lap(6) == 48
    assert JointRule(slope=12).lap(25) == 300


def test_a_joint_costs_so_much_each_and_so_much_a_metre() -> None:
    """Computed: 4.00 + 12.00 a metre makes 18.40 for 1200 wide and 7.00 for 250."""
    cost = JointCost.model_validate({"each": "4.00", "per_m": "12.00"})
    assert cost.of(1200) == Decimal("18.40")
    assert cost.of(250.0) == Decimal("7.00")
    assert str(JointCost().of(123.4)) == "0.00"


@given(st.integers(0, 9999), st.integers(0, 99_999), st.floats(0, 3000), st.floats(0, 3000))
def test_a_wider_joint_never_costs_less(each: int, per_m: int, one: float, other: float) -> None:
    """So the cost of a least width is a lower bound; it is a whole number of cents."""
    cost = JointCost(each=Decimal(each) / 100, per_m=Decimal(per_m) / 100)
    narrow, wide = sorted((one, other))
    assert cost.of(narrow) <= cost.of(wide)
    assert cost.of(wide) == round(cost.of(wide), 2)
    assert abs(cost.of(wide) - (cost.each + cost.per_m * Decimal(wide) / 1000)) <= Decimal("0.00501")


def test_the_tolerance_is_below_any_tool_and_above_rounding() -> None:
    """A micrometre: kerfs are a hundred times that, float errors at ten metres a millionth of it."""
    assert math.ulp(10_000.0) * 1000 < TOLERANCE < 0.15 / 100  # laser kerf in thin plywood 0.15 mm (published)
