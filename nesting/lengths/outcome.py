"""What a search for timber ends with."""

from dataclasses import dataclass

from .layout import Layout
from .proven import Proven


@dataclass(frozen=True)
class Outcome:
    """The best layout found, if any, and what is proven."""

    layout: Layout | None
    proven: Proven
