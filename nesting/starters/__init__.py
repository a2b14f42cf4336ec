"""Starter jobs of our own: whole examples to plan at once, then to make one's own by changing them."""

from .shipped import JOB_FILE, STARTERS, starter_files

__all__ = ["JOB_FILE", "STARTERS", "starter_files"]
