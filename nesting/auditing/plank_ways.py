"""Whether what is told of both ways of using planks agrees with what is cut."""

from collections import defaultdict
from collections.abc import Iterator
from decimal import Decimal

from nesting.model import LengthOffcut, PlankWay

from .findings import Finding
from .register import Register


def plank_ways(register: Register) -> Iterator[Finding]:
    """Yield groups of strips whose cheaper way, as told, is not what their timber comes to, or is not the one used."""
    groups: defaultdict[tuple[str, ...], list[PlankWay]] = defaultdict(list)
    for way in register.plan.plank_ways:
        groups[way.strips].append(way)
    for strips, ways in groups.items():
        where, costs = f"planks of {', '.join(strips)}", {way.way: way.objective for way in ways}
        if len(costs) < len(ways) or not register.strips.keys() >= set(strips):
            yield Finding("wrong-ways", where, "a way is told of twice, or of strips that are not asked for")
            continue
        there = [cost for cost in costs.values() if cost is not None]
        true = _cost(set(strips), register)
        if there and min(there) != true:
            yield Finding("wrong-ways", where, f"the cheaper way is said to come to {min(there)}, it is {true}")
        from_long = any(piece.part in strips and piece.on in register.long_sticks for piece in register.strip_pieces)
        if there and costs.get("scarfed" if from_long else "ripped") != min(there):
            used = "scarfed first" if from_long else "ripped first"
            yield Finding("wrong-ways", where, f"planks are {used}, which is not told of as the cheaper way")


def _cost(strips: set[str], register: Register) -> Decimal:
    """Return what the timber of some strips costs, their joints and scarfs, less what is kept of it."""
    plan = register.plan
    on = {piece.on for piece in register.strip_pieces if piece.part in strips}
    planks = [plank for plank in plan.long_planks if any(stick.id in on for stick in plank.sticks)]
    on |= {stick.id for plank in planks for stick in plank.sticks} | {m.used for p in planks for m in p.members}
    lengths = [used for used in register.used_lengths.values() if used.id in on]
    sticks = {used.plank for used in lengths if used.plank is not None}
    on |= {used.id for used in register.used_lengths.values() if used.plank in sticks}
    bought = {used.plank or used.id: used.stock for used in lengths if used.source == "buy"}
    prices = (register.lengths[name].price for name in bought.values() if name in register.lengths)
    joints = (joint.cost for joint in plan.joints if joint.part in strips)
    scarfs = (scarf.cost for plank in planks for scarf in plank.scarfs)
    kept = (o.value for o in plan.offcuts if isinstance(o, LengthOffcut) and o.kept and o.on in on)
    return sum((*prices, *joints, *scarfs), Decimal(0)) - sum(kept, Decimal(0))
