"""The SVG behind the canvas."""

import pytest
from svg_reading import NAMESPACE, pens_of, points_of, root_of

from nesting.drawing.styles import CUT
from nesting.drawing.svg import SvgCanvas


def a_canvas():
    """Return a canvas of 100 x 50 mm at 1:2."""
    return SvgCanvas((0, 0, 100, 50), scale=2, key="k", title="t", description="d")


def test_lines_keep_their_width_on_paper():
    """A wide line is 0.5 mm on paper, so 1 mm of a thing drawn at 1:2."""
    canvas = a_canvas()
    canvas.lines([[(0, 0), (10, 5)]], CUT)
    root = root_of(canvas.document())
    (path,) = root.iter(f"{NAMESPACE}path")
    assert pens_of(root)[path.get("class")] == (1.0, "")
    assert points_of(path) == [[(0, 0), (10, 5)]]


def test_coordinates_are_rounded_to_a_hundredth():
    """No digits that no eye can see, no exponents and no minus zero."""
    canvas = a_canvas()
    canvas.area([[(1 / 3, -0.0001), (1234567.891, 2.5)]], CUT)
    assert "M0.33 0 1234567.89 -2.5Z" in canvas.document()


def test_two_drawings_on_one_page_keep_their_own_lines():
    """Each kind of line is described for the drawing's own name only, and once."""
    canvas = a_canvas()
    canvas.lines([[(0, 0), (1, 1)]], CUT)
    canvas.lines([[(0, 0), (2, 2)]], CUT)
    assert canvas.document().count("#k path.cut{stroke:#000000;stroke-width:1}") == 1


@pytest.mark.parametrize("bad", [float("nan"), float("inf")])
def test_what_is_no_number_is_refused(bad):
    """NaN and infinity raise instead of being printed."""
    with pytest.raises(ValueError, match="can't be drawn"):
        a_canvas().lines([[(bad, 0), (1, 1)]], CUT)


def test_letters_that_xml_cannot_hold_are_replaced():
    """A control character or half a surrogate pair never breaks the file."""
    canvas = a_canvas()
    canvas.text("a\x00b\ud800c", (0, 0), 2.5)
    (text,) = root_of(canvas.document()).iter(f"{NAMESPACE}text")
    assert text.text == "a\ufffdb\ufffdc"


def test_groups_nest_and_close():
    """What is drawn after a group stands outside it."""
    canvas = a_canvas()
    with canvas.group("outer", "1 < 2"), canvas.group("inner"):
        canvas.text("in", (0, 0), 2.5)
    canvas.text("out", (0, 0), 2.5)
    root = root_of(canvas.document())
    assert [text.text for text in root.findall(f"{NAMESPACE}text")] == ["out"]
    assert root.find(f"{NAMESPACE}g/{NAMESPACE}g/{NAMESPACE}text").text == "in"
    assert root.find(f"{NAMESPACE}g/{NAMESPACE}title").text == "1 < 2"


def test_only_the_namespace_of_svg_is_named():
    """The drawing refers to nothing outside it."""
    assert a_canvas().document().count("http") == 1
