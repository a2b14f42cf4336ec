"""Compiles the few inner loops for which Python is too slow."""

from collections.abc import Callable
from typing import Any, TypeVar, cast

from numba import njit

Function = TypeVar("Function", bound=Callable[..., Any])


def kernel(function: Function) -> Function:
    """Compile a function at its first call, without the interpreter's lock, and keep what was compiled on disk.

    Where neither the package's folder nor the user's cache can be written, it is compiled anew in each process. No
    ``fastmath``: results must not depend on the machine.
    """
    return _compiled(function)


def lean_kernel(function: Function) -> Function:
    """Compile a function that makes no arrays.

    It need not count who holds those that it is given: whoever calls it does. Where arrays come in tuples they would
    else be counted at each use, which would take two thirds of the time.
    """
    return _compiled(function, _nrt=False)


def inlined(function: Function) -> Function:
    """Compile a function that makes no arrays into those that call it: for the innermost loops."""
    return _compiled(function, _nrt=False, forceinline=True)


def interpreted(function: Function) -> Function:
    """Return the plain Python function behind a kernel; also if compiling is switched off altogether."""
    return cast(Function, getattr(function, "py_func", function))


def _compiled(function: Function, **options: bool) -> Function:
    # Division as numpy has it: a check for zero in the innermost loop would cost most of its speed.
    always: dict[str, Any] = {"nogil": True, "error_model": "numpy", **options}
    try:
        return cast(Function, njit(cache=True, **always)(function))
    except RuntimeError:  # numba found no folder for its cache
        return cast(Function, njit(**always)(function))
