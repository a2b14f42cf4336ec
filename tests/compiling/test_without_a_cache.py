"""Kernels where nothing can be kept on disk: neither in the package's folder nor in the user's cache."""

import pytest
from numba.core.caching import CacheImpl

from nesting.compiling import kernel


def doubled(number: float) -> float:
    """Return twice a number."""
    return 2 * number


def test_a_kernel_is_compiled_all_the_same(monkeypatch: pytest.MonkeyPatch) -> None:
    """Numba finds no folder for its cache, as in a read-only home and installation, and says so by an error."""
    monkeypatch.setattr(CacheImpl, "_locator_classes", [])
    compiled = kernel(doubled)
    assert compiled is not doubled
    assert compiled(21.0) == 42.0
