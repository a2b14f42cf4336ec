"""Where joints can lie, against counting on fingers."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations, pairwise

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from nesting.joints import Reach, least_joints, stations_hold, windows
from tests.strategies import reaches


def _allowed(stations: tuple[float, ...], reach: Reach) -> bool:
    """State the rules once more, plainly: zones, least distances, longest piece."""
    half = reach.lap / 2
    clear = all(_clear(station, reach) for station in stations)
    marks = (reach.start, *stations, reach.end)
    apart = not stations or all(
        after - before >= max(reach.least_piece, reach.lap, reach.strap) for before, after in pairwise(marks)
    )
    begins = (reach.start, *(s - half for s in stations))
    ends = (*(s + half for s in stations), reach.end)
    return clear and apart and all(end - begin <= reach.usable for begin, end in zip(begins, ends, strict=True))


def _every(reach: Reach, count: int) -> Iterator[tuple[int, ...]]:
    """Yield every valid division at whole stations."""
    whole = range(int(reach.start), int(reach.end) + 1)
    return (stations for stations in combinations(whole, count) if _allowed(stations, reach))


def _least_by_search(reach: Reach) -> int | None:
    """Breadth first over whole stations."""
    half, spacing = reach.lap / 2, max(reach.least_piece, reach.lap, reach.strap)
    if reach.end - reach.start <= reach.usable:
        return 0
    whole = [s for s in range(int(reach.start), int(reach.end) + 1) if _clear(s, reach)]
    front = {s for s in whole if s - reach.start >= spacing and s + half - reach.start <= reach.usable}
    for count in range(1, 40):
        if any(reach.end - s >= spacing and reach.end - s + half <= reach.usable for s in front):
            return count
        front = {s for s in whole for f in front if s - f >= spacing and s - f + reach.lap <= reach.usable}
    return None


def _clear(station: float, reach: Reach) -> bool:
    half = (reach.lap or reach.strap) / 2
    return all(station + half <= a or station - half >= b for a, b in reach.zones)


@given(reaches(longest=70))
@example(Reach(start=0, end=12, lap=4, usable=7, least_piece=1))
def test_the_least_number_of_joints_is_that_of_a_search_over_all_stations(reach: Reach) -> None:
    """With whole figures and an even lap every window ends on whole stations, so those suffice."""
    assert least_joints(reach) == _least_by_search(reach)


def test_stock_too_short_for_a_middle_piece_allows_one_joint_at_most() -> None:
    """A middle piece spans at most 7 - 4 = 3 from joint to joint, yet they must keep 4 apart; one joint is too few."""
    reach = Reach(start=0, end=12, lap=4, usable=7, least_piece=1)
    assert least_joints(reach) is None
    assert windows(reach, 2) == ()


@given(reaches(longest=26), st.integers(1, 3))
def test_windows_hold_exactly_the_stations_of_all_divisions(reach: Reach, count: int) -> None:
    """Against every combination of whole stations."""
    divisions = list(_every(reach, count))
    found = windows(reach, count)
    assert bool(found) is bool(divisions)
    for index, stretches in enumerate(found):
        whole = {s for a, b in stretches for s in range(int(reach.start), int(reach.end) + 1) if a <= s <= b}
        assert whole == {stations[index] for stations in divisions}
        assert all(a <= b for a, b in stretches)
        assert all(before[1] < after[0] for before, after in pairwise(stretches))


@given(reaches(longest=40), st.lists(st.integers(-10, 50), max_size=4, unique=True))
def test_stations_hold_when_all_rules_do(reach: Reach, stations: list[int]) -> None:
    """Against the rules stated once more."""
    rising = tuple(sorted(stations))
    assert stations_hold(rising, reach) is _allowed(rising, reach)


@given(reaches(longest=200))
def test_from_the_other_end_the_same_joints_are_possible(reach: Reach) -> None:
    """Stations counted from the other end change nothing but their figures."""
    mirrored, flip = reach.mirrored(), reach.start + reach.end
    least = least_joints(reach)
    assert mirrored.mirrored() == reach
    assert least_joints(mirrored) == least
    from_there = windows(mirrored, least or 0)
    turned = tuple(tuple((flip - b, flip - a) for a, b in reversed(stretches)) for stretches in reversed(from_there))
    assert turned == windows(reach, least or 0)


@given(reaches(longest=200), st.integers(1, 40))
def test_easier_rules_never_ask_for_more_joints(reach: Reach, by: int) -> None:
    """Longer stock, a shorter lap or strap, shorter pieces, smaller or fewer zones."""
    easier = [
        replace(reach, usable=reach.usable + by),
        replace(reach, lap=max(0, reach.lap - 2 * by)),
        replace(reach, strap=max(0, reach.strap - 2 * by)),
        replace(reach, least_piece=max(1, reach.least_piece - by)),
        replace(reach, zones=tuple((a + min(by, b - a), b) for a, b in reach.zones)),
        replace(reach, zones=reach.zones[1:]),
    ]
    least = least_joints(reach)
    if least is not None:
        assert all((more := least_joints(rule)) is not None and more <= least for rule in easier)


@given(reaches(longest=200), st.floats(0.5, 30))
def test_a_window_for_one_joint_ends_where_the_rules_do(reach: Reach, scale: float) -> None:
    """With figures that are no whole numbers: the ends of each stretch hold, a hundredth further out nothing does."""
    scaled = Reach(
        start=reach.start * scale,
        end=reach.end * scale,
        lap=reach.lap * scale,
        strap=reach.strap * scale,
        usable=reach.usable * scale,
        least_piece=reach.least_piece * scale,
        zones=tuple((a * scale, b * scale) for a, b in reach.zones),
    )
    for start, end in (stretch for stretches in windows(scaled, 1) for stretch in stretches):
        assert stations_hold([start], scaled)
        assert stations_hold([end], scaled)
        assert not stations_hold([start - 0.01], scaled)
        assert not stations_hold([end + 0.01], scaled)


def test_4900_from_two_sheets_of_2420_takes_two_joints() -> None:
    """Computed: lap 32, 2 x 2420 - 32 = 4808 falls short; with 2480 it is 4928, the joint between 2436 and 2464."""
    short = Reach(start=0, end=4900, lap=32, usable=2420, least_piece=300)
    enough = replace(short, usable=2480)
    assert least_joints(short) == 2
    assert windows(short, 1) == ()
    assert least_joints(enough) == 1
    assert windows(enough, 1) == (((2436, 2464),),)


def test_a_zone_amidships_forbids_one_joint_but_not_two() -> None:
    """Computed: 3900 long, usable 2414, lap 48; window 1510 to 2390, zone 1400 to 2420 forbids 1376 to 2444."""
    free = Reach(start=0, end=3900, lap=48, usable=2414, least_piece=1000)
    zoned = replace(free, zones=((1400, 2420),))
    assert windows(free, 1) == (((1510, 2390),),)
    assert windows(zoned, 1) == ()
    assert least_joints(zoned) == 2
    assert stations_hold([1376, 2444], zoned)
    assert windows(zoned, 2)[0][-1][1] == 1376
    assert windows(zoned, 2)[1][0][0] == 2444


@pytest.mark.parametrize(
    ("zone", "least"), [((1534, 2420), 1), ((1533, 2420), 2), ((1400, 2366), 1), ((1400, 2367), 2)]
)
def test_how_far_the_zone_must_give_way_for_one_joint(zone: tuple[float, float], least: int) -> None:
    """Computed: one joint again if the zone starts at 1534 or later, or ends at 2366 or earlier."""
    reach = Reach(start=0, end=3900, lap=48, usable=2414, least_piece=1000, zones=(zone,))
    assert least_joints(reach) == least


def test_a_lap_may_touch_a_zone_but_not_enter_it() -> None:
    """The whole band is tested, not its middle."""
    reach = Reach(start=0, end=1000, lap=48, usable=900, least_piece=100, zones=((400, 600),))
    assert stations_hold([376], reach)
    assert stations_hold([624], reach)
    assert not stations_hold([376.001], reach)
    assert not stations_hold([623.999], reach)


def test_no_joint_where_the_stock_is_long_enough() -> None:
    """A member shorter than the least piece is still fine in one piece, zone or not."""
    reach = Reach(start=0, end=200, lap=48, usable=200, least_piece=300, zones=((0, 200),))
    assert least_joints(reach) == 0
    assert windows(reach, 0) == ()
    assert stations_hold([], reach)


def test_no_number_of_joints_helps_where_a_zone_is_longer_than_the_stock() -> None:
    """A piece would have to span the zone."""
    reach = Reach(start=0, end=6000, lap=48, usable=2400, least_piece=300, zones=((1500, 4000),))
    assert least_joints(reach) is None
    assert all(windows(reach, count) == () for count in range(1, 6))


def test_laps_keep_apart_even_where_pieces_may_be_short() -> None:
    """The least distance between stations is never below a lap."""
    reach = Reach(start=0, end=1000, lap=48, usable=600, least_piece=10)
    assert reach.spacing == 48
    assert not stations_hold([500, 540], reach)
    assert stations_hold([500, 548], reach)


def test_39_joints_are_still_found() -> None:
    """A chain of forty pieces; beyond that something else is wrong."""
    assert least_joints(Reach(start=0, end=4000, lap=0, usable=100, least_piece=1)) == 39


def test_a_butt_keeps_half_its_strap_off_a_zone_and_takes_nothing_of_the_length() -> None:
    """Computed: 4000 from 2420, strap 90: a joint from 1580 to 2420, less the zone 2000 to 2200 with 45 either side."""
    reach = Reach(start=0, end=4000, lap=0, strap=90, usable=2420, least_piece=300, zones=((2000, 2200),))
    assert windows(reach, 1) == (((1580, 1955), (2245, 2420)),)
    assert least_joints(replace(reach, end=4840, zones=())) == 1
    assert least_joints(replace(reach, end=4840, zones=(), lap=48, strap=0)) == 2


def test_straps_longer_than_the_least_piece_keep_apart() -> None:
    """Two straps of 200 would overlap if their butts stood 150 apart."""
    reach = Reach(start=0, end=1000, lap=0, strap=200, usable=600, least_piece=100)
    assert not stations_hold([400, 550], reach)
    assert stations_hold([400, 600], reach)
