"""Drawings as SVG: same drawing, same bytes, and safe to set into a page beside others.

A large plan has forty thousand elements, and the page holds them all: so each says only what is its own. How a kind of
line is drawn stands once in the drawing, and letters are small and black unless they say otherwise.
"""

import math
import re
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from functools import lru_cache
from xml.sax.saxutils import escape, quoteattr

from .canvas import Anchor, Point, Points
from .lettering import font_size
from .styles import BLACK, SMALL, Line

#: What XML 1.0 has no way to hold.
_UNWRITABLE = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")

NAMESPACE = "http://www.w3.org/2000/svg"


class SvgCanvas:
    """A canvas whose coordinates are the thing's own, with y negated; its size is that of the paper.

    Parameters
    ----------
    box : (left, bottom, right, top)
        What is shown, in millimetres of the thing.
    scale : float
        Millimetres of the thing for one on paper.
    key : str
        Short name, unique within a page that shows several drawings: a letter, then letters, figures and hyphens.
    """

    def __init__(
        self, box: tuple[float, float, float, float], *, scale: float, key: str, title: str, description: str
    ) -> None:
        left, bottom, right, top = box
        view = " ".join(_number(value) for value in (left, -top, right - left, top - bottom))
        size = f'width="{_number((right - left) / scale)}mm" height="{_number((top - bottom) / scale)}mm"'
        self._scale, self._key = scale, key
        self._small = self._letters(SMALL)
        self._head = [
            f'<svg xmlns="{NAMESPACE}" version="1.1" id="{key}" role="img" aria-labelledby="{key}-title {key}-desc" '
            f'{size} viewBox="{view}" font-family="\'DejaVu Sans\', Verdana, Arial, sans-serif" '
            f'font-size="{self._small}" fill="none" fill-rule="evenodd" stroke-linejoin="round">',
            f'<title id="{key}-title">{_words(title)}</title>',
            f'<desc id="{key}-desc">{_words(description)}</desc>',
        ]
        self._pens: dict[str, str] = {}
        self._written: list[str] = []

    @property
    def scale(self) -> float:
        """Millimetres of the thing for one on paper."""
        return self._scale

    def area(self, rings: Sequence[Points], line: Line | None, *, tint: str = "none", name: str = "") -> None:
        """Draw closed rings, filled by the even-odd rule."""
        drawn = "".join(f"{_run(ring, _number)}Z" for ring in rings)
        named = f" data-name={quoteattr(_writable(name))}" if name else ""
        self._written.append(f'<path{self._pen("path", line)}{named}{_filled(tint)} d="{drawn}"/>')

    def lines(self, runs: Sequence[Points], line: Line) -> None:
        """Draw open lines through points, which are rounded to a tenth of a millimetre."""
        if runs:
            drawn = "".join(_run(run, _tenth) for run in runs)
            self._written.append(f'<path{self._pen("path", line)} d="{drawn}"/>')

    def circle(self, centre: Point, radius: float, line: Line | None, *, tint: str = "none") -> None:
        """Draw a circle; its radius is in millimetres on paper."""
        x, y, r = _number(centre[0]), _number(-centre[1]), _number(radius * self._scale)
        self._written.append(f'<circle{self._pen("circle", line)}{_filled(tint)} cx="{x}" cy="{y}" r="{r}"/>')

    def text(self, words: str, at: Point, height: float, *, anchor: Anchor = "start", angle: float = 0.0) -> None:
        """Write words, if there are any, whose baseline passes through ``at``."""
        if not words:
            return
        x, y = _tenth(at[0]), _tenth(-at[1])
        size = "" if height == SMALL else f' font-size="{self._letters(height)}"'
        side = "" if anchor == "start" else f' text-anchor="{anchor}"'
        turn = f' transform="rotate({_number(-angle)} {x} {y})"' if angle else ""
        self._written.append(f'<text x="{x}" y="{y}"{size}{side}{turn}>{_words(words)}</text>')

    @contextmanager
    def group(self, kind: str, title: str = "") -> Iterator[None]:
        """Gather what is drawn within the block."""
        self._written.append(f'<g class="{kind}">')
        if title:
            self._written.append(f"<title>{_words(title)}</title>")
        yield
        self._written.append("</g>")

    def document(self) -> str:
        """Return the drawing as one ``svg`` element, which is both a whole file and fit to stand in a page."""
        rules = "".join(f"#{self._key} {kind}{{{pen}}}" for kind, pen in self._pens.items())
        style = f"<style>#{self._key} text{{fill:{BLACK}}}{rules}</style>"
        return "\n".join((*self._head, style, *self._written, "</svg>", ""))

    def _letters(self, height: float) -> str:
        return _number(font_size(height) * self._scale)

    def _pen(self, tag: str, line: Line | None) -> str:
        """Return the class of a line; how its kind is drawn is noted when it is first met.

        It is noted for the element that is drawn, as groups have classes too and hand on how they are drawn.
        """
        if line is None:
            return ""
        kind = f"{tag}.{line.kind}"
        if kind not in self._pens:
            dashes = " ".join(_number(dash * self._scale) for dash in line.dashes)
            dashed = f";stroke-dasharray:{dashes}" if dashes else ""
            self._pens[kind] = f"stroke:{line.colour};stroke-width:{_number(line.width * self._scale)}{dashed}"
        return f' class="{line.kind}"'


def _filled(tint: str) -> str:
    return "" if tint == "none" else f' fill="{tint}"'


def _run(points: Points, written: Callable[[float], str]) -> str:
    """Return a line through points: from the second on they need no letter."""
    return "M" + " ".join([f"{written(x)} {written(-y)}" for x, y in points])


@lru_cache(maxsize=100_000)
def _number(value: float) -> str:
    """Write a figure to a hundredth of a millimetre; most of those of a drawing stand in it many times."""
    return _rounded(value, 2)


@lru_cache(maxsize=100_000)
def _tenth(value: float) -> str:
    """Write a figure to a tenth of a millimetre."""
    return _rounded(value, 1)


def _rounded(value: float, places: int) -> str:
    if not math.isfinite(value):
        raise ValueError(f"{value} can't be drawn")
    written = f"{value:.{places}f}".rstrip("0").rstrip(".")
    return "0" if written == "-0" else written


def _words(words: str) -> str:
    return escape(_writable(words))


def _writable(words: str) -> str:
    return _UNWRITABLE.sub("\ufffd", words)
