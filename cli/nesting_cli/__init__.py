"""The command ``nesting``: it parses, shows progress and prints; all else is in the library."""

from .app import main

__all__ = ["main"]
