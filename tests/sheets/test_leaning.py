"""Pieces that lie a few degrees off their grain."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import affinity
from shapely.geometry import Polygon, box

from nesting.effort import Budget, Effort
from nesting.model import Job, PanelPiece, Share
from nesting.planner import plan
from nesting.sheets import panel_problems, sheet_plans
from nesting.sheets.leaning import boxes_at, leans_within, longest_leaning, useful_leans
from nesting.sheets.stock import stock_of
from nesting.sheets.tasks import tasks_of
from tests.jobs import PLY, job, panel
from tests.strategies import panel_polygons

STOCKS = stock_of(job(panel("any", 100, 100)))
tolerances = st.one_of(st.floats(0, 20, allow_nan=False), st.sampled_from([2.3, 0.001, 0.0004, 4.0, 20.0]))

#: A side with a belly, drawn as straight as it can be but for two degrees.
SLANTING = affinity.rotate(Polygon([(0, 0), (2000, 0), (2000, 120), (1000, 180), (0, 120)]), 2, origin=(0, 0))


def laid(asked: Job) -> Share:
    """Return the first way to make the panels of a job."""
    return next(sheet_plans(asked, seed=0, effort=Effort(Budget())))


def points(shape: Polygon) -> dict[str, object]:
    """Return an outline as a job tells it."""
    return {"outline": {"points": list(shape.exterior.coords)[:-1]}}


def off_grain(piece: PanelPiece, direction: float) -> float:
    """Return by how many degrees a piece leans off a direction or its opposite."""
    return abs((piece.angle - direction + 90) % 180 - 90)


@given(panel_polygons(), tolerances)
def test_no_lean_is_beyond_the_tolerance(shape: Polygon, tolerance: float) -> None:
    """Neither those looked at nor those chosen, and to lie true or to the full tolerance is among them."""
    looked_at = leans_within(tolerance)
    assert np.abs(looked_at).max() <= tolerance
    assert 0 in looked_at
    assert looked_at.max() >= tolerance - 0.001
    assert all(abs(lean) <= tolerance for lean in useful_leans(shape, tolerance, STOCKS))


@settings(max_examples=15)
@given(
    st.lists(panel_polygons(), min_size=1, max_size=3),
    st.sampled_from([0.0, 1.5, 4.0, 20.0]),
    st.sampled_from([("along", 0.0), ("across", 90.0)]),
    st.booleans(),
)
def test_no_piece_of_a_plan_lies_further_off_than_its_tolerance(
    shapes: list[Polygon], tolerance: float, grain: tuple[str, float], handed: bool
) -> None:
    """Along or across, port or starboard; and without a tolerance each lies true."""
    word, direction = grain
    more = {"grain": word, "grain_tolerance": tolerance, "handed": handed, "quantity": 2, "joint": "scarf"}
    panels = [panel(f"p{k}", 1, 1, **more) | points(shape) for k, shape in enumerate(shapes)]
    rule = {"slope": 8, "least_piece": 100}
    asked = job(*panels, sheets=({**PLY, "size": [3100, 3100]},), joints={"scarf": rule})
    pieces = laid(asked).pieces
    assert len(pieces) >= 2 * len(shapes)
    assert all(off_grain(piece, direction) <= tolerance + 1e-9 for piece in pieces)


def test_a_strip_too_long_for_every_sheet_is_made_if_it_may_lean() -> None:
    """2422 x 20 on 2420: 2422 x cos 3 + 20 x sin 3 = 2419.7 (computed)."""
    (problem,) = panel_problems(job(panel("batten", 2422, 20)))
    assert problem.code == "too-large"
    (piece,) = laid(job(panel("batten", 2422, 20, grain_tolerance=3))).pieces
    assert 0 < off_grain(piece, 0) <= 3


def test_a_strip_that_may_lean_needs_no_joint() -> None:
    """It has a joint rule and would be divided if it had to lie true."""
    assert len(laid(job(panel("batten", 2422, 20, joint="scarf"))).joints) == 1
    assert laid(job(panel("batten", 2422, 20, joint="scarf", grain_tolerance=3))).joints == ()


def test_what_is_too_long_even_leaning_is_refused_with_its_tolerance() -> None:
    """The reason tells by how much it may lean."""
    (problem,) = panel_problems(job(panel("batten", 2440, 20, grain_tolerance=3)))
    assert "grain along within 3 degrees" in problem.reason


def test_a_slanting_piece_is_tried_where_its_box_is_smallest() -> None:
    """Drawn two degrees up it is laid two degrees down, the starboard one two degrees up."""
    assert useful_leans(SLANTING, 4, STOCKS) == (0.0, -2.0)
    assert useful_leans(affinity.scale(SLANTING, yfact=-1), 4, STOCKS) == (0.0, 2.0)


def test_a_lean_that_gains_nothing_is_not_tried() -> None:
    """A plain board lies best as it is, however much it may lean."""
    assert useful_leans(box(0, 0, 2000, 150), 10, STOCKS) == (0.0,)


def test_what_fits_only_leaning_is_not_tried_true() -> None:
    """The least lean at which it fits stands alone."""
    (lean,) = useful_leans(box(0, 0, 2422, 20), 5, STOCKS)
    assert 2 < abs(lean) < 3


@given(st.floats(5, 1300), st.floats(0.1, 20))
def test_the_longest_leaning_rectangle_fits_and_one_longer_does_not(height: float, tolerance: float) -> None:
    """At some lean its box is no larger than the sheet's; a millimetre more and there is none."""
    longest = longest_leaning(2420, 1200, height, tolerance)
    assert longest >= 2420
    leans = leans_within(tolerance)

    def fits(length: float) -> bool:
        boxes = boxes_at(box(0, 0, length, height), leans)
        return bool(np.any(np.all(boxes <= (2420 + 1e-6, 1200 + 1e-6), axis=1)))

    assert height > 1200 or fits(longest)
    assert not fits(longest + 1)


