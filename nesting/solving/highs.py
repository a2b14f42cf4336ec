"""The one place that starts HiGHS: whole programmes, and linear ones that grow column by column."""

import math
from collections.abc import Callable
from dataclasses import dataclass

import highspy
import numpy as np

from .answer import Status
from .programme import Columns, Floats, Programme
from .silent import SilentHighs, end_simplex_when

#: HiGHS works in floats. Its bound on an objective of whole numbers is lowered by this share of it before it is
#: rounded up, a thousand times more than the tolerances that it works with can add on small whole coefficients.
SLACK = 1e-6


@dataclass(frozen=True)
class WholeAnswer:
    """Whole values in the order of the columns, and an integer bound that holds whatever the status."""

    status: Status
    values: tuple[int, ...]
    objective: int | None
    bound: int | None

    @property
    def found(self) -> bool:
        """Whether there are values."""
        return self.status in (Status.OPTIMAL, Status.FEASIBLE)


def minimize_whole(
    programme: Programme,
    *,
    nodes: int,
    stop: Callable[[], bool],
    first: tuple[int, ...] | None = None,
    good_enough: int | None = None,
    too_much: int | None = None,
    presolved: bool = True,
    seconds: float | None = None,
    seed: int = 0,
) -> WholeAnswer:
    """Solve a programme of whole variables and whole costs on one thread.

    Parameters
    ----------
    nodes : int
        Nodes of the search tree after which it ends: so the same call gives the same answer on any machine.
    stop : callable
        Asked now and then; the search ends soon after it says True.
    first : tuple of int or None
        Values to start from.
    good_enough : int or None
        The search may end at values of this objective or less.
    too_much : int or None
        The search may end as soon as it is proven that no values have a lesser objective.
    presolved : bool
        Whether the programme is made smaller first, which takes longer than it saves where few columns share few rows.
    seconds : float or None
        Wall-clock limit, for those who set one; with it the answer depends on the machine.

    Raises
    ------
    ValueError
        If HiGHS refuses the programme, for instance for two entries in one place: a mistake of the caller.
    """
    solver = _silent(seed)
    solver.setOptionValue("mip_max_nodes", nodes)
    solver.setOptionValue("mip_rel_gap", 0.0)
    solver.setOptionValue("mip_abs_gap", 0.999)  # costs are whole
    if good_enough is not None:
        solver.setOptionValue("objective_target", good_enough + 0.5)
    if seconds is not None:
        solver.setOptionValue("time_limit", seconds)
    if not presolved:
        solver.setOptionValue("presolve", "off")
    _pass(solver, programme)
    if first is not None:
        solution = highspy.HighsSolution()
        solution.col_value = list(map(float, first))
        solver.setSolution(solution)
    _interruptible(solver, stop, too_much)
    solver.run()
    return _answer(solver)


class GrowingMaster:
    """A linear programme whose columns are added as they are found; solved warm each time.

    Attributes
    ----------
    objective : float
        The least cost that the last solve found.
    values, duals : arrays
        Value of each variable, and price of each row, of that solve.
    """

    objective: float
    values: Floats
    duals: Floats

    def __init__(self, row_lower: Floats, row_upper: Floats) -> None:
        self._solver = _silent(0)
        self._solver.setOptionValue("presolve", "off")
        none = np.zeros(0, dtype=np.int32)
        self._solver.addRows(len(row_lower), row_lower, row_upper, 0, none, none, np.zeros(0))

    def add(self, columns: Columns) -> None:
        """Add variables."""
        self._solver.addCols(
            len(columns.costs),
            columns.costs,
            columns.lower,
            columns.upper,
            len(columns.entries),
            columns.starts,
            columns.rows,
            columns.entries,
        )

    def limit_columns(self, first: int, lower: Floats, upper: Floats) -> None:
        """Change the limits of a run of columns."""
        columns = np.arange(first, first + len(lower), dtype=np.int32)
        self._solver.changeColsBounds(len(columns), columns, lower, upper)

    def solve(self, seconds: float | None = None) -> bool:
        """Solve; return whether the solver calls its values best. They are kept until the next time.

        Parameters
        ----------
        seconds : float or None
            Wall-clock limit, for those who set one.
        """
        self._solver.setOptionValue("time_limit", math.inf if seconds is None else self._solver.getRunTime() + seconds)
        self._solver.run()
        solution = self._solver.getSolution()
        self.objective = float(self._solver.getObjectiveValue())
        self.values = np.array(solution.col_value)
        self.duals = np.array(solution.row_dual)
        return bool(self._solver.getModelStatus() == highspy.HighsModelStatus.kOptimal)


def _silent(seed: int) -> highspy.Highs:
    solver = SilentHighs()  # type: ignore[no-untyped-call]
    solver.setOptionValue("threads", 1)
    solver.setOptionValue("parallel", "off")
    solver.setOptionValue("random_seed", seed)
    return solver


def _pass(solver: highspy.Highs, programme: Programme) -> None:
    columns = programme.columns
    model = highspy.HighsLp()
    model.num_col_, model.num_row_ = len(columns.costs), len(programme.row_lower)
    model.col_cost_, model.col_lower_, model.col_upper_ = columns.costs, columns.lower, columns.upper
    model.row_lower_, model.row_upper_ = programme.row_lower, programme.row_upper
    model.a_matrix_.format_ = highspy.MatrixFormat.kColwise
    model.a_matrix_.start_ = np.append(columns.starts, len(columns.rows)).astype(np.int32)
    model.a_matrix_.index_, model.a_matrix_.value_ = columns.rows, columns.entries
    model.integrality_ = [highspy.HighsVarType.kInteger] * len(columns.costs)
    if solver.passModel(model) == highspy.HighsStatus.kError:
        raise ValueError("HiGHS refused the model: a mistake of the caller")


def _interruptible(solver: highspy.Highs, stop: Callable[[], bool], too_much: int | None) -> None:
    """Let the solver ask from time to time whether it has to end."""

    def ask(event: highspy.highs.HighsCallbackEvent) -> None:
        bound = None if too_much is None else _bound(float(event.data_out.mip_dual_bound))
        if stop() or (bound is not None and too_much is not None and bound >= too_much):
            event.interrupt()

    solver.cbMipInterrupt.subscribe(ask)
    end_simplex_when(solver, stop)


def _answer(solver: highspy.Highs) -> WholeAnswer:
    """Read the outcome: only a finished search is read as a proof."""
    status, info = solver.getModelStatus(), solver.getInfo()
    if status == highspy.HighsModelStatus.kInfeasible:
        return WholeAnswer(Status.IMPOSSIBLE, (), None, None)
    bound = _bound(float(info.mip_dual_bound))
    if info.primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
        return WholeAnswer(Status.UNKNOWN, (), None, bound)
    values = tuple(round(value) for value in solver.getSolution().col_value)
    objective = round(float(info.objective_function_value))
    if status == highspy.HighsModelStatus.kOptimal or (bound is not None and bound >= objective):
        return WholeAnswer(Status.OPTIMAL, values, objective, objective)
    return WholeAnswer(Status.FEASIBLE, values, objective, bound)


def _bound(dual: float) -> int | None:
    if not math.isfinite(dual):
        return None
    return math.ceil(dual - SLACK * max(1.0, abs(dual)))
