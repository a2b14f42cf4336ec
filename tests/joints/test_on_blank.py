"""Where a panel may lie along a blank, by hand and against trying every place."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from nesting.joints import Reach, blank_scarfs, joined_length, offsets_on_blank, stations_hold, stations_on_blank


def whole_reach(length: int, *, zones: tuple[tuple[int, int], ...] = (), least_piece: int = 300) -> Reach:
    """Return a panel with a lap of 48 that any sheet could give in one piece."""
    return Reach(start=0, end=length, lap=48, usable=1e6, least_piece=least_piece, zones=zones)


def test_three_sheets_make_a_blank_of_known_length_and_lines() -> None:
    """Three of 2440 trimmed by 10 a side, 6 mm at 8 to 1: 7164 long, lines at 2396 and 4768 (worked by hand)."""
    assert joined_length([2420, 2420, 2420], 48) == 7164
    assert blank_scarfs([2420, 2420, 2420], 48) == (2396, 4768)


def test_a_panel_at_the_end_of_the_blank_has_its_joint_at_the_line() -> None:
    """Line 2396: a panel laid at 0 is joined at 2396, its neighbour laid at 300 at 2096 (worked by hand)."""
    reach = whole_reach(4400)
    assert stations_on_blank(reach, (2396,), 0) == (2396,)
    assert stations_on_blank(reach, (2396,), 300) == (2096,)


def test_a_panel_turned_end_for_end_counts_from_the_other_end() -> None:
    """4700 long, turned, at 0: station 4700 - 2396 = 2304 from its own datum (worked by hand)."""
    (station,) = stations_on_blank(whole_reach(4700).mirrored(), (2396,), 0)
    assert 4700 - station == 2304


def test_a_zone_amidships_can_leave_no_place() -> None:
    """Two sheets of 2480 and a panel of 4900: the only 12 mm of play keep the joint where it may not lie."""
    length = joined_length([2480, 2480], 48)
    scarfs = blank_scarfs([2480, 2480], 48)
    assert offsets_on_blank(whole_reach(4900, zones=((2300, 2600),)), scarfs, length) == ()
    assert offsets_on_blank(whole_reach(4900), scarfs, length) == ((0, 12),)


def test_a_panel_longer_than_the_blank_has_no_place() -> None:
    """By a millimetre."""
    assert offsets_on_blank(whole_reach(4793), (2396,), 4792) == ()


@given(
    length=st.integers(100, 900),
    zones=st.lists(st.tuples(st.integers(0, 800), st.integers(1, 200)), max_size=2),
    sheets=st.lists(st.integers(200, 500), min_size=2, max_size=3),
    least_piece=st.integers(48, 200),
)
def test_every_whole_place_is_found_and_no_other(
    length: int, zones: list[tuple[int, int]], sheets: list[int], least_piece: int
) -> None:
    """A place is good if each scarf is clear of the panel or within it by the rules, tried millimetre by millimetre."""
    lap = 48
    blank = joined_length(sheets, lap)
    assume(blank >= length)
    scarfs = blank_scarfs(sheets, lap)
    reach = whole_reach(length, zones=tuple((a, a + b) for a, b in zones), least_piece=least_piece)
    found = offsets_on_blank(reach, scarfs, blank)

    def good(offset: int) -> bool:
        stations = [x - offset for x in scarfs]
        inside = [s for s in stations if -lap / 2 < s < length + lap / 2]
        clear = all(s + lap / 2 <= a or s - lap / 2 >= b for s in inside for a, b in reach.zones)
        return clear and all(reach.spacing <= s <= length - reach.spacing for s in inside)

    for offset in range(int(blank - length) + 1):
        assert any(a <= offset <= b for a, b in found) == good(offset)


@given(st.integers(2500, 4700), st.integers(0, 4))
def test_at_every_place_found_the_stations_keep_the_rules_of_a_divided_panel(length: int, quarter: int) -> None:
    """What a divided panel must keep, a panel across scarfs keeps too, least distances between joints apart."""
    reach = whole_reach(length, zones=((1000, 1200),))
    for low, high in offsets_on_blank(reach, (2396,), 4792):
        stations = stations_on_blank(reach, (2396,), low + (high - low) * quarter / 4)
        assert stations_hold(stations, reach)


def test_a_blank_of_one_sheet_has_no_line() -> None:
    """Nothing is joined."""
    assert blank_scarfs([2420], 48) == ()
    assert joined_length([2420], 48) == pytest.approx(2420)
