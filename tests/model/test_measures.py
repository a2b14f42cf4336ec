"""Lengths as people write them."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from nesting.model import Job, figures_in, millimetres


@pytest.mark.parametrize(
    ("text", "length"),
    [
        ("2440", 2440.0),
        ("2440 mm", 2440.0),
        ("244cm", 2440.0),
        ("1.5 m", 1500.0),
        ('96"', 2438.4),
        ("96 in", 2438.4),
        ("8'", 2438.4),
        ("8 ft", 2438.4),
        ("7' 6 1/2\"", 2298.7),
        ("7'6\"", 2286.0),
        ("7' 6", 2286.0),
        ("8 ft 3 in", 2514.6),
        ("6-1/2 in", 165.1),
        ('3/4"', 19.05),
        ('-3 1/2"', -88.9),
        ("5 ft 1 in", 1549.4),
    ],
)
def test_usual_ways_of_writing_are_understood(text: str, length: float) -> None:
    """An inch is 25.4 mm exactly (international agreement of 1959, from memory)."""
    assert millimetres(text) == length


@pytest.mark.parametrize("text", ["", "six", "5 furlongs", "'", '1/0"', "1 2 3", "6 ' 7 '", "1e3", "٣", "--3", "nan"])
def test_what_is_no_length_is_refused(text: str) -> None:
    """Rather than guessed at."""
    with pytest.raises(ValueError, match=r"must be a length|fraction of nothing"):
        millimetres(text)


@given(st.integers(0, 40), st.integers(0, 11), st.integers(0, 31))
def test_feet_inches_and_fractions_add_up_exactly(feet: int, inches: int, thirty_seconds: int) -> None:
    """To the last bit of what a float can hold."""
    exact = (Fraction(feet * 12 + inches) + Fraction(thirty_seconds, 32)) * Fraction(254, 10)
    assert millimetres(f"{feet}' {inches} {thirty_seconds}/32\"") == float(exact)


def test_bare_figures_take_the_units_of_the_job() -> None:
    """Numbers and texts alike; texts with a unit keep theirs."""
    with figures_in("in"):
        assert millimetres("3/4") == 19.05
        assert millimetres("10 mm") == 10.0


def test_a_job_in_inches_comes_out_in_millimetres() -> None:
    """All lengths, but neither slopes, nor bulges, nor money, nor counts."""
    job = Job.model_validate(
        {
            "units": "in",
            "workshop": {"kerf": 0.125, "trim": "10 mm", "keep_from": [16, 8]},
            "joints": {"scarf": {"slope": 8, "cost": {"each": 2, "per_m": 6}, "least_piece": 18}},
            "sheets": [{"name": "ply", "material": "fir", "thickness": "1/4", "size": [96, "4 ft"], "price": 50}],
            "panels": [
                {
                    "name": "a",
                    "material": "fir",
                    "thickness": 0.25,
                    "outline": {"points": [[0, 0, 1], [10, 0], [0, 10]]},
                },
                {"name": "b", "material": "fir", "thickness": 0.25, "outline": {"rectangle": ["1 ft", 6]}},
            ],
        }
    )
    assert job.units == "mm"
    assert job.workshop.kerf.sheet == 3.175
    assert (job.workshop.trim, job.workshop.keep_from) == (10.0, (406.4, 203.2))
    assert (job.joints["scarf"].slope, job.joints["scarf"].least_piece) == (8, 457.2)
    assert (job.sheets[0].size, job.sheets[0].thickness, job.sheets[0].price) == ((2438.4, 1219.2), 6.35, 50)
    assert job.panels[0].outline.points[0] == (0, 0, 1)
    assert job.panels[1].outline.points[2] == (304.8, 152.4)
    assert Job.model_validate_json(job.model_dump_json()) == job
