"""How a search tells what it is doing."""

from dataclasses import dataclass
from decimal import Decimal
from typing import Protocol


@dataclass(frozen=True, kw_only=True)
class News:
    """What is being tried, and the best audited plan so far with the bound beside it."""

    stage: str
    objective: Decimal | None = None
    bound: Decimal | None = None
    spent: int = 0


class Progress(Protocol):
    """Whoever wants to hear; called from the thread of the search, rarely enough to print."""

    def __call__(self, news: News, /) -> None:
        """Take one piece of news."""


def silence(_: News) -> None:
    """Ignore all news."""
