"""Panels divided into pieces that carry their laps."""

from itertools import pairwise

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import affinity, unary_union
from shapely.geometry import Polygon, box

from nesting.joints import DividingError, between, divide, has_sound_band, joined_length, straps_behind
from tests.strategies import panel_polygons, star_polygons, tenths


@st.composite
def divided(draw: st.DrawFn) -> tuple[Polygon, list[float], float]:
    """Return a panel, stations whose laps keep apart, and the lap."""
    panel = draw(panel_polygons())
    lap = draw(tenths(1, 50))
    length = panel.bounds[2]
    most = int(length // (2 * lap)) - 1
    assume(most >= 1)
    count = draw(st.integers(1, min(3, most)))
    gaps = [draw(st.floats(0.05, 1)) for _ in range(count + 1)]
    free = length - (count + 1) * lap
    stations, reached = [], 0.0
    for gap in gaps[:-1]:
        reached += lap + free * gap / sum(gaps)
        stations.append(reached)
    return panel, stations, lap


def test_a_rectangle_in_two_with_one_lap() -> None:
    """Computed: 4000 x 300 at 2000 with lap 48 makes two of 2024 x 300 = 607 200 mm2, the band 14 400."""
    panel = box(0, 0, 4000, 300)
    pieces = divide(panel, [2000], 48)
    assert [piece.bounds for piece in pieces] == [(0, 0, 2024, 300), (1976, 0, 4000, 300)]
    assert [piece.area for piece in pieces] == [607_200, 607_200]
    assert sum(piece.area for piece in pieces) - between(panel, 1976, 2024).area == 1_200_000
    # Each bevel takes half of its band: 6 x (607 200 - 7 200) a piece, together the volume of the panel, 6 mm thick.
    assert sum(6 * (piece.area - 14_400 / 2) for piece in pieces) == 6 * panel.area


@given(divided())
def test_pieces_less_bands_have_the_panels_area(case: tuple[Polygon, list[float], float]) -> None:
    """The second layer within the laps is all that is added."""
    panel, stations, lap = case
    bands = sum(between(panel, station - lap / 2, station + lap / 2).area for station in stations)
    assert sum(piece.area for piece in divide(panel, stations, lap)) - bands == pytest.approx(panel.area, rel=1e-12)


@given(divided())
def test_pieces_together_are_the_panel(case: tuple[Polygon, list[float], float]) -> None:
    """Nothing is lost and nothing sticks out; every piece is one sound region, anticlockwise."""
    panel, stations, lap = case
    pieces = divide(panel, stations, lap)
    assert len(pieces) == len(stations) + 1
    assert unary_union(pieces).symmetric_difference(panel).area == pytest.approx(0, abs=1e-6)
    assert all(piece.is_valid and piece.exterior.is_ccw for piece in pieces)


@given(divided())
def test_each_band_lies_on_both_its_pieces(case: tuple[Polygon, list[float], float]) -> None:
    """A scarf has its full lap on either side."""
    panel, stations, lap = case
    for station, (before, after) in zip(stations, pairwise(divide(panel, stations, lap)), strict=True):
        band = between(panel, station - lap / 2, station + lap / 2)
        assert before.intersection(band).area == pytest.approx(band.area, rel=1e-9)
        assert after.intersection(band).area == pytest.approx(band.area, rel=1e-9)


@given(divided())
def test_joined_again_the_pieces_have_the_panels_length(case: tuple[Polygon, list[float], float]) -> None:
    """Lengths less one lap a joint; pieces stand in order from the low stations up."""
    panel, stations, lap = case
    pieces = divide(panel, stations, lap)
    lengths = [piece.bounds[2] - piece.bounds[0] for piece in pieces]
    assert joined_length(lengths, lap) == pytest.approx(panel.bounds[2] - panel.bounds[0], abs=1e-6)
    assert [piece.bounds[0] for piece in pieces] == sorted(piece.bounds[0] for piece in pieces)


@given(divided())
def test_the_mirrored_panel_divides_into_mirrored_pieces(case: tuple[Polygon, list[float], float]) -> None:
    """Port and starboard have their joints at the same stations."""
    panel, stations, lap = case
    port = divide(panel, stations, lap)
    starboard = divide(affinity.scale(panel, 1, -1, origin=(0, 0)), stations, lap)
    assert [piece.area for piece in starboard] == pytest.approx([piece.area for piece in port])


@given(divided())
def test_glued_again_the_pieces_have_the_panels_thickness_and_volume(
    case: tuple[Polygon, list[float], float],
) -> None:
    """Across each lap the low piece runs out from its full thickness as the high one grows: together always full.

    A bevel takes off the low piece t x u at the share u of the lap, and off the high one t x (1 - u): over the band
    that is its area by the share at which its middle lies, whatever its shape.
    """
    panel, stations, lap = case
    thickness = 6.0
    pieces = divide(panel, stations, lap)
    volume = thickness * sum(piece.area for piece in pieces)
    for station, low, high in zip(stations, pieces, pieces[1:], strict=False):
        band = between(panel, station - lap / 2, station + lap / 2)
        share = (band.centroid.x - (station - lap / 2)) / lap
        off_low, off_high = (
            thickness * side.intersection(band).area * part for side, part in ((low, share), (high, 1 - share))
        )
        volume -= off_low + off_high
    assert volume == pytest.approx(thickness * panel.area, rel=1e-9)


def test_no_station_leaves_the_panel_whole() -> None:
    """A panel in one piece is its own piece."""
    panel = box(0, 0, 900, 300)
    assert [piece.equals(panel) for piece in divide(panel, [], 48)] == [True]


@given(star_polygons(), st.floats(-200, 200), tenths(1, 60))
def test_dividing_is_refused_exactly_where_the_band_is_unsound(panel: Polygon, station: float, lap: float) -> None:
    """Whatever the shape: either pieces that make up the panel, or a refusal."""
    try:
        pieces = divide(panel, [station], lap)
    except DividingError:
        return
    assert has_sound_band(panel, station, lap)
    assert unary_union(pieces).symmetric_difference(panel).area == pytest.approx(0, abs=1e-6)


def test_a_lap_across_two_legs_or_a_hole_is_refused_with_its_station() -> None:
    """It could not be planed or glued as one."""
    legs = Polygon([(0, 0), (1000, 0), (1000, 100), (300, 100), (300, 200), (1000, 200), (1000, 300), (0, 300)])
    holed = box(0, 0, 1000, 300).difference(box(480, 100, 520, 200))
    for panel in (legs, holed):
        assert not has_sound_band(panel, 500, 48)
        with pytest.raises(DividingError, match="station 500"):
            divide(panel, [500], 48)
    assert has_sound_band(holed, 200, 48)


def test_a_station_off_the_panel_is_refused() -> None:
    """There is no wood to joint."""
    assert not has_sound_band(box(0, 0, 1000, 300), 2000, 48)
    with pytest.raises(DividingError):
        divide(box(0, 0, 1000, 300), [2000], 48)


def test_a_lap_that_just_touches_a_step_is_sound() -> None:
    """The lap from 400 to 448 is a plain rectangle; only the step's edge lies along its end."""
    stepped = Polygon([(0, 0), (1000, 0), (1000, 200), (400, 200), (400, 300), (0, 300)])
    assert has_sound_band(stepped, 424, 48)
    assert [piece.area for piece in divide(stepped, [424], 48)] == pytest.approx([400 * 300 + 48 * 200, 600 * 200])


def test_a_rectangle_in_two_with_a_butt() -> None:
    """Computed: 4000 x 300 at 1500 makes 1500 x 300 and 2500 x 300, which meet; the strap of 90 lies from 1455."""
    panel = box(0, 0, 4000, 300)
    assert [piece.bounds for piece in divide(panel, [1500], 0, 90)] == [(0, 0, 1500, 300), (1500, 0, 4000, 300)]
    assert [strap.bounds for strap in straps_behind(panel, [1500], 90)] == [(1455, 0, 1545, 300)]


@given(divided())
def test_butted_pieces_have_the_panels_area_and_each_strap_spans_its_joint(
    case: tuple[Polygon, list[float], float],
) -> None:
    """Nothing overlaps; a strap lies on both its pieces alike, and follows the panel's edges."""
    panel, stations, strap = case
    pieces, straps = divide(panel, stations, 0, strap), straps_behind(panel, stations, strap)
    assert sum(piece.area for piece in pieces) == pytest.approx(panel.area, rel=1e-12)
    assert len(straps) == len(stations)
    for behind, station, (before, after) in zip(straps, stations, pairwise(pieces), strict=True):
        assert before.bounds[2] == after.bounds[0] == station
        assert behind.bounds[0::2] == pytest.approx((station - strap / 2, station + strap / 2))
        assert before.intersection(behind).area + after.intersection(behind).area == pytest.approx(behind.area)
        assert between(panel, station - strap / 2, station + strap / 2).symmetric_difference(behind).area < 1e-6


def test_a_strap_over_a_hole_is_refused_though_the_butt_itself_is_clear_of_it() -> None:
    """The hole lies 20 to 40 from the butt, and the strap reaches 45."""
    holed = box(0, 0, 1000, 300).difference(box(520, 100, 540, 200))
    for cut in (lambda: divide(holed, [500], 0, 90), lambda: straps_behind(holed, [500], 90)):
        with pytest.raises(DividingError, match="station 500"):
            cut()
    assert len(divide(holed, [470], 0, 90)) == 2
