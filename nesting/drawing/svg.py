"""Drawings as SVG: same drawing, same bytes, and safe to set into a page beside others."""

import math
import re
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from functools import lru_cache
from xml.sax.saxutils import escape, quoteattr

from .canvas import Anchor, Point, Points
from .lettering import font_size
from .styles import BLACK, Line

#: What XML 1.0 has no way to hold.
_UNWRITABLE = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")

#: What needs no escape in an attribute.
_PLAIN = re.compile("[A-Za-z0-9 .,:;()'#/+-]*")

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
        Short name, unique within a page that shows several drawings.
    """

    def __init__(
        self, box: tuple[float, float, float, float], *, scale: float, key: str, title: str, description: str
    ) -> None:
        left, bottom, right, top = box
        self._scale = scale
        self._written = [
            _opened(
                "svg",
                {
                    "xmlns": NAMESPACE,
                    "version": "1.1",
                    "id": key,
                    "role": "img",
                    "aria-labelledby": f"{key}-title {key}-desc",
                    "width": f"{_number((right - left) / scale)}mm",
                    "height": f"{_number((top - bottom) / scale)}mm",
                    "viewBox": " ".join(_number(value) for value in (left, -top, right - left, top - bottom)),
                    "font-family": "'DejaVu Sans', Verdana, Arial, sans-serif",
                    "fill": "none",
                },
            ),
            _element("title", {"id": f"{key}-title"}, title),
            _element("desc", {"id": f"{key}-desc"}, description),
        ]

    @property
    def scale(self) -> float:
        """Millimetres of the thing for one on paper."""
        return self._scale

    def area(self, rings: Sequence[Points], line: Line | None, *, tint: str = "none", name: str = "") -> None:
        """Draw closed rings, filled by the even-odd rule."""
        drawn = " ".join(_run(ring) + " Z" for ring in rings)
        named = {"data-name": name} if name else {}
        self._add("path", {**self._pen(line), **named, "fill": tint, "fill-rule": "evenodd", "d": drawn})

    def lines(self, runs: Sequence[Points], line: Line) -> None:
        """Draw open lines through points."""
        if runs:
            self._add("path", {**self._pen(line), "d": " ".join(map(_run, runs))})

    def circle(self, centre: Point, radius: float, line: Line | None, *, tint: str = "none") -> None:
        """Draw a circle; its radius is in millimetres on paper."""
        place = {"cx": _number(centre[0]), "cy": _number(-centre[1]), "r": _number(radius * self._scale)}
        self._add("circle", {**self._pen(line), "fill": tint, **place})

    def text(self, words: str, at: Point, height: float, *, anchor: Anchor = "start", angle: float = 0.0) -> None:
        """Write words whose baseline passes through ``at``."""
        x, y = _number(at[0]), _number(-at[1])
        turn = {"transform": f"rotate({_number(-angle)} {x} {y})"} if angle else {}
        size = _number(font_size(height) * self._scale)
        self._add("text", {"x": x, "y": y, "font-size": size, "text-anchor": anchor, "fill": BLACK, **turn}, words)

    @contextmanager
    def group(self, kind: str, title: str = "") -> Iterator[None]:
        """Gather what is drawn within the block."""
        self._written.append(_opened("g", {"class": kind}))
        if title:
            self._add("title", {}, title)
        yield
        self._written.append("</g>")

    def document(self) -> str:
        """Return the drawing as one ``svg`` element, which is both a whole file and fit to stand in a page."""
        return "\n".join((*self._written, "</svg>", ""))

    def _add(self, tag: str, attributes: dict[str, str], words: str = "") -> None:
        self._written.append(_element(tag, attributes, words))

    def _pen(self, line: Line | None) -> dict[str, str]:
        if line is None:
            return {}
        pen = {
            "class": line.kind,
            "stroke": line.colour,
            "stroke-width": _number(line.width * self._scale),
            "stroke-linejoin": "round",
        }
        if line.dashes:
            pen["stroke-dasharray"] = " ".join(_number(dash * self._scale) for dash in line.dashes)
        return pen


def _opened(tag: str, attributes: dict[str, str]) -> str:
    """Return the start of an element."""
    return f"<{tag}{''.join(f' {name}={_quoted(value)}' for name, value in attributes.items())}>"


def _quoted(value: str) -> str:
    """Return a value in quotation marks; nearly all are figures, in which nothing has to be looked for."""
    return f'"{value}"' if _PLAIN.fullmatch(value) else quoteattr(_writable(value))


def _element(tag: str, attributes: dict[str, str], words: str) -> str:
    if words:
        return f"{_opened(tag, attributes)}{escape(_writable(words))}</{tag}>"
    return f"{_opened(tag, attributes)[:-1]} />"


def _run(points: Points) -> str:
    return "M " + " L ".join(f"{_number(x)} {_number(-y)}" for x, y in points)


@lru_cache(maxsize=100_000)
def _number(value: float) -> str:
    """Write a figure to a hundredth of a millimetre; most of those of a drawing stand in it many times."""
    if not math.isfinite(value):
        raise ValueError(f"{value} can't be drawn")
    written = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if written == "-0" else written


def _writable(words: str) -> str:
    return _UNWRITABLE.sub("\ufffd", words)
