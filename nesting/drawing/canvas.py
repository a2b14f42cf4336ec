"""The one surface that all drawings are made on, whatever is behind it."""

from collections.abc import Sequence
from contextlib import AbstractContextManager
from typing import Literal, Protocol

from .styles import Line

Point = tuple[float, float]
Points = Sequence[Point]
Anchor = Literal["start", "middle", "end"]


class Canvas(Protocol):
    """A surface in millimetres of the thing drawn, x to the right and y up.

    Widths of lines and heights of letters are in millimetres on paper: a thing ``scale`` times as large as its
    drawing keeps the same lines and letters.
    """

    @property
    def scale(self) -> float:
        """Millimetres of the thing for one on paper."""

    def area(self, rings: Sequence[Points], line: Line | None, *, tint: str = "none", name: str = "") -> None:
        """Draw closed rings, filled by the even-odd rule; ``name`` tells which thing the outline is of."""

    def lines(self, runs: Sequence[Points], line: Line) -> None:
        """Draw open lines through points."""

    def circle(self, centre: Point, radius: float, line: Line | None, *, tint: str = "none") -> None:
        """Draw a circle; its radius is in millimetres on paper."""

    def text(self, words: str, at: Point, height: float, *, anchor: Anchor = "start", angle: float = 0.0) -> None:
        """Write words whose baseline passes through ``at``, turned by ``angle`` degrees anticlockwise."""

    def group(self, kind: str, title: str = "") -> AbstractContextManager[None]:
        """Gather what is drawn within the block under one kind and title."""
