"""Why the joints of several panels can't keep apart: the fewest facts that clash, and the least change that helps."""

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Protocol

from nesting.joints import Reach
from nesting.model import Problem

from .keeping_apart import Panels
from .refusing import SHIFT
from .reliefs_told import longer_piece


class Question(Protocol):
    """Whether panels made in one way can keep their joints apart."""

    @property
    def scope(self) -> str:
        """How far a proof goes, in words."""

    def is_impossible(self, panels: Panels) -> bool:
        """Whether it is proven that they can't."""

    def is_possible(self, panels: Panels) -> bool:
        """Whether joints were found that do."""


@dataclass(frozen=True)
class Easing:
    """One way to ease a rule: the panels with it eased by so many millimetres, ``most`` at the most, and what to do."""

    eased: Callable[[Panels, float], Panels]
    most: float
    words: Callable[[float], str]


@dataclass(frozen=True)
class Fact:
    """One rule, in words, and the ways to ease it; each of them, eased the most, does away with it."""

    words: str
    easings: tuple[Easing, ...]

    def without(self, panels: Panels) -> Panels:
        """Return the panels without this rule."""
        easing = self.easings[0]
        return easing.eased(panels, easing.most)


def clash_told(panels: Panels, question: Question, other_way: Sequence[str] = ()) -> Problem | None:
    """Return which rules clash, as few of them as that takes; None where that is not proven.

    Rules are left out one by one: without any of those that are told the others can be kept, or nothing is proven.

    Parameters
    ----------
    other_way : sequence of str
        What helps besides easing a rule, in words.
    """
    if not question.is_impossible(panels):
        return None
    facts, left = list(_facts(panels)), panels
    told: list[Fact] = []
    for fact in facts:
        if question.is_impossible(fact.without(left)):
            left = fact.without(left)
        else:
            told.append(fact)
    easings = [easing for fact in told for easing in fact.easings]
    helps = [words for easing in easings if (words := _least(easing, panels, question)) is not None] + [*other_way]
    return Problem(
        code=SHIFT,
        where="neighbours",
        path=("neighbours",),
        reason=f"no joints can keep all of these: {'; '.join(fact.words for fact in told)}. {question.scope}",
        remedy=f"Any one of these helps: {'; '.join(helps)}." if helps else "Ease two of these rules together.",
    )


def _least(easing: Easing, panels: Panels, question: Question) -> str | None:
    """Return what to do to ease a rule by as few whole millimetres as helps; None if no easing helps."""
    steps = math.ceil(easing.most)
    if steps < 1 or not question.is_possible(easing.eased(panels, steps)):
        return None
    low, high = 0, steps
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if question.is_possible(easing.eased(panels, middle)) else (middle, high)
    return easing.words(high)


def _facts(panels: Panels) -> Iterator[Fact]:
    """Yield all rules; those that are told of more seldom come first, for what is left out last is told."""
    for place, (name, reach) in enumerate(zip(panels.names, panels.reaches, strict=True)):
        yield from (_zone(place, name, k, zone) for k, zone in enumerate(reach.zones))
    for place, (name, reach) in enumerate(zip(panels.names, panels.reaches, strict=True)):
        if reach.least_piece > reach.band:
            yield _least_piece(place, name, reach)
    for place, reach in enumerate(panels.reaches):
        if reach.usable < reach.length:
            yield _longest_piece(place, panels)
    for place, (one, other, shift) in enumerate(panels.shifts):
        yield _shift(place, panels.names[one], panels.names[other], shift)


def _zone(place: int, name: str, number: int, zone: tuple[float, float]) -> Fact:
    start, end = zone

    def with_zone(panels: Panels, low: float, high: float) -> Panels:
        reach = panels.reaches[place]
        zones = list(reach.zones)
        # A zone without length still bars its own station: what is eased away is gone.
        beyond = reach.end + reach.usable
        zones[number] = (low, high) if low < high else (beyond, beyond)
        return panels.with_reach(place, replace(reach, zones=tuple(zones)))

    later = Easing(
        lambda panels, by: with_zone(panels, start + by, end),
        end - start,
        lambda by: f'start the zone {start:g} to {end:g} of "{name}" at {start + by:g} ({by:g} later)',
    )
    earlier = Easing(
        lambda panels, by: with_zone(panels, start, end - by),
        end - start,
        lambda by: f'end the zone {start:g} to {end:g} of "{name}" at {end - by:g} ({by:g} earlier)',
    )
    return Fact(f'"{name}" has no joint from {start:g} to {end:g}', (later, earlier))


def _least_piece(place: int, name: str, reach: Reach) -> Fact:
    def eased(panels: Panels, by: float) -> Panels:
        own = panels.reaches[place]
        return panels.with_reach(place, replace(own, least_piece=reach.least_piece - by))

    shorter = Easing(
        eased, reach.least_piece - reach.band, lambda by: f'allow pieces of {reach.least_piece - by:g} in "{name}"'
    )
    return Fact(f'pieces of "{name}" are {reach.least_piece:g} long at the least', (shorter,))


def _longest_piece(place: int, panels: Panels) -> Fact:
    name, reach, handled = panels.names[place], panels.reaches[place], panels.handled
    given = panels.given[place] if panels.given else reach.usable

    def eased(panels: Panels, by: float) -> Panels:
        return panels.with_reach(place, replace(panels.reaches[place], usable=reach.usable + by))

    longer = Easing(
        eased,
        reach.length - reach.usable,
        lambda by: f'{longer_piece(reach.usable + by, given, handled)} for "{name}"',
    )
    return Fact(f'pieces of "{name}", {reach.length:g} long, are {reach.usable:g} at the most', (longer,))


def _shift(place: int, one: str, other: str, shift: float) -> Fact:
    nearer = Easing(
        lambda panels, by: panels.with_shift(place, shift - by),
        shift,
        lambda by: f'let joints of "{one}" and "{other}" be {max(0.0, shift - by):g} apart',
    )
    return Fact(f'joints of "{one}" and "{other}" are {shift:g} apart', (nearer,))
