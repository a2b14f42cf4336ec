"""Compiled loops: few, small, and cached on disk where there is a place for it."""

from .kernel import inlined, interpreted, kernel, lean_kernel

__all__ = ["inlined", "interpreted", "kernel", "lean_kernel"]
