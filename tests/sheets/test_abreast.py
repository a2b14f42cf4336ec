"""What pieces take of a sheet's width at its middle, as solvers count it before anything is laid."""

from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import box

from nesting.outlines import moved, turned
from nesting.sheets.abreast import taken_at_middle
from nesting.sheets.aims import aim_below
from nesting.sheets.pieces import STATIONS, PieceKind
from nesting.sheets.stock import Stock
from nesting.sheets.tasks import tasks_of
from tests.jobs import job, panel

TAPERED = {"points": [[0, 0], [2000, 0], [2000, 100], [1000, 400], [0, 300]]}


def kind_of(**given: object) -> tuple[PieceKind, Stock]:
    """Return the one piece of a panel, and the sheet of 2420 x 1200 that is usable."""
    task = tasks_of(job({**panel("side", 2000, 300), **given}))[0]
    return task.variants[0][0].pieces[0], task.stocks[0]


@pytest.mark.parametrize(
    ("length", "width", "taken"), [(2000, 300, 300), (1300, 250, 250), (1200, 250, 0), (1000, 400, 0)]
)
def test_a_piece_longer_than_half_the_sheet_takes_its_width(length: float, width: float, taken: float) -> None:
    """A rectangle; one no longer than half may lie wholly on one side."""
    kind, stock = kind_of(outline={"rectangle": [length, width]})
    assert taken_at_middle(kind, stock) == pytest.approx(taken)


@pytest.mark.parametrize("grain", ["any", "across"])
def test_a_piece_that_may_lie_across_takes_nothing_for_sure(grain: str) -> None:
    """Its length runs along the sheet's width then."""
    kind, stock = kind_of(outline={"rectangle": [1190, 300]}, grain=grain)
    assert taken_at_middle(kind, stock) == 0


@given(offset=st.floats(0, 1), angle=st.sampled_from([0, 180]))
def test_wherever_a_piece_lies_it_takes_as_much_at_least(offset: float, angle: int) -> None:
    """An oracle: the piece is laid on the sheet, and cut by a line at its middle."""
    kind, stock = kind_of(outline=TAPERED)
    lying = turned(kind.item.polygon, angle)
    west, south, _, _ = lying.bounds
    length, _ = stock.size
    laid = moved(lying, offset * (length - 2000) - west, -south)
    there = laid.intersection(box(length / 2 - 0.05, -1, length / 2 + 0.05, 2000)).area / 0.1
    slope = 0.3  # of the steepest edge: so much may be missed between two stations
    assert taken_at_middle(kind, stock) <= there + slope * 2000 / STATIONS


@pytest.mark.parametrize("seed", range(5))
def test_no_aim_lays_more_abreast_than_a_sheet_is_wide(seed: int) -> None:
    """Three pieces 450 wide and longer than half a sheet fill by area three quarters of one, and yet need two."""
    task = tasks_of(job(panel("wide", 1500, 450, quantity=3)))[0]
    aim = aim_below(task, 30_000, Random(seed))
    assert aim is not None
    assert len(aim.stocks) >= 2
