"""How much may be spent, how much was, how a search tells about it, and how it goes on in rounds on several workers."""

from typing import TYPE_CHECKING

from nesting.doors import opened_when_used

from .budget import Budget, Effort
from .progress import News, Progress, silence

if TYPE_CHECKING:
    from .rounds import in_rounds

__all__ = ["Budget", "Effort", "News", "Progress", "in_rounds", "silence"]

if not TYPE_CHECKING:  # a checker that saw it would take any name to be there
    __getattr__ = opened_when_used(__name__, {"in_rounds": "rounds"})  # a first plan need not wait for what it opens
