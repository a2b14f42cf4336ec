"""Drawings as SVG: same drawing, same bytes, and safe to set into a page beside others."""

import math
import re
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from typing import Any
from xml.etree import ElementTree

import svgwrite
from svgwrite.container import Group
from svgwrite.path import Path
from svgwrite.shapes import Circle
from svgwrite.text import Text

from .canvas import Anchor, Point, Points
from .lettering import font_size
from .styles import BLACK, Line

#: What XML 1.0 has no way to hold.
_UNWRITABLE = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


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
        self._key = key
        self._drawing = svgwrite.Drawing(
            debug=False,
            size=(f"{_number((right - left) / scale)}mm", f"{_number((top - bottom) / scale)}mm"),
            viewBox=" ".join(_number(value) for value in (left, -top, right - left, top - bottom)),
            id=key,
            role="img",
            font_family="'DejaVu Sans', Verdana, Arial, sans-serif",
            fill="none",
            aria_labelledby=f"{key}-title {key}-desc",
        )
        self._within: Any = self._drawing
        self._title, self._description = title, description

    @property
    def scale(self) -> float:
        """Millimetres of the thing for one on paper."""
        return self._scale

    def area(self, rings: Sequence[Points], line: Line | None, *, tint: str = "none", name: str = "") -> None:
        """Draw closed rings, filled by the even-odd rule."""
        drawn = " ".join(_run(ring) + " Z" for ring in rings)
        named = {"data_name": _writable(name)} if name else {}
        self._add(Path(d=drawn, debug=False, fill=tint, fill_rule="evenodd", **self._pen(line), **named))

    def lines(self, runs: Sequence[Points], line: Line) -> None:
        """Draw open lines through points."""
        if runs:
            self._add(Path(d=" ".join(_run(run) for run in runs), debug=False, **self._pen(line)))

    def circle(self, centre: Point, radius: float, line: Line | None, *, tint: str = "none") -> None:
        """Draw a circle; its radius is in millimetres on paper."""
        at = (_number(centre[0]), _number(-centre[1]))
        self._add(Circle(center=at, r=_number(radius * self._scale), debug=False, fill=tint, **self._pen(line)))

    def text(self, words: str, at: Point, height: float, *, anchor: Anchor = "start", angle: float = 0.0) -> None:
        """Write words whose baseline passes through ``at``."""
        x, y = _number(at[0]), _number(-at[1])
        turn = {"transform": f"rotate({_number(-angle)} {x} {y})"} if angle else {}
        size = _number(font_size(height) * self._scale)
        self._add(
            Text(_writable(words), insert=(x, y), debug=False, fill=BLACK, font_size=size, text_anchor=anchor, **turn)
        )

    @contextmanager
    def group(self, kind: str, title: str = "") -> Iterator[None]:
        """Gather what is drawn within the block."""
        outside, group = self._within, Group(debug=False, class_=kind)
        if title:
            group.set_desc(title=_writable(title))
        outside.add(group)
        self._within = group
        yield
        self._within = outside

    def document(self) -> str:
        """Return the drawing as one ``svg`` element, which is both a whole file and fit to stand in a page."""
        self._drawing.set_desc(title=_writable(self._title), desc=_writable(self._description))
        root = self._drawing.get_xml()
        for foreign in ("xmlns:xlink", "xmlns:ev", "baseProfile"):
            root.attrib.pop(foreign, None)
        _drop_empty_definitions(root)
        for said in ("title", "desc"):
            element = root.find(said)
            if element is not None:
                element.set("id", f"{self._key}-{said}")
        return ElementTree.tostring(root, encoding="unicode") + "\n"

    def _add(self, element: Any) -> None:
        self._within.add(element)

    def _pen(self, line: Line | None) -> dict[str, str]:
        if line is None:
            return {}
        pen = {
            "class_": line.kind,
            "stroke": line.colour,
            "stroke_width": _number(line.width * self._scale),
            "stroke_linejoin": "round",
        }
        if line.dashes:
            pen["stroke_dasharray"] = " ".join(_number(dash * self._scale) for dash in line.dashes)
        return pen


def _drop_empty_definitions(root: ElementTree.Element) -> None:
    for definitions in root.findall("defs"):
        if not len(definitions):
            root.remove(definitions)


def _run(points: Points) -> str:
    return "M " + " L ".join(f"{_number(x)} {_number(-y)}" for x, y in points)


def _number(value: float) -> str:
    """Write a figure to a hundredth of a millimetre."""
    if not math.isfinite(value):
        raise ValueError(f"{value} can't be drawn")
    written = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if written == "-0" else written


def _writable(words: str) -> str:
    return _UNWRITABLE.sub("\ufffd", words)
