"""Scarfs that run along a blank, drawn on the finished panel."""

import pytest

from nesting.drawing import draw_panel
from nesting.drawing.seams import seams_of
from tests.auditing.good_wide_plan import wide_plan


def test_a_wide_panel_shows_the_scarfs_along_its_blank_where_they_lie_on_it() -> None:
    """Two columns of 2420, one lap of 48 over each other: the panel of 4300 lies over both scarfs, 48 wide."""
    made = wide_plan()
    seams = list(seams_of(made, "floor"))
    assert [seam.named for seam in seams] == ["B1/F2", "B1/F3"]
    lengths = [seam.lap.bounds[2] - seam.lap.bounds[0] for seam in seams]
    assert sum(lengths) - 48 == pytest.approx(4300)
    for seam in seams:
        assert seam.lap.area == pytest.approx(48 * (seam.lap.bounds[2] - seam.lap.bounds[0]))
    assert "B1/F2: scarf along" in draw_panel(made, "floor")


def test_other_panels_show_none() -> None:
    """The cleat lies on what is left of a sheet."""
    assert list(seams_of(wide_plan(), "cleat")) == []
