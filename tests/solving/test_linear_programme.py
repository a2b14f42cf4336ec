import numpy as np
import pytest

from nesting.solving import LinearProgramme, LinearSolver


def programme(needed: float) -> LinearProgramme:
    """Least x + 2 y with x + y >= needed and x <= 3."""
    return LinearProgramme(
        cost=np.array([1.0, 2.0]),
        low=np.zeros(2),
        high=np.array([3.0, 10.0]),
        row_low=np.array([needed]),
        row_high=np.array([np.inf]),
        start=np.array([0, 2], np.int32),
        index=np.array([0, 1], np.int32),
        value=np.ones(2),
    )


def test_one_solver_solves_one_programme_after_another() -> None:
    """Each gets its own answer."""
    solver = LinearSolver()
    assert solver.solve(programme(5.0)) == pytest.approx([3, 2])
    assert solver.solve(programme(2.0)) == pytest.approx([2, 0])


def test_a_programme_without_solution_has_no_answer() -> None:
    """More is needed than the bounds allow."""
    assert LinearSolver().solve(programme(14.0)) is None
