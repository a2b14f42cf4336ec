"""Whole programmes put together row by row, and handed as they are to CP-SAT or to HiGHS."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, field

import numpy as np
from ortools.sat.python import cp_model

from nesting.solving import Answer, Columns, Programme, WholeAnswer, minimize, minimize_whole

#: Coefficient and variable.
Term = tuple[int, int]

#: More than any row adds up to: no limit.
ENDLESS = 2**40


@dataclass
class DirectModel:
    """Variables (cost, lower, upper) and rows (terms, lower, upper), all whole; costs are to be least."""

    variables: list[tuple[int, int, int]] = field(default_factory=list)
    rows: list[tuple[tuple[Term, ...], int, int]] = field(default_factory=list)

    def variable(self, upper: int, cost: int = 0, lower: int = 0) -> int:
        """Add a variable; return its number."""
        self.variables.append((cost, lower, upper))
        return len(self.variables) - 1

    def row(self, terms: Iterable[Term], lower: int = -ENDLESS, upper: int = ENDLESS) -> None:
        """Add a row; terms of one variable are added up."""
        entries: Counter[int] = Counter()
        for entry, variable in terms:
            entries[variable] += entry
        self.rows.append((tuple((entry, k) for k, entry in entries.items() if entry), lower, upper))

    def by_highs(self, seconds: float) -> WholeAnswer:
        """Solve by HiGHS, on one thread."""
        return minimize_whole(self._programme(), nodes=10**9, stop=lambda: False, seconds=seconds)

    def by_cp_sat(self, seconds: float) -> Answer:
        """Solve by CP-SAT, on one thread; a value is called by its variable's number."""
        model = cp_model.CpModel()
        found = [model.new_int_var(low, high, str(k)) for k, (_, low, high) in enumerate(self.variables)]
        for terms, low, high in self.rows:
            model.add_linear_constraint(sum(entry * found[k] for entry, k in terms), low, high)
        model.minimize(sum(cost * found[k] for k, (cost, _, _) in enumerate(self.variables)))
        return minimize(model, effort=1e9, seconds=seconds)

    def _programme(self) -> Programme:
        entries = sorted((k, row, entry) for row, (terms, _, _) in enumerate(self.rows) for entry, k in terms)
        places, numbers, values = (np.array(list(each)) for each in zip(*entries, strict=True))
        counts = np.bincount(places, minlength=len(self.variables))
        costs, lower, upper = (np.array(each, dtype=np.float64) for each in zip(*self.variables, strict=True))
        starts = np.concatenate([[0], np.cumsum(counts)[:-1]]).astype(np.int32)
        columns = Columns(costs, lower, upper, starts, numbers.astype(np.int32), values.astype(np.float64))
        row_lower, row_upper = (np.array([row[k] for row in self.rows], dtype=np.float64) for k in (1, 2))
        row_lower[row_lower <= -ENDLESS], row_upper[row_upper >= ENDLESS] = -np.inf, np.inf
        return Programme(columns, row_lower, row_upper)
