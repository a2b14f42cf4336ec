"""A fixed spread of many instances: the same at every run, and not chosen by how they turn out."""

from collections.abc import Callable, Sequence
from typing import TypeVar

Instance = TypeVar("Instance")


def spread(instances: Sequence[Instance], count: int) -> list[Instance]:
    """Return so many instances evenly spaced over the sequence, from its first on; all if there are fewer."""
    if count >= len(instances):
        return list(instances)
    return [instances[k * len(instances) // count] for k in range(count)]


def spread_of_each(instances: Sequence[Instance], group: Callable[[Instance], str], count: int) -> list[Instance]:
    """Return a spread of so many instances of each group, groups in the order in which they come."""
    groups: dict[str, list[Instance]] = {}
    for instance in instances:
        groups.setdefault(group(instance), []).append(instance)
    return [chosen for members in groups.values() for chosen in spread(members, count)]
