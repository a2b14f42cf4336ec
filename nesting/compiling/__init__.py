"""Compiled loops: few, small, and cached on disk where there is a place for it."""

from .kernel import inlined, interpreted, kernel

__all__ = ["inlined", "interpreted", "kernel"]
