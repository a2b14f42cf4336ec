"""The geometry of one scarf against published and hand-computed values."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from nesting.joints import bevel_angle, bevel_face, glue_area, joined_length, lap


@pytest.mark.parametrize(
    ("slope", "thickness", "expected"),
    [
        (8, 6, 48),  # trade guidance: 6 mm takes 48
        (8, 12, 96),  # trade guidance: 12 mm takes 96
        (8, 25, 200),  # "The Gougeon Brothers on Boat Construction", p. 107: plank at 8:1
        (10, 3, 30),  # common practice
        (8, 3.6, 28.8),  # merchant's batch report: "4 mm" measured 3.6, so 28.8 and not 32
    ],
)
def test_the_lap_is_slope_times_thickness(slope: float, thickness: float, expected: float) -> None:
    """Values of the trade."""
    assert lap(slope, thickness) == pytest.approx(expected, abs=1e-12)


@pytest.mark.parametrize(
    ("slope", "degrees"),
    [(4, 14.036), (7, 8.130), (8, 7.125), (10, 5.711), (12, 4.764)],  # computed: atan(1 / slope)
)
def test_the_bevel_angle_follows_from_the_slope(slope: float, degrees: float) -> None:
    """The angle at which the plane meets the face."""
    assert bevel_angle(slope) == pytest.approx(degrees, abs=0.0005)


def test_the_bevel_of_6_mm_at_8_to_1() -> None:
    """Computed: lap 48, bevel 6 x sqrt(65) = 48.37; 250 wide it glues 120.9 cm2."""
    assert bevel_face(8, 6) == pytest.approx(6 * math.sqrt(65), abs=1e-9)
    assert bevel_face(8, 6) == pytest.approx(48.37, abs=0.005)
    assert glue_area(250, 6, 8) / 100 == pytest.approx(120.9, abs=0.05)


@pytest.mark.parametrize(
    ("width", "thickness", "slope", "square_metres"),
    [(1220, 6, 8, 0.05902), (40, 20, 12, 0.00963)],  # computed: width x thickness x sqrt(1 + slope^2)
)
def test_the_glued_area(width: float, thickness: float, slope: float, square_metres: float) -> None:
    """A whole sheet's edge, and a stringer."""
    assert glue_area(width, thickness, slope) / 1e6 == pytest.approx(square_metres, abs=5e-6)


def test_10_to_1_glues_ten_times_the_section_and_8_to_1_does_not() -> None:
    """USDA Wood Handbook FPL-GTR-190, chapter 10: a glued area of ten times the section is asked for."""
    section = 45 * 20
    assert glue_area(45, 20, 10) > 10 * section > glue_area(45, 20, 8)


@pytest.mark.parametrize(
    ("count", "length", "thickness", "slope", "expected"),
    [
        (2, 2440, 6, 8, 4832),  # computed, as all of these
        (3, 2440, 6, 8, 7224),
        (2, 2440, 9, 8, 4808),
        (2, 2500, 6, 8, 4952),
        (4, 3000, 25, 12, 11_100),
        (3, 2420, 6, 8, 7164),  # three sheets of 2440 with 10 trimmed off each end
    ],
)
def test_each_joint_eats_one_lap(count: int, length: float, thickness: float, slope: float, expected: float) -> None:
    """Members of equal length joined end to end."""
    assert joined_length([length] * count, lap(slope, thickness)) == pytest.approx(expected, abs=1e-9)


def test_builders_examples_in_inches() -> None:
    """Published builders' examples: two 8 ft sheets make 15 ft 7 in with a 5 in scarf, 15 ft 9 in of 3/8 in at 8:1."""
    assert joined_length([96, 96], 5) == 15 * 12 + 7
    assert joined_length([96, 96], lap(8, 3 / 8)) == 15 * 12 + 9


def test_one_length_alone_loses_nothing() -> None:
    """No joint, no lap."""
    assert joined_length([2440], 48) == 2440


@given(st.floats(4, 50), st.floats(0.5, 100))
def test_lap_bevel_and_thickness_make_a_right_triangle(slope: float, thickness: float) -> None:
    """Pythagoras, and the angle seen from either side."""
    assert bevel_face(slope, thickness) == pytest.approx(math.hypot(lap(slope, thickness), thickness))
    assert bevel_face(slope, thickness) * math.sin(math.radians(bevel_angle(slope))) == pytest.approx(thickness)
