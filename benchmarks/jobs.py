"""The starter jobs, planned by the installed command: what they cost, and what planning them takes."""

import json
import tempfile
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from nesting.starters import STARTERS

from .command import Run, run
from .options import Options
from .records import Record, table
from .running import Benchmark
from .verification import faults

#: The columns of the table, and the measure of each.
COLUMNS = {
    "first plan s": "first plan seconds",
    "peak MB": "peak megabytes",
    "sheets": "sheets",
    "lengths": "lengths",
    "joints": "joints",
    "to pay": "to pay",
    "objective": "cost",
    "waste %": "waste percent",
}


@dataclass(frozen=True)
class Starter:
    """A job that the package brings along."""

    name: str
    family: str = "starters"


def planned(starter: Starter, seed: int, options: Options) -> list[Record]:
    """Plan a starter job, once for each budget: the command tells only of the last plan of a run."""
    budgets: tuple[float | None, ...] = options.budgets or (None,)
    return [record for budget in budgets for record in _planned(starter, seed, budget)]


def _planned(starter: Starter, seed: int, budget: float | None) -> list[Record]:
    """Write a starter job, plan it, and check what came out without the library.

    Raises
    ------
    RuntimeError
        If the command does not end well.
    """
    with tempfile.TemporaryDirectory() as folder:
        job, out = f"{folder}/job.toml", f"{folder}/plan"
        run("new", job, "--starter", starter.name)
        limit = [] if budget is None else ["--seconds", str(budget)]
        outcome = run("plan", job, "--out", out, "--seed", str(seed), *limit)
        if outcome.status:
            raise RuntimeError(f"{starter.name}: exit status {outcome.status}\n{outcome.errors}")
        file = Path(out) / "plan.json"
        return _records(starter, seed, budget, outcome, json.loads(file.read_text()), faults(file))


def shown(records: Sequence[Record]) -> str:
    """Return a table with one row for each run."""
    runs: dict[tuple[str, int, float | None], dict[str, Record]] = {}
    for record in records:
        runs.setdefault((record.instance, record.seed, record.budget), {})[record.measure] = record
    header = ("job", *COLUMNS, "bound", "whole s", "CPU s", "verified")
    fastest = min(run("--help").seconds for _ in range(3))
    rows = [_row(f"{name}, seed {seed}", measures) for (name, seed, _), measures in runs.items()]
    return f"{table(header, rows)}\n\nnesting --help: {fastest:.2f} s (best of three)"


JOBS = Benchmark(name="jobs", instances=lambda _: [Starter(name) for name in STARTERS], measure=planned, show=shown)


def _row(name: str, measures: dict[str, Record]) -> tuple[str, ...]:
    one = next(iter(measures.values()))
    cost = measures.get("cost")
    return (
        name,
        *(f"{measures[measure].value:.2f}" if measure in measures else "none" for measure in COLUMNS.values()),
        "none" if cost is None else f"{cost.bound:.2f}",
        f"{one.seconds:.2f}",
        f"{one.cpu_seconds:.2f}",
        "yes" if one.verified else "; ".join(one.faults),
    )


def _records(
    starter: Starter, seed: int, budget: float | None, outcome: Run, plan: dict[str, Any], wrong: Sequence[str]
) -> list[Record]:
    totals = plan["totals"]

    def record(measure: str, value: float, bound: float | None = None, *, proven: bool = False) -> Record:
        return Record(
            benchmark="jobs",
            family=starter.family,
            instance=starter.name,
            measure=measure,
            value=value,
            bound=bound,
            proven=proven,
            budget=budget,
            seconds=outcome.seconds,
            cpu_seconds=outcome.cpu_seconds,
            seed=seed,
            workers=1,
            verified=not wrong,
            faults=tuple(wrong),
        )

    heard = [] if outcome.first_plan is None else [record("first plan seconds", outcome.first_plan)]
    return [
        record("cost", float(totals["objective"]), float(totals["bound"]), proven=totals["proven"]),
        *heard,  # no figure at all rather than one that JSON has no word for
        record("to pay", float(totals["to_pay"])),
        record("peak megabytes", outcome.peak_megabytes),
        record("sheets", totals["sheets"]),
        record("lengths", totals["lengths"]),
        record("joints", totals["joints"]),
        record("waste percent", totals["waste_percent"]),
    ]
