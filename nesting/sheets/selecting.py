"""A selection: one way to make everything, and what it costs."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from .costs import cost_of
from .layouts import Layout
from .parts import Part
from .pieces import PieceKind
from .variants import Variant


@dataclass(frozen=True)
class Selection:
    """One way to make everything: a variant of each panel, and the sheets to cut; ``cost`` in cents."""

    variants: tuple[Variant, ...]
    layouts: tuple[Layout, ...]
    cost: int
    joints: int

    @property
    def rank(self) -> tuple[int, int, int]:
        """What is less is better: cost, then joints, then sheets."""
        return self.cost, self.joints, sum(len(layout.stock.members) for layout in self.layouts)


def selection(parts: Sequence[Part], variants: Sequence[Variant], layouts: Sequence[Layout]) -> Selection:
    """Return a way to make everything, with surplus pieces dropped and its cost worked out."""
    needed = wanted(parts, variants)
    # Full sheets first: what is dropped then empties the others.
    kept = [layout.only(needed) for layout in sorted(layouts, key=lambda layout: -layout.area)]
    kept = [layout for layout in kept if layout.laid]
    copies = {v: parts[v.panel].panel.quantity for v in variants}
    joint_cost = sum(count * v.joint_cost for v, count in copies.items())
    return Selection(
        variants=tuple(variants),
        layouts=tuple(kept),
        cost=joint_cost + cost_of([layout.stock for layout in kept]),
        joints=sum(count * len(v.stations) for v, count in copies.items()),
    )


def wanted(parts: Sequence[Part], variants: Sequence[Variant]) -> Counter[PieceKind]:
    """Return how many of each piece kind these variants need."""
    return Counter({kind: parts[variant.panel].hands[kind.hand] for variant in variants for kind in variant.pieces})
