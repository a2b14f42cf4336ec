"""Front doors that open the modules behind them only when one of their names is first used."""

import sys
from collections.abc import Callable, Mapping
from importlib import import_module
from typing import Any


def opened_when_used(room: str, modules: Mapping[str, str]) -> Callable[[str], Any]:
    """Return a ``__getattr__`` for a package, so that whoever opens its door need not wait for all that is behind it.

    Parameters
    ----------
    room : str
        Full name of the package.
    modules : mapping
        For each name that it hands on the module, within the package, in which that is.
    """

    def opened(name: str) -> Any:
        if name not in modules:
            raise AttributeError(f"module {room!r} has no attribute {name!r}")
        value = getattr(import_module(f"{room}.{modules[name]}"), name)
        setattr(sys.modules[room], name, value)
        return value

    return opened
