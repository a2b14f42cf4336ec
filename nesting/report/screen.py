"""What the page is made of: screens, one thing to do on each, and the blocks that a screen shows."""

from dataclasses import dataclass
from typing import ClassVar

from markupsafe import Markup

from .cautions import Caution
from .table import Table


@dataclass(frozen=True, kw_only=True)
class Words:
    """A paragraph; ``heavy`` words are what the reader came for."""

    kind: ClassVar[str] = "words"
    text: str
    heavy: bool = False


@dataclass(frozen=True, kw_only=True)
class Listing:
    """A table; ``ticks`` name its rows, each of which then begins with a box to tick when the thing is done."""

    kind: ClassVar[str] = "listing"
    table: Table
    ticks: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Picture:
    """A drawing, whose tables say the same in words and figures."""

    kind: ClassVar[str] = "picture"
    svg: Markup
    caption: str


@dataclass(frozen=True, kw_only=True)
class Warnings:
    """Cautions with their sources."""

    kind: ClassVar[str] = "warnings"
    cautions: tuple[Caution, ...]


@dataclass(frozen=True, kw_only=True)
class Whereabouts:
    """Where one piece is drawn: the key of its screen, and what it is cut from."""

    piece: str
    code: str
    part: str
    which: str
    hand: str
    on: str
    screen: str


@dataclass(frozen=True, kw_only=True)
class Finder:
    """An index of all pieces."""

    kind: ClassVar[str] = "finder"
    pieces: tuple[Whereabouts, ...]


@dataclass(frozen=True, kw_only=True)
class Label:
    """What is stuck on one piece; ``arrow`` tells where its arrow points, if it has one."""

    code: str
    arrow: str
    part: str
    which: str
    ends: tuple[str, ...]
    on: str


@dataclass(frozen=True, kw_only=True)
class LabelGrid:
    """Labels to print and cut apart."""

    kind: ClassVar[str] = "labels"
    labels: tuple[Label, ...]
    foot: str


@dataclass(frozen=True)
class Contents:
    """A list of all screens stands here."""

    kind: ClassVar[str] = "contents"


Block = Words | Listing | Picture | Warnings | Finder | LabelGrid | Contents


@dataclass(frozen=True, kw_only=True)
class Screen:
    """One screen: ``short`` names it where there is little room."""

    key: str
    heading: str
    short: str
    blocks: tuple[Block, ...]

    @property
    def ticks(self) -> tuple[str, ...]:
        """What there is to tick on it, by name."""
        return tuple(tick for block in self.blocks if isinstance(block, Listing) for tick in block.ticks)

    @property
    def form(self) -> str:
        """Its form on paper: a drawing lies on its side, and so do wide tables."""
        if any(isinstance(block, Picture) for block in self.blocks):
            return "drawn"
        widest = max((len(block.table.columns) for block in self.blocks if isinstance(block, Listing)), default=0)
        return "wide" if widest > WIDE_FROM else "plain"


#: Columns that no longer fit on an upright page.
WIDE_FROM = 7
