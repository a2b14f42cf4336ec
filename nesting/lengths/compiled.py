"""Compiling the few loops that Python is too slow for."""

from collections.abc import Callable
from typing import ParamSpec, TypeVar

from numba import njit

P = ParamSpec("P")
R = TypeVar("R")


def kernel(function: Callable[P, R]) -> Callable[P, R]:
    """Compile a function of arrays and numbers; where no cache can be written it is compiled anew each time."""
    try:
        compiled: Callable[P, R] = njit(cache=True, nogil=True)(function)
    except RuntimeError:  # numba's word for "neither this folder nor the home can be written"
        compiled = njit(nogil=True)(function)
    return compiled
