"""The drawing of butts, their straps, and a piece that leans off the grain."""

import pytest
from good_butt_plan import butt_plan
from svg_reading import NAMESPACE, group_of, lines_of, named, points_of, root_of, words_of

from nesting.drawing import draw_sheet, joint_ends, own_size, piece_codes

PLAN = butt_plan()
S1, S2 = (root_of(draw_sheet(PLAN, used_id)) for used_id in ("S1", "S2"))
PORT, STARBOARD = "side-1/J1/strap", "side-2/J1/strap"


def test_a_strap_is_named_after_its_butt():
    """The codes of pieces are those that they would have without straps."""
    codes = piece_codes(PLAN)
    assert (codes[PORT], codes[STARBOARD]) == ("J1 strap", "J2 strap")
    assert [codes[f"side-{copy}-{index}"] for copy in (1, 2) for index in (1, 2)] == ["A1", "A2", "A3", "A4"]


@pytest.mark.parametrize(("root", "strap"), [(S1, PORT), (S2, STARBOARD)])
def test_a_strap_is_drawn_where_it_lies_and_bears_its_code(root, strap):
    """Its outline is the plan's; its code stands in it and in the list below."""
    piece = next(piece for piece in PLAN.pieces if piece.id == strap)
    (ring,) = points_of(named(root, strap))
    assert [value for point in ring for value in point] == pytest.approx(
        [value for point in piece.outline for value in point], abs=0.01
    )
    assert words_of(root).count(piece_codes(PLAN)[strap]) == 2
    assert "strap" in words_of(root)


def test_the_label_of_a_strap_runs_along_it():
    """A strap 90 long and 260 across its panel has its words turned by a quarter turn."""
    strap = group_of(S1, "piece", "J1 strap")
    assert all("rotate(-90 " in text.get("transform", "") for text in strap.iter(f"{NAMESPACE}text"))


@pytest.mark.parametrize(("code", "edge"), [("A1", 1765), ("A2", 55), ("A3", 55), ("A4", 1165)])
def test_the_end_at_a_butt_shows_how_far_the_strap_reaches(code, edge):
    """A dashed line 45 from the end: 1810 - 45, 10 + 45, and at the other end of pieces turned round, 1210 - 45."""
    piece = group_of(S1, "piece", code)
    (run,) = lines_of(piece, "hidden")
    assert [x for x, _ in run] == pytest.approx([edge, edge], abs=0.02)
    assert lines_of(piece, "feather") == lines_of(piece, "hatch") == []
    assert any(words.startswith(("J1 at 1800", "J2 at 1800")) for words in words_of(piece))


def test_the_key_tells_of_straps_and_not_of_bevels():
    """No line on this sheet is the edge of a bevel."""
    words = words_of(S1)
    assert "strap behind reaches to here" in words
    assert "thin edge of bevel" not in words


def test_a_butt_ends_square_at_its_station():
    """Without a lap both pieces end where they meet, and the strap reaches 45 into each."""
    (low,), (high,) = joint_ends(PLAN)["side-1-1"], joint_ends(PLAN)["side-1-2"]
    assert (low.feather, low.heel) == (1800, 1755)
    assert (high.feather, high.heel) == (1800, 1845)


def test_a_piece_that_leans_off_the_grain_keeps_its_own_size():
    """The frame is 300 x 100 however it is turned, and is drawn at its three degrees."""
    frame = next(piece for piece in PLAN.pieces if piece.id == "frame-1-1")
    assert own_size(frame) == pytest.approx((300, 100))
    assert any("rotate(-3 " in text.get("transform", "") for text in S2.iter(f"{NAMESPACE}text"))
