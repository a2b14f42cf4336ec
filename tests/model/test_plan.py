"""The plan as a value that answers questions and travels as JSON."""

import json
from decimal import Decimal
from typing import Any

import pytest
from pydantic import ValidationError

from nesting.model import Plan


def _plan(**totals: Any) -> Plan:
    """A shelf of one sheet and a rail of one length; its figures are only made up, the audit is not asked."""
    areas = {"used": 2976800, "parts": 180000, "laps": 0, "trim": 72800, "offcuts": 2700000, "rest": 24000}
    timber = {"used": 3600, "parts": 1000, "laps": 0, "offcuts": 2597, "rest": 3}
    lying = [[10, 10], [610, 10], [610, 310], [10, 310]]
    piece = {"part": "shelf", "copy": 1, "index": 1, "of": 1}
    return Plan.model_validate(
        {
            "seed": 0,
            "work": 100,
            "job": {
                "panels": [{"name": "shelf", "material": "ply", "thickness": 9, "outline": {"rectangle": [600, 300]}}],
                "strips": [{"name": "rail", "material": "pine", "section": [45, 20], "length": 1000}],
            },
            "job_sha256": "0" * 64,
            "totals": {
                "to_pay": 93.8,
                "joint_cost": 0,
                "offcut_value": 0,
                "objective": "93.80",
                "bound": "93.80",
                "bound_reason": "one sheet, one length",
                "bound_scope": "divided",
                "proven": True,
                "sheets": 1,
                "lengths": 1,
                "joints": 0,
                "areas": areas,
                "timber": timber,
                "waste_percent": 3.25,
                "timber_waste_percent": 0.1,
                **totals,
            },
            "purchases": [{"stock": "9 mm", "count": 1, "price": "84.00", "cost": "84.00"}],
            "used": [
                {"kind": "sheet", "id": "S1", "stock": "9 mm", "source": "buy", "outline": lying, "trim": 10},
                {"kind": "length", "id": "L1", "stock": "3.6 m", "source": "buy", "length": 3600},
            ],
            "pieces": [
                {**piece, "kind": "panel", "id": "shelf 1", "on": "S1", "hand": "", "outline": lying}
                | {"x": 10, "y": 10, "angle": 0, "mirrored": False},
                {**piece, "kind": "strip", "id": "rail 1", "part": "rail", "on": "L1", "from": 0, "to": 1000},
            ],
            "joints": [],
            "offcuts": [{"kind": "length", "on": "L1", "from": 1003, "to": 3600, "kept": True}],
        }
    )


def test_a_plan_answers_what_it_costs_wastes_and_holds() -> None:
    """Without looking into its totals."""
    plan = _plan()
    assert plan.cost == Decimal("93.80")
    assert plan.waste == 3.25
    assert [piece.id for piece in plan.on("S1")] == ["shelf 1"]
    assert [piece.id for piece in plan.on("L1")] == ["rail 1"]
    assert plan.on("S2") == ()


def test_the_summary_says_proven_only_where_it_is() -> None:
    """Else it names the bound."""
    assert "93.80 EUR to pay, objective 93.80 (proven minimum)" in _plan().summary()
    open_plan = _plan(proven=False, bound="60.00").summary()
    assert "no plan can be below 60.00" in open_plan
    assert "proven" not in open_plan


def test_a_plan_survives_json_with_the_documented_keys() -> None:
    """``copy``, ``from`` and ``to`` in the file, money as text, the same bytes when written again."""
    plan = _plan()
    text = plan.model_dump_json()
    assert Plan.model_validate_json(text) == plan
    assert Plan.model_validate_json(text).model_dump_json() == text
    written = json.loads(text)
    assert (written["format"], written["version"]) == ("nesting-plan", 1)
    assert written["totals"]["to_pay"] == "93.80"
    assert (written["pieces"][1]["copy"], written["pieces"][1]["from"], written["pieces"][1]["to"]) == (1, 0, 1000)
    assert (written["offcuts"][0]["from"], written["offcuts"][0]["value"]) == (1003, "0.00")


def test_the_kind_decides_what_a_piece_is_made_of() -> None:
    """A strip's keys don't fit a panel's piece, and an unknown kind fits nothing."""
    written = json.loads(_plan().model_dump_json())
    for kind in ("panel", "dowel"):
        written["pieces"][1]["kind"] = kind
        with pytest.raises(ValidationError):
            Plan.model_validate(written)


@pytest.mark.parametrize("change", [{"version": 2}, {"format": "other"}, {"colour": "red"}, {"blanks": [{"id": "B1"}]}])
def test_a_plan_of_another_kind_is_refused(change: dict[str, Any]) -> None:
    """Another version or an unknown key is never half understood."""
    with pytest.raises(ValidationError):
        Plan.model_validate({**json.loads(_plan().model_dump_json()), **change})


def test_a_plan_is_frozen() -> None:
    """What was audited can't be changed afterwards."""
    with pytest.raises(ValidationError, match="frozen"):
        _plan().totals.to_pay = Decimal("1.00")  # type: ignore[misc]
