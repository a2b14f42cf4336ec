"""The drawings of three plans made by hand, kept as files: same plan, same bytes, and no change that nobody looked at.

Where a drawing is meant to change, run these tests once with REDRAW=1 and look at every file that then differs.
"""

import os

import pytest
from golden_drawings import GOLDEN, drawings

DRAWN = drawings()

if os.environ.get("REDRAW"):
    for redrawn, svg in DRAWN.items():
        (GOLDEN / redrawn).write_text(svg, encoding="utf-8")


@pytest.mark.parametrize("name", DRAWN)
def test_a_drawing_is_as_it_was_when_it_was_last_looked_at(name):
    """Byte for byte."""
    assert DRAWN[name] == (GOLDEN / name).read_text(encoding="utf-8")


def test_no_kept_drawing_is_left_over():
    """Each file is the drawing of something."""
    assert {file.name for file in GOLDEN.iterdir()} == set(DRAWN)


def test_a_second_drawing_is_the_same():
    """Nothing is drawn from the clock, from chance or from the order of a set."""
    assert drawings() == DRAWN
