"""The one place that starts CP-SAT."""

import math

from ortools.sat.python import cp_model

from .answer import Answer, Status

_STATUS = {
    cp_model.OPTIMAL: Status.OPTIMAL,
    cp_model.FEASIBLE: Status.FEASIBLE,
    cp_model.INFEASIBLE: Status.IMPOSSIBLE,
    cp_model.UNKNOWN: Status.UNKNOWN,
}


def minimize(
    model: cp_model.CpModel, *, effort: float, seconds: float | None = None, seed: int = 0, near: float = 0.0
) -> Answer:
    """Solve a model whose objective, if any, is to be minimised and has integer coefficients.

    One thread and a deterministic limit: the same model, effort and seed give the same answer on any machine.
    Every named variable of the model is in the answer's values.

    Parameters
    ----------
    model : CpModel
        Variables that are to be read back need unique names.
    effort : float
        Deterministic time, in CP-SAT's own unit (about a second on a common machine).
    seconds : float or None
        Wall-clock limit, for those who set one; with it the answer depends on the machine.
    seed : int
        Fixes the order of the search.
    near : float
        By what share of its value an answer may be off the best and still be called OPTIMAL.

    Raises
    ------
    ValueError
        If CP-SAT calls the model invalid: a mistake of the caller.
    """
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.max_deterministic_time = effort
    solver.parameters.random_seed = seed
    solver.parameters.relative_gap_limit = near
    if seconds is not None:
        solver.parameters.max_time_in_seconds = seconds
    solver.parameters.catch_sigint_signal = False  # it would swallow Ctrl-C for the whole process
    code = solver.solve(model)
    if code == cp_model.MODEL_INVALID:
        raise ValueError(f"CP-SAT refused the model: {model.validate()}")
    status = _STATUS[code]
    if status in (Status.IMPOSSIBLE, Status.UNKNOWN):
        return Answer(status, {}, None, None if status is Status.IMPOSSIBLE else _proven_bound(model, solver))
    values = {
        variable.name: int(solution)
        for variable, solution in zip(model.proto.variables, solver.response_proto.solution, strict=True)
        if variable.name
    }
    objective = round(solver.objective_value) if model.has_objective() else None
    bound = objective if status is Status.OPTIMAL else _proven_bound(model, solver)
    return Answer(status, values, objective, bound)


def _proven_bound(model: cp_model.CpModel, solver: cp_model.CpSolver) -> int | None:
    """Round CP-SAT's bound, an integer held in a float, so that it can't be overstated by the float."""
    if not model.has_objective() or not math.isfinite(solver.best_objective_bound):
        return None
    return math.ceil(solver.best_objective_bound - 1e-6)
