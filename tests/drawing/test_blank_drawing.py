"""The drawing of one blank."""

from decimal import Decimal

import pytest
from good_blank_plan import blank_plan, rectangle, with_blank
from svg_reading import NAMESPACE, group_of, lines_of, named, points_of, root_of, words_of

from nesting.drawing import bevels, containers, crossings, draw_blank, joint_ends, reach, trimmed_size, visible_line
from nesting.model import BlankScarf, Member, UsedSheet

PLAN = blank_plan()
BLANK = PLAN.blanks[0]
B1 = root_of(draw_blank(PLAN, "B1"))

#: The one scarf: middle at 2398, lap 44.
LINE_ON_BACK, MIDDLE, LINE_ON_GOOD_FACE = 2376, 2398, 2420


def xs_of(group, kind):
    """Return the x of every line of a kind: of one across the blank all its points have the same."""
    return {round(x, 2) for run in lines_of(group, kind) for x, _ in run}


def test_a_blank_and_every_piece_on_it_are_drawn_where_they_lie():
    """Outlines read back from the drawing agree with the plan within a hundredth of a millimetre."""
    for thing in (BLANK, *PLAN.pieces):
        (ring,) = points_of(named(B1, thing.id))
        assert [value for point in ring for value in point] == pytest.approx(
            [value for point in thing.outline for value in point], abs=0.01
        )


def test_a_scarf_runs_across_the_blank_with_its_glue_lines():
    """The left sheet is bevelled on its back, so on the good face the line shows at the right end of the lap."""
    scarf = group_of(B1, "scarf", "B1/F1")
    assert xs_of(scarf, "feather") == {LINE_ON_GOOD_FACE}
    assert xs_of(scarf, "hidden") == {LINE_ON_BACK}
    assert xs_of(scarf, "station") == {MIDDLE}
    assert {y for run in lines_of(scarf, "feather") for _, y in run} == {0, 1200}
    hatch = xs_of(scarf, "hatch")
    assert LINE_ON_BACK - 0.02 <= min(hatch) < max(hatch) <= LINE_ON_GOOD_FACE + 0.02


@pytest.mark.parametrize(("code", "joint"), [("A1", "J1"), ("A2", "J2"), ("C1", "J3")])
def test_a_piece_across_a_scarf_shows_it_as_its_own_joint(code, joint):
    """The lines are drawn again on the piece, and the joint's code stands beside them."""
    piece = group_of(B1, "piece", code)
    assert xs_of(piece, "feather") == {LINE_ON_GOOD_FACE}
    assert any(words.split()[0] == joint for words in words_of(piece))


def test_a_piece_beside_the_scarf_shows_none():
    """The floor ends at 1001, far from the scarf."""
    assert lines_of(group_of(B1, "piece", "D1"), "feather") == []


def test_labels_keep_off_the_scarf():
    """No code of a piece is written across the lap."""
    for code in ("A1", "A2", "C1"):
        piece = group_of(B1, "piece", code)
        (at,) = [float(text.get("x")) for text in piece.iter(f"{NAMESPACE}text") if text.text.split()[0] == code]
        assert not LINE_ON_BACK <= at <= LINE_ON_GOOD_FACE


def test_the_sheets_of_a_blank_are_named_with_their_lengths_and_bevels():
    """Trimmed 2420 and 2480 long; of the scarf the left is bevelled on its back, the right on its good face."""
    words = words_of(group_of_members(B1))
    assert "S1 (short): 2420, right bevel on back" in words
    assert "S2 (long): 2480, left bevel on good face" in words
    assert "B1/F1: middle 2398, line on good face 2420" in words


def group_of_members(root):
    """Return the group that names the sheets."""
    return next(group for group in root.iter(f"{NAMESPACE}g") if group.get("class") == "members")


