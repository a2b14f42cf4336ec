"""The drawing of timber."""

import pytest
from sample_plan import sample_plan
from svg_reading import NAMESPACE, group_of, lines_of, named, points_of, root_of, words_of

from nesting.drawing import draw_lengths, piece_codes
from nesting.model import StripPiece

PLAN = sample_plan()
LENGTHS = ("L1", "L2", "L3", "L4")
STRIPS = [piece for piece in PLAN.pieces if isinstance(piece, StripPiece)]


def test_every_piece_is_drawn_from_cut_to_cut():
    """On the drawing x is the distance from the length's left end."""
    root = root_of(draw_lengths(PLAN, LENGTHS))
    for piece in STRIPS:
        (ring,) = points_of(named(root, piece.id))
        assert {x for x, _ in ring} == {piece.start, piece.end}


def test_every_piece_bears_its_code_and_every_cut_its_running_distance():
    """Codes come first in a piece's words; figures below the bar tell where to cut."""
    codes = piece_codes(PLAN)
    words = words_of(root_of(draw_lengths(PLAN, LENGTHS)))
    for piece in STRIPS:
        assert any(said.startswith(f"{codes[piece.id]} ") for said in words)
        assert f"{piece.end:g}" in words
    assert {"keep 1357", "rest 597"} <= set(words)


@pytest.mark.parametrize(("code", "feather", "heel", "kind"), [("D1", 3000, 2760, "hidden"), ("D2", 0, 240, "bevel")])
def test_the_laps_of_a_strip_lie_at_its_joined_end(code, feather, heel, kind):
    """The low piece ends in its lap, bevelled underneath; the other begins with it, bevelled on top."""
    piece = group_of(root_of(draw_lengths(PLAN, LENGTHS)), "piece", code)
    assert {x for run in lines_of(piece, "feather") for x, _ in run} == {feather}
    assert {x for run in lines_of(piece, kind) for x, _ in run} == {heel}


def test_a_bevel_through_the_width_is_drawn_as_the_slanting_line_it_is_sawn_along():
    """The first piece keeps its upper edge up to its end, the other its lower edge: so the bevels fit together."""
    across = tuple(joint.model_copy(update={"across": "width"}) for joint in PLAN.joints)
    root = root_of(draw_lengths(PLAN.model_copy(update={"joints": across}), LENGTHS))
    for code, left, right in (("D1", 2760, 3000), ("D2", 0, 240)):
        piece = group_of(root, "piece", code)
        (line,) = [run for run in lines_of(piece, "cut") if len(run) == 2]
        (low, bottom), (high, top) = sorted(line)
        assert (low, high) == (left, right)
        assert bottom != top
        assert not lines_of(piece, "feather")


def test_some_lengths_are_drawn_without_the_others():
    """A page may show a few bars at a time."""
    root = root_of(draw_lengths(PLAN, ["L2"]))
    names = {path.get("data-name") for path in root.iter(f"{NAMESPACE}path")} - {None}
    assert names == {"L2", "gunwale-1-2"}


def test_the_same_plan_gives_the_same_timber_drawing():
    """Two drawings of two equal plans are equal."""
    assert draw_lengths(sample_plan(), LENGTHS) == draw_lengths(sample_plan(), LENGTHS)
