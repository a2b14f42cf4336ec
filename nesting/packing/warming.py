"""Compiles all kernels, so that no search has to wait for it."""

from shapely.geometry import box

from nesting.effort import Budget, Effort

from .container import Container
from .filling import fill
from .first_fit import Item
from .strip import pack_strip
from .workshop import Workshop


def warm_up() -> None:
    """Fill and pack next to nothing: compiles whatever is not in the cache.

    May run in a thread of its own while a first plan from plain code is shown; it seldom holds the interpreter
    for long.
    """
    items = [Item(box(0, 0, 60, 60))] * 2
    fill(Workshop(), Container(box(0, 0, 100, 100)), items, Effort(Budget(work=60)))
    next(pack_strip(Workshop(), items, 100, Effort(Budget(work=60))))
