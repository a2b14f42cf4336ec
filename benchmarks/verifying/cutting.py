"""Whether a cutting plan of one stock length is one."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from benchmarks.data import CuttingInstance


@dataclass(frozen=True)
class Pattern:
    """What is cut from one stock length, copies by size, and how many lengths are cut so."""

    count: int
    copies: Mapping[int, int]


def cutting_faults(instance: CuttingInstance, patterns: Sequence[Pattern]) -> list[str]:
    """Return patterns that do not fit, and sizes of which too few are cut; more than wanted is no fault."""
    wrong = [
        f"pattern {index}: {_length(pattern)} is longer than {instance.capacity}"
        for index, pattern in enumerate(patterns)
        if _length(pattern) > instance.capacity
    ]
    cut: Counter[int] = Counter()
    for index, pattern in enumerate(patterns):
        if pattern.count < 1 or any(copies < 1 for copies in pattern.copies.values()):
            wrong.append(f"pattern {index} has a count below 1")
        for size, copies in pattern.copies.items():
            cut[size] += pattern.count * copies
    demand: Counter[int] = Counter()
    for size, quantity in instance.items:
        demand[size] += quantity
    wrong += [f"{cut[size]} of {size} are cut, not {wanted}" for size, wanted in demand.items() if cut[size] < wanted]
    return wrong


def _length(pattern: Pattern) -> int:
    return sum(size * copies for size, copies in pattern.copies.items())
