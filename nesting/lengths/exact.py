"""The search of one cutting: with or without joints."""

from nesting.effort import Effort

from .cutting import Cutting
from .layout import Layout
from .outcome import Outcome
from .plain import plain
from .proven import Proven
from .spliced import spliced
from .task import task_of


def exact(cutting: Cutting, first: Layout | None, net: Proven, effort: Effort) -> Outcome:
    """Search for a cheapest layout, starting from a first one and a first bound.

    Where offcuts are worth something, strips without joints are groups of one opening.
    """
    task = task_of(cutting)
    if cutting.keeps or any(member.most_joints or member.least_joints for member in cutting.members):
        return spliced(task, first, net, effort)
    return plain(task, first, net, effort)
