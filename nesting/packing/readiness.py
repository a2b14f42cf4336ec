"""Compiling the kernels in the background, so that a first plan from plain code need not wait for them."""

from functools import cache
from threading import Thread

from shapely.geometry import box

from nesting.effort import Budget, Effort

from .container import Container
from .filling import fill
from .first_fit import Item
from .together import pack_together
from .workshop import Gaps, Workshop


def compiled() -> bool:
    """Whether the kernels are compiled; the first time it is asked a thread begins with that."""
    return not _compiling().is_alive()


def wait_until_compiled() -> None:
    """Come back once the kernels are compiled: a minute the first time on a slow machine, later half a second."""
    _compiling().join()


@cache
def _compiling() -> Thread:
    thread = Thread(target=_use_each_kernel, name="compiling", daemon=True)
    thread.start()
    return thread


def _use_each_kernel() -> None:
    """Solve two tiny problems that need every kernel, overlaps and all."""
    workshop, container = Workshop(Gaps(parts=1.0)), Container(box(0, 0, 100, 50))
    items = [Item(box(0, 0, 30, 20), (0, 90))] * 7
    fill(workshop, container, items, Effort(Budget(work=200)))
    pack_together(workshop, [container, container], items, Effort(Budget(work=400)))
