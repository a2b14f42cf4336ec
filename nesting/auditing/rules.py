"""What a joint rule comes to, worked out anew: lap, strap and cost."""

from decimal import ROUND_HALF_EVEN, Decimal

from nesting.model import JointRule

CENT = Decimal("0.01")


def lap_of(rule: JointRule | None, thickness: float) -> float:
    """Return by how much two pieces overlap: slope x thickness for a scarf, nothing for a butt or without a rule."""
    return rule.slope * thickness if rule is not None and rule.kind == "scarf" else 0.0


def strap_of(rule: JointRule | None, thickness: float) -> float:
    """Return the length of the strap behind a butt; a scarf has none."""
    return rule.strap * thickness if rule is not None and rule.kind == "butt" else 0.0


def band_of(rule: JointRule | None, thickness: float) -> float:
    """Return the stretch that a joint takes up, lap or strap, its station in the middle."""
    return max(lap_of(rule, thickness), strap_of(rule, thickness))


def cost_of(rule: JointRule, width: float) -> Decimal:
    """Return what the rule asks for one joint of a width in millimetres, to the cent."""
    return (rule.cost.each + rule.cost.per_m * Decimal(width) / 1000).quantize(CENT, ROUND_HALF_EVEN)
