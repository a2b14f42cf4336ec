"""Why the joints of several panels can't keep apart: the fewest facts that clash, and the least change that helps."""

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Protocol

from nesting.joints import Reach
from nesting.model import Problem

from .keeping_apart import Panels
from .refusing import SHIFT


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
    helps = [words for fact in told if (words := _least(fact, panels, question)) is not None] + [*other_way]
    return Problem(
        code=SHIFT,
        where="neighbours",
        path=("neighbours",),
        reason=f"no joints can keep all of these: {'; '.join(fact.words for fact in told)}. {question.scope}",
        remedy=f"Any one of these helps: {'; '.join(helps)}." if helps else "Ease two of these rules together.",
    )


def _least(fact: Fact, panels: Panels, question: Question) -> str | None:
    """Return what to do to ease a rule by as few whole millimetres as helps; None if no easing helps."""
    steps = math.ceil(fact.most)
    if steps < 1 or not question.is_possible(fact.eased(panels, steps)):
        return None
    low, high = 0, steps
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if question.is_possible(fact.eased(panels, middle)) else (middle, high)
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