def test_the_finished_size_and_the_diagonal_are_stated():
    """4856 x 1200, whose diagonal is sqrt(4856^2 + 1200^2) = 5002.08 (Pythagoras)."""
    words = words_of(B1)
    assert {"4856", "1200", "Blank B1; 4856 × 1200; diagonal 5002.1", "500 mm; 1:20 at 100 %"} <= {*words}
    assert "keep 3851 × 335" in words


def test_the_drawing_says_in_words_what_it_shows():
    """Title and description name the sheets, the scarfs and the pieces for who can't see it."""
    assert B1.find(f"{NAMESPACE}title").text == "Blank B1: S1 + S2"
    description = B1.find(f"{NAMESPACE}desc").text
    assert "Scarfs from the left: B1/F1 at 2398" in description
    assert description.endswith("Pieces from the bottom up: A1, A2, C1, D1.")


def test_members_reach_from_lap_to_lap():
    """Usable ends overlap by exactly one lap of 44."""
    assert [reach(member) for member in BLANK.members] == [(0, 2420), (2376, 4856)]
    assert [trimmed_size(member) for member in BLANK.members] == [(2420, 1200), (2480, 1200)]
    assert [bevels(BLANK, number) for number in (0, 1)] == [("", "back"), ("good face", "")]


def test_the_middle_sheet_of_three_has_two_bevels_on_two_faces():
    """Its left end is bevelled on the good face and its right end on the back."""
    three = BLANK.model_copy(update={"members": (*BLANK.members, BLANK.members[1])})
    assert bevels(three, 1) == ("good face", "back")


def test_a_sheet_turned_end_for_end_reaches_as_far():
    """A member at half a turn about the origin lies where its own placement says."""
    turned = Member(used="S1", outline=rectangle(10, 10, 2430, 1210), x=2430, y=1210, angle=180)
    assert reach(turned) == pytest.approx((0, 2420))


def test_a_short_blank_of_many_sheets_is_named_in_few_words():
    """Where there is no room for a sentence above a scarf, its code stands alone."""
    scarfs = tuple(
        BlankScarf(id=f"B1/F{n}", at=300 + n * 150, lap=44, slope=8, thickness=5.5, width=1200, cost=Decimal(0))
        for n in range(1, 4)
    )
    words = words_of(group_of_members(root_of(draw_blank(with_blank(PLAN, scarfs=scarfs), "B1"))))
    assert {"B1/F1", "B1/F2", "B1/F3"} & {*words}


def test_sheets_within_a_blank_are_no_containers_of_their_own():
    """Blanks come first, then the sheets that are in none."""
    assert [on.id for on in containers(PLAN)] == ["B1"]
    other = UsedSheet(id="S3", stock="short", source="buy", outline=rectangle(0, 0, 2440, 1220), trim=10.0)
    assert [on.id for on in containers(PLAN.model_copy(update={"used": (*PLAN.used, other)}))] == ["B1", "S3"]


def test_a_joint_at_a_scarf_of_a_blank_is_no_end():
    """Its piece runs across: no end of it is bevelled."""
    assert set(joint_ends(PLAN).values()) == {()}
    assert [crossing.code for crossing in crossings(PLAN)["side-2-1"]] == ["J2"]


@pytest.mark.parametrize(("index", "line"), [(0, 2319), (1, 2275), (2, 2020)])
def test_the_line_on_the_good_face_is_that_of_the_blank(index, line):
    """2420 along the blank is 2420 - 101 on the port side, 4695 - 2420 on the one turned round, 2420 - 400."""
    assert visible_line(PLAN.joints[index], PLAN.pieces[index]) == line


def test_the_same_plan_gives_the_same_drawing_of_a_blank():
    """Two drawings of two equal plans are equal."""
    assert draw_blank(blank_plan(), "B1") == draw_blank(PLAN, "B1")


def test_a_blank_that_is_not_made_is_refused_by_name():
    """Asking for a blank that the plan lacks says which."""
    with pytest.raises(ValueError, match="no blank B9"):
        draw_blank(PLAN, "B9")
