"""The starter jobs, planned by the installed command: what they cost, and what planning them takes."""

import json
import tempfile
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from nesting.starters import STARTERS

from .command import Run, run
from .options import Options
from .records import Record, table
from .verification import faults

HEADER = (
    "job", "first plan s", "whole s", "CPU s", "peak MB", "sheets", "lengths", "joints",
    "to pay", "objective", "bound", "waste %", "verified",
)  # fmt: skip


def jobs(options: Options) -> list[Record]:
    """Plan every starter job with each seed; print a table; return the records."""
    print(f"nesting --help: {min(run('--help').seconds for _ in range(3)):.2f} s (best of three)")
    print(f"a unit of work is fixed; seconds are of this machine, {options.describe()}\n")
    records: list[Record] = []
    rows = []
    for starter in (name for name in STARTERS if options.wants(name)):
        for seed in options.seeds:
            outcome, plan, wrong = _planned(starter, seed, options)
            rows.append(_row(f"{starter}, seed {seed}", outcome, plan, wrong))
            records += _records(starter, seed, outcome, plan, wrong)
    print(table(HEADER, rows))
    return records


def _planned(starter: str, seed: int, options: Options) -> tuple[Run, dict[str, Any], list[str]]:
    """Write a starter job, plan it, and check what came out without the library."""
    with tempfile.TemporaryDirectory() as folder:
        job, out = f"{folder}/job.toml", f"{folder}/plan"
        run("new", job, "--starter", starter)
        limit = [] if options.seconds is None else ["--seconds", str(options.seconds)]
        outcome = run("plan", job, "--out", out, "--seed", str(seed), *limit)
        if outcome.status:
            raise SystemExit(f"{starter}: exit status {outcome.status}\n{outcome.errors}")
        file = Path(out) / "plan.json"
        return outcome, json.loads(file.read_text()), faults(file)


def _row(name: str, outcome: Run, plan: dict[str, Any], wrong: Sequence[str]) -> tuple[str, ...]:
    totals = plan["totals"]
    return (
        name,
        f"{outcome.first_plan:.2f}" if outcome.first_plan else "none",
        f"{outcome.seconds:.2f}",
        f"{outcome.cpu_seconds:.2f}",
        f"{outcome.peak_megabytes:.0f}",
        *(str(totals[key]) for key in ("sheets", "lengths", "joints", "to_pay", "objective", "bound")),
        f"{totals['waste_percent']:.1f}",
        "; ".join(wrong) or "yes",
    )


def _records(starter: str, seed: int, outcome: Run, plan: dict[str, Any], wrong: Sequence[str]) -> list[Record]:
    totals = plan["totals"]

    def record(measure: str, value: float, bound: float | None = None, *, proven: bool = False) -> Record:
        return Record(
            benchmark="jobs",
            family="starters",
            instance=starter,
            measure=measure,
            value=value,
            bound=bound,
            proven=proven,
            seconds=outcome.seconds,
            cpu_seconds=outcome.cpu_seconds,
            seed=seed,
            workers=1,
            verified=not wrong,
        )

    heard = [] if outcome.first_plan is None else [record("first plan seconds", outcome.first_plan)]
    return [
        record("cost", float(totals["objective"]), float(totals["bound"]), proven=totals["proven"]),
        *heard,  # no figure at all rather than one that JSON has no word for
        record("peak megabytes", outcome.peak_megabytes),
        record("sheets", totals["sheets"]),
        record("joints", totals["joints"]),
        record("waste percent", totals["waste_percent"]),
    ]
