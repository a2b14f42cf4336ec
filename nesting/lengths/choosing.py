"""Which groups make all strips at the least cost, and what that proves."""

from collections.abc import Iterable
from dataclasses import dataclass

from ortools.sat.python import cp_model

from nesting.solving import Answer, minimize

from .cutting import Cutting
from .joined_groups import Group

#: Solver effort for one choice; mostly a tenth of it is used.
EFFORT = 0.5


@dataclass(frozen=True)
class Choice:
    """Groups that together make all strips, if any were found, and what is proven about every choice."""

    groups: tuple[Group, ...]
    answer: Answer
    weight: int

    @property
    def bound_cents(self) -> int:
        """Cents that no choice is below; 0 where nothing is proven.

        The objective is cents x weight + joints with fewer joints than the weight; so from a bound on it the
        most joints are taken off before it is divided, rounding up.
        """
        if self.answer.bound is None:
            return 0
        return max(0, -((self.weight - 1 - self.answer.bound) // self.weight))


def cheapest_choice(cutting: Cutting, groups: Iterable[Group], weight: int) -> Choice:
    """Return the cheapest choice of groups, with the fewest joints among equals.

    Parameters
    ----------
    weight : int
        More than the joints of all strips together.
    """
    kinds = tuple(groups)
    model = cp_model.CpModel()
    chosen = [model.new_int_var(0, _most(cutting, group), f"group {number}") for number, group in enumerate(kinds)]
    for place, member in enumerate(cutting.members):
        having = [number for number, group in enumerate(kinds) if group.strips[place]]
        model.add(sum(kinds[number].strips[place] * chosen[number] for number in having) == member.quantity)
    for index, stock in cutting.stocks.items():
        if stock.available is not None:
            taking = [number for number, group in enumerate(kinds) if group.bars[index]]
            model.add(sum(kinds[number].bars[index] * chosen[number] for number in taking) <= stock.available)
    model.minimize(
        sum((group.cents * weight + group.joints) * count for group, count in zip(kinds, chosen, strict=True))
    )
    answer = minimize(model, effort=EFFORT)
    return Choice(_read(kinds, answer), answer, weight)


def _most(cutting: Cutting, group: Group) -> int:
    """Return how often a group can be chosen before it makes too many of some strip."""
    return min(m.quantity // count for m, count in zip(cutting.members, group.strips, strict=True) if count)


def _read(kinds: tuple[Group, ...], answer: Answer) -> tuple[Group, ...]:
    if not answer.found:
        return ()
    return tuple(group for number, group in enumerate(kinds) for _ in range(answer.values[f"group {number}"]))
