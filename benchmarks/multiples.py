"""Ten times as many of each strip, and of each limited stock: how much longer that takes."""

from collections.abc import Sequence
from dataclasses import replace
from statistics import median

from .beside import OURS
from .data import SpliceInstance, splices_study, spread_of_each
from .options import Options
from .records import Record, table
from .running import Benchmark
from .splices import FAMILIES, planned
from .timber_jobs import several_stocks, ten_times
from .timber_table import timber_tables

#: Seconds for each job where nobody says.
USUAL_SECONDS = 30.0

#: What the larger job is called, and how much longer than the job it is asked to take at most.
TEN_TIMES, ASKED = "ten times as many", 2.0

#: Jobs of each family that are run unless all are asked for.
JOBS = 10


def jobs(options: Options) -> Sequence[SpliceInstance]:
    """Return jobs of several stocks, and of the study of splices those without shifts, which tie single copies."""
    study = [replace(one, family=FAMILIES[one.family]) for one in splices_study(options.folder) if not one.shift]
    found = [*several_stocks(), *study]
    return options.spread_or_all(found, lambda all_of: spread_of_each(all_of, lambda one: one.family, JOBS))


def multiplied(instance: SpliceInstance, seed: int, options: Options) -> list[Record]:
    """Plan a job, and ten times as much of it."""
    return [
        replace(planned(each, seed, budget or USUAL_SECONDS), benchmark="multiples", measure=name, budget=budget)
        for budget in options.budgets or (None,)
        for name, each in ((OURS, instance), (TEN_TIMES, ten_times(instance)))
    ]


def multiples_tables(records: Sequence[Record]) -> str:
    """Return the tables of timber, and how many times the processor seconds of a job ten times as much of it took."""
    once = {(r.instance, r.seed, r.budget): r for r in records if r.measure == OURS}
    ratios: dict[str, list[float]] = {}
    for record in records:
        if record.measure == TEN_TIMES:
            before = once[record.instance, record.seed, record.budget].cpu_seconds
            ratios.setdefault(record.family, []).append(record.cpu_seconds / max(before, 1e-3))
    header = ("family", "jobs", "median times as long", f"at most {ASKED:g} times", "longest")
    rows = [
        (family, str(len(own)), f"{median(own):.2f}", str(sum(each <= ASKED for each in own)), f"{max(own):.2f}")
        for family, own in ratios.items()
    ]
    return f"{timber_tables(records)}\n\n{table(header, rows)}"


MULTIPLES = Benchmark(name="multiples", instances=jobs, measure=multiplied, show=multiples_tables)
"""What the command line knows it by."""
