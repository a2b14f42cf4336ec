"""How much may be spent, how much was, and how a search tells about it."""

from .budget import Budget, Effort
from .progress import News, Progress, silence

__all__ = ["Budget", "Effort", "News", "Progress", "silence"]
