"""Whether panels are joined in a way that the workshop works in, and what is told of the ways agrees with the plan."""

from collections import Counter
from collections.abc import Iterator
from decimal import Decimal

from .findings import Finding
from .plank_ways import plank_ways
from .register import Register, in_words

#: Ways of joining that a workshop's way allows.
ALLOWED = {"joined": {"joined"}, "divided": {"divided"}, "both": {"joined", "divided", "mixed"}}

#: Ways whose plans a bound of that scope is below.
WITHIN = {"joined": {"joined"}, "divided": {"divided"}, "any": {"joined", "divided", "mixed"}}


def ways(register: Register) -> Iterator[Finding]:
    """Yield panels joined in a way that is not the workshop's, and ways told of that can't be so."""
    yield from _followed(register)
    yield from _told(register)
    yield from plank_ways(register)


def outside_scope(register: Register) -> bool:
    """Whether the plan is of a kind of which its bound says nothing."""
    scope = register.plan.totals.bound_scope
    if scope == "divided":
        return bool(register.plan.blanks)
    return scope == "joined" and any(len(pieces) > 1 for pieces in register.panel_copies.values())


def _followed(register: Register) -> Iterator[Finding]:
    way = register.job.workshop.way
    if way == "divided":
        for blank in register.plan.blanks:
            yield Finding("wrong-way", f'blank "{blank.id}"', "the workshop divides panels and makes no blanks")
    if way == "joined":
        for (name, copy), pieces in register.panel_copies.items():
            if len(pieces) > 1 and name in register.panels:
                where = in_words(register.panels[name], copy)
                yield Finding("wrong-way", where, "it is divided, and the workshop cuts long panels from blanks")


def _told(register: Register) -> Iterator[Finding]:
    """Compare the told ways with what the plan comes to, and with its bound."""
    plan = register.plan
    for name, times in Counter(way.way for way in plan.ways).items():
        if times > 1:
            yield Finding("wrong-ways", f'way "{name}"', f"it is told of {times} times")
    allowed = ALLOWED[register.job.workshop.way]
    costs = [way.objective for way in plan.ways if way.objective is not None and way.way in allowed]
    if costs and min(costs) != plan.totals.objective:
        reason = f"the cheapest way is said to come to {min(costs)}, the plan itself to {plan.totals.objective}"
        yield Finding("wrong-ways", "ways", reason)
    for way in plan.ways:
        yield from _bound(way.way, way.objective, register)


def _bound(way: str, objective: Decimal | None, register: Register) -> Iterator[Finding]:
    totals = register.plan.totals
    if objective is not None and way in WITHIN[totals.bound_scope] and objective < totals.bound:
        reason = f"it is said to come to {objective}, and no plan of its kind to be below {totals.bound}"
        yield Finding("wrong-ways", f'way "{way}"', reason)
