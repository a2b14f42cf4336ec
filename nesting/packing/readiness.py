"""Compiling the kernels in the background, so that a first plan from plain code need not wait for them."""

from functools import cache
from threading import Thread

from .warming import warm_up


def compiled() -> bool:
    """Whether the kernels are compiled; the first time it is asked a thread begins with that."""
    return not _compiling().is_alive()


def wait_until_compiled() -> None:
    """Come back once the kernels are compiled: half a minute the first time, later half a second."""
    _compiling().join()


@cache
def _compiling() -> Thread:
    thread = Thread(target=warm_up, name="compiling", daemon=True)
    thread.start()
    return thread
