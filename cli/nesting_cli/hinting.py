"""Hints on standard error: they never change what is done, nor the exit status."""

from collections.abc import Iterable
from pathlib import Path

from nesting.files import located
from nesting.model import Job, Problem
from nesting.planner import hints

from .failures import say


def say_hints(job: Job, job_file: Path) -> None:
    """Say what looks like a slip in a job."""
    say_each(located(hints(job), job_file))


def say_each(told: Iterable[Problem]) -> None:
    """Say hints that were found before."""
    for hint in told:
        say(f"hint: {hint}")
