"""Why the joints of several panels can't keep apart: the fewest facts that clash, and the least change that helps."""

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from nesting.joints import Reach
from nesting.model import Problem

from .keeping_apart import Panels, is_impossible, stations_apart


@dataclass(frozen=True)
class Fact:
    """One rule, in words: how the panels are without it, and eased by so many millimetres, ``most`` at the most.

    ``eased_words`` tell what to do to ease it by an amount.
    """

    words: str
    eased: Callable[[Panels, float], Panels]
    most: float
    eased_words: Callable[[float], str]

    def without(self, panels: Panels) -> Panels:
        """Return the panels without this rule."""
        return self.eased(panels, self.most)


def clash_told(panels: Panels) -> Problem | None:
    """Return which rules clash, as few of them as that takes; None where that is not proven.

    Rules are left out one by one: without any of those that are told the others can be kept, or nothing is proven.
    """
    most = panels.most_joints
    if not is_impossible(panels, most):
        return None
    facts, left = list(_facts(panels)), panels
    told: list[Fact] = []
    for fact in facts:
        if is_impossible(fact.without(left), most):
            left = fact.without(left)
        else:
            told.append(fact)
    helps = [words for fact in told if (words := _least(fact, panels, most)) is not None]
    return Problem(
        code="shift",
        where="neighbours",
        path=("neighbours",),
        reason=f"no joints can keep all of these: {'; '.join(fact.words for fact in told)}. {_joints(panels, most)}",
        remedy=f"Any one of these helps: {'; '.join(helps)}." if helps else "Ease two of these rules together.",
    )


def _joints(panels: Panels, most: Sequence[int]) -> str:
    counts = ", ".join(f'{count} in "{name}"' for name, count in zip(panels.names, most, strict=True))
    return f"That is proven for up to so many joints: {counts}"


def _least(fact: Fact, panels: Panels, most: Sequence[int]) -> str | None:
    """Return what to do to ease a rule by as few whole millimetres as helps; None if no easing helps."""
    steps = math.ceil(fact.most)
    if steps < 1 or stations_apart(fact.eased(panels, steps), most) is None:
        return None
    low, high = 0, steps
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if stations_apart(fact.eased(panels, middle), most) else (middle, high)
    return fact.eased_words(high)


def _facts(panels: Panels) -> Iterator[Fact]:
    """Yield all rules; those that are told of more seldom come first, for what is left out last is told."""
    for place, (name, reach) in enumerate(zip(panels.names, panels.reaches, strict=True)):
        yield from (_zone(place, name, k, zone) for k, zone in enumerate(reach.zones))
    for place, (name, reach) in enumerate(zip(panels.names, panels.reaches, strict=True)):
        if reach.least_piece > reach.band:
            yield _least_piece(place, name, reach)
    for place, (name, reach) in enumerate(zip(panels.names, panels.reaches, strict=True)):
        if reach.usable < reach.end - reach.start:
            yield _longest_piece(place, name, reach)
    for place, (one, other, shift) in enumerate(panels.shifts):
        yield _shift(place, panels.names[one], panels.names[other], shift)


def _zone(place: int, name: str, number: int, zone: tuple[float, float]) -> Fact:
    start, end = zone

    def eased(panels: Panels, amount: float) -> Panels:
        reach = panels.reaches[place]
        zones = list(reach.zones)
        zones[number] = (start, max(start, end - amount))
        # A zone without length still bars its own station: what is eased away is gone.
        if end - amount <= start:
            zones[number] = (reach.end + reach.usable, reach.end + reach.usable)
        return panels.with_reach(place, replace(reach, zones=tuple(zones)))

    words = f'"{name}" has no joint from {start:g} to {end:g}'
    return Fact(words, eased, end - start, lambda by: f'end that zone of "{name}" {by:g} earlier')


def _least_piece(place: int, name: str, reach: Reach) -> Fact:
    def eased(panels: Panels, amount: float) -> Panels:
        own = panels.reaches[place]
        return panels.with_reach(place, replace(own, least_piece=reach.least_piece - amount))

    words = f'pieces of "{name}" are {reach.least_piece:g} long at the least'
    return Fact(
        words,
        eased,
        reach.least_piece - reach.band,
        lambda by: f'allow pieces of {reach.least_piece - by:g} in "{name}"',
    )


def _longest_piece(place: int, name: str, reach: Reach) -> Fact:
    def eased(panels: Panels, amount: float) -> Panels:
        return panels.with_reach(place, replace(panels.reaches[place], usable=reach.usable + amount))

    words = f'pieces of "{name}", {reach.end - reach.start:g} long, are {reach.usable:g} at the most'
    most = reach.end - reach.start - reach.usable
    return Fact(words, eased, most, lambda by: f'offer a piece of {reach.usable + by:g} for "{name}"')


def _shift(place: int, one: str, other: str, shift: float) -> Fact:
    words = f'joints of "{one}" and "{other}" are {shift:g} apart'
    return Fact(
        words,
        lambda panels, amount: panels.with_shift(place, shift - amount),
        shift,
        lambda by: f'let joints of "{one}" and "{other}" be {max(0.0, shift - by):g} apart',
    )