def test_the_longest_leaning_rectangle_by_hand() -> None:
    """A line leans as far as it may: 2420 / cos 3 = 2423.3; a wide board lies true (computed)."""
    assert longest_leaning(2420, 1200, 0, 3) == pytest.approx(2420 / math.cos(math.radians(3)))
    assert longest_leaning(2420, 1200, 300, 3) == 2420


def test_a_piece_free_to_turn_has_no_leans() -> None:
    """With grain of no account its tolerance is without effect."""
    (piece,) = laid(job(panel("knee", 300, 200, grain="any", grain_tolerance=5))).pieces
    assert piece.angle % 90 == 0


def test_the_same_seed_gives_the_same_leaning_plan() -> None:
    """To the last digit, though its angles are no quarter turns."""
    more = {"grain_tolerance": 4, "handed": True, "quantity": 4}
    asked = job(panel("batten", 2422, 20, **more), panel("side", 1, 1, **more) | points(SLANTING))
    one, other = laid(asked), laid(asked)
    assert any(off_grain(piece, 0) > 0 for piece in one.pieces)
    assert one.model_dump_json() == other.model_dump_json()


def test_on_a_blank_a_piece_lies_true_though_it_may_lean() -> None:
    """On a sheet it is tried true and leaning, on a blank true only."""
    side = panel("side", 1, 1, grain_tolerance=4) | points(SLANTING)
    task = tasks_of(job(panel("bottom", 4000, 300, joint="scarf"), side, workshop={"way": "joined"}))[0]
    (kind,) = task.variants[1][0].pieces
    sheet, blank = task.stocks[0], next(stock for stock in task.stocks if stock.blank is not None)
    assert kind.angles_on(sheet) == (0, 180, 358, 178)
    assert kind.angles_on(blank) == (0, 180)
    assert blank.index in kind.stocks


@pytest.mark.parametrize("way", ["divided", "joined", "both"])
def test_a_plan_with_leaning_pieces_passes_its_audit(way: str) -> None:
    """Whichever way panels are joined; ``plan`` raises if its audit finds anything."""
    more = {"grain_tolerance": 4, "handed": True, "quantity": 4}
    long = panel("bottom", 3600, 300, joint="scarf", quantity=2, grain_tolerance=4)
    asked = job(
        long, panel("batten", 2422, 20, **more), panel("side", 1, 1, **more) | points(SLANTING), workshop={"way": way}
    )
    assert len(plan(asked, effort=Effort(Budget(work=1500))).pieces) >= 10
