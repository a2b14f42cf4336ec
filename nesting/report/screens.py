"""All screens of the page, in the order of the work."""

from nesting.model import Plan

from .cutting_screens import cutting_screens
from .first_screens import first_screens
from .joining_screens import joining_screens
from .last_screens import last_screens
from .screen import Screen


def all_screens(plan: Plan, mark: str) -> tuple[Screen, ...]:
    """Return what to know and buy first, then what to cut, what to join, and what is left to look up."""
    return (*first_screens(plan, mark), *cutting_screens(plan), *joining_screens(plan), *last_screens(plan, mark))
