"""Study jobs of panels longer than a sheet: what sheets and joints cost, and what is proven."""

from collections.abc import Sequence
from dataclasses import dataclass
from time import monotonic, process_time

from nesting import Plan, plan
from nesting.effort import Budget, Effort, News

from .data import PanelsInstance, panels_study
from .options import Options
from .panels_as_job import in_words_of_study, job_of
from .records import Record, table
from .running import Benchmark
from .verifying import panels_faults

#: Seconds where nobody says.
USUAL_SECONDS = 60.0

WAYS = ("divided", "both")


@dataclass(frozen=True)
class Asked:
    """An instance, to be planned in one way."""

    instance: PanelsInstance
    way: str

    @property
    def name(self) -> str:
        """Name of the instance and the way."""
        return f"{self.instance.name}:{self.way}"

    @property
    def family(self) -> str:
        """The way."""
        return self.way

    @property
    def study_cost(self) -> float:
        """The best cost of the study in this way."""
        study = self.instance.study
        return min(study[way] for way in ("joined", "divided", "mixed")) if self.way == "both" else study[self.way]


def planned(asked: Asked, seed: int, options: Options) -> list[Record]:
    """Plan one job once, and read what was best at each budget from the same run."""
    budgets = options.budgets or (USUAL_SECONDS,)
    heard: list[tuple[float, float]] = []
    began, cpu = monotonic(), process_time()

    def hear(news: News) -> None:
        if news.objective is not None:
            heard.append((monotonic() - began, float(news.objective)))

    made = plan(
        job_of(asked.instance, asked.way), seed=seed, effort=Effort(Budget(seconds=max(budgets))), progress=hear
    )
    faults = tuple(panels_faults(asked.instance, in_words_of_study(asked.instance, made)))
    spent = process_time() - cpu
    return [_record(asked, seed, budget, made, heard, faults, spent) for budget in budgets]


def _record(
    asked: Asked,
    seed: int,
    budget: float,
    made: Plan,
    heard: Sequence[tuple[float, float]],
    faults: tuple[str, ...],
    cpu: float,
) -> Record:
    within = [cost for at, cost in heard if at <= budget] or [heard[0][1]]
    return Record(
        benchmark="panels",
        family=asked.family,
        instance=asked.name,
        measure="cost",
        value=within[-1],
        bound=float(made.totals.bound),
        proven=made.totals.proven,
        reference=asked.study_cost,
        reference_source="best of a throw-away prototype in 70 s",
        budget=budget,
        seconds=heard[0][0],
        cpu_seconds=cpu,
        seed=seed,
        workers=1,
        verified=not faults,
        faults=faults,
    )


def shown(records: Sequence[Record]) -> str:
    """Return a table of all runs; the seconds are those to the first audited plan."""
    header = (
        "job:way, seed",
        "s allowed",
        "first s",
        "CPU s",
        "cost",
        "study",
        "to study %",
        "bound",
        "gap %",
        "verified",
    )
    return table(header, [_row(record) for record in records if record.reference])


def _row(record: Record) -> tuple[str, ...]:
    reference, bound = record.reference or 0.0, record.bound or 0.0
    return (
        f"{record.instance}, {record.seed}",
        f"{record.budget or 0:g}",
        f"{record.seconds:.1f}",
        f"{record.cpu_seconds:.0f}",
        f"{record.value:.2f}",
        f"{reference:.1f}",
        f"{100 * (record.value / reference - 1):+.1f}",
        f"{bound:.2f}",
        f"{100 * (record.value - bound) / record.value:.1f}",
        "yes" if record.verified else "; ".join(record.faults),
    )


def instances(options: Options) -> list[Asked]:
    """Return every job of the study in each way."""
    return [Asked(instance, way) for instance in panels_study(options.folder) for way in WAYS]


PANELS = Benchmark(name="panels", instances=instances, measure=planned, show=shown)
