import numpy as np
import pytest

from nesting.solving import LinearProgramme, LinearSolver
from nesting.solving.linear_programme import MANY_ROWS


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


def chained(rows: int) -> LinearProgramme:
    """Least sum of variables of which each two neighbours together are 1 at the least."""
    start = np.arange(0, 2 * rows + 1, 2, dtype=np.int32)
    return LinearProgramme(
        cost=np.random.default_rng(1).uniform(1, 2, rows + 1),
        low=np.zeros(rows + 1),
        high=np.full(rows + 1, 5.0),
        row_low=np.ones(rows),
        row_high=np.full(rows, np.inf),
        start=start,
        index=np.column_stack([np.arange(rows), np.arange(1, rows + 1)]).ravel().astype(np.int32),
        value=np.ones(2 * rows),
    )


def test_a_large_programme_is_broken_off_when_somebody_asks_for_it() -> None:
    """It asks again and again while it is solved; what it had until then is no answer."""
    asked: list[bool] = []

    def stop() -> bool:
        asked.append(len(asked) >= 3)
        return asked[-1]

    assert LinearSolver(stop).solve(chained(4 * MANY_ROWS)) is None
    assert asked == [False, False, False, True]
    assert LinearSolver().solve(chained(4 * MANY_ROWS)) is not None


def test_nothing_is_begun_after_an_end_was_asked_for() -> None:
    """Not even what would be soon done."""
    assert LinearSolver(lambda: True).solve(programme(5.0)) is None
