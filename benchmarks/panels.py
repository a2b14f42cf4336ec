"""Study jobs of panels longer than a sheet: what sheets and joints cost, and what is proven."""

from collections.abc import Iterator, Mapping, Sequence
from concurrent.futures import Executor, wait
from dataclasses import dataclass, replace
from statistics import mean
from time import monotonic, process_time

from shapely.geometry import Polygon

from nesting import Plan, plan
from nesting.effort import Budget, Effort, News
from nesting.outlines import polygon
from nesting.packing import wait_until_compiled

from .data import PanelsInstance, panels_study
from .options import Options
from .panels_as_job import in_words_of_study, job_of
from .records import Record, table
from .running import Benchmark
from .verifying import panels_faults
from .workers import Workers

#: Seconds where nobody says.
USUAL_SECONDS = 60.0

WAYS = ("joined", "divided", "both")


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


@dataclass(frozen=True)
class Search:
    """One search: when it told of which cost, the plan, and the processor seconds of it all."""

    heard: tuple[tuple[float, float], ...]
    plan: Plan
    cpu_seconds: float


def planned(asked: Asked, seed: int, options: Options) -> list[Record]:
    """Plan one job, with a chain for each worker, and read what was best at each budget from the same run."""
    budgets = options.budgets or (USUAL_SECONDS,)
    search = (_alone if options.workers == 1 else _together)(asked, seed, max(budgets), options.workers)
    faults = tuple(panels_faults(asked.instance, in_words_of_study(asked.instance, search.plan)))
    costs = [_cost(asked, seed, budget, search, faults, options) for budget in budgets]
    return [*costs, *_besides(costs[-1], search.plan)]


def _alone(asked: Asked, seed: int, seconds: float, workers: int) -> Search:
    """Plan one job in this process."""
    return _searched(asked, seed, seconds, workers, None)


def _together(asked: Asked, seed: int, seconds: float, workers: int) -> Search:
    """Plan one job in so many processes, which are there before the search begins."""
    with Workers(workers) as pool:
        wait([pool.submit(wait_until_compiled) for _ in range(workers)])
        before = pool.cpu_seconds
        search = _searched(asked, seed, seconds, workers, pool)
        return replace(search, cpu_seconds=search.cpu_seconds + pool.cpu_seconds - before)


def _searched(asked: Asked, seed: int, seconds: float, chains: int, executor: Executor | None) -> Search:
    """Plan one job once; the processor seconds are those of this process."""
    heard: list[tuple[float, float]] = []
    began, cpu = monotonic(), process_time()

    def hear(news: News) -> None:
        if news.objective is not None:
            heard.append((monotonic() - began, float(news.objective)))

    made = plan(
        job_of(asked.instance, asked.way),
        seed=seed,
        effort=Effort(Budget(seconds=seconds)),
        progress=hear,
        chains=chains,
        executor=executor,
    )
    return Search(tuple(heard), made, process_time() - cpu)


def _cost(asked: Asked, seed: int, budget: float, search: Search, faults: tuple[str, ...], options: Options) -> Record:
    """Return the best cost within a budget; the first of all if none came in time."""
    heard, totals = search.heard, search.plan.totals
    return Record(
        benchmark="panels",
        family=asked.family,
        instance=asked.name,
        measure="cost",
        value=min((cost for at, cost in heard if at <= budget), default=heard[0][1]),
        bound=float(totals.bound),
        bound_reason=totals.bound_reason,
        proven=totals.proven,
        reference=asked.study_cost,
        reference_source="best of a throw-away prototype in 70 s",
        budget=budget,
        seconds=heard[0][0],
        cpu_seconds=search.cpu_seconds,
        seed=seed,
        workers=options.workers,
        verified=not faults,
        faults=faults,
    )


def _besides(cost: Record, made: Plan) -> Iterator[Record]:
    """Yield what else is told of the last plan: its joints, its sheets, and the share of them that ends as parts."""
    bought = sum(Polygon(used.outline).area for used in made.used if used.kind == "sheet")
    parts = sum(panel.quantity * polygon(panel.outline).area for panel in made.job.panels)
    told = {"joints": made.totals.joints, "sheets": made.totals.sheets, "fill": 100 * parts / bought}
    for measure, value in told.items():
        yield replace(cost, measure=measure, value=value, bound=None, bound_reason=None, reference=None)


def shown(records: Sequence[Record]) -> str:
    """Return a table of all runs, their means, and what proves the bounds.

    The seconds are those to the first audited plan.
    """
    header = (
        "job:way, seed",
        "s allowed",
        "first s",
        "CPU s",
        "cost",
        "study",
        "to study %",
        "joints",
        "sheets",
        "fill %",
        "bound",
        "gap %",
        "verified",
    )
    costs = [record for record in records if record.measure == "cost"]
    besides = {_place(record): record.value for record in records}
    reasons = dict.fromkeys(f"{cost.family}: {cost.bound_reason}" for cost in costs)
    rows = [_row(cost, besides) for cost in costs]
    return "\n".join([table(header, rows), *_means(costs), "bounds, by way:", *reasons])


def _means(costs: Sequence[Record]) -> Iterator[str]:
    """Yield, by way and seconds, the mean distance to the study and to the bound, in percent of study and cost."""
    for way, budget in dict.fromkeys((cost.family, cost.budget) for cost in costs):
        runs = [cost for cost in costs if (cost.family, cost.budget) == (way, budget)]
        study = mean(_to_study(cost) for cost in runs)
        yield f"mean of {len(runs)}, {way}, {budget:g} s: to study {study:+.2f} %, gap {mean(map(_gap, runs)):.1f} %"


def _to_study(cost: Record) -> float:
    return 100 * (cost.value / (cost.reference or 1.0) - 1)


def _gap(cost: Record) -> float:
    return 100 * (cost.value - (cost.bound or 0.0)) / cost.value


def _place(record: Record) -> tuple[object, ...]:
    return record.instance, record.seed, record.workers, record.budget, record.measure


def _row(record: Record, besides: Mapping[tuple[object, ...], float]) -> tuple[str, ...]:
    reference, bound = record.reference or 0.0, record.bound or 0.0
    joints, sheets, fill = (besides.get(_place(replace(record, measure=m))) for m in ("joints", "sheets", "fill"))
    return (
        f"{record.instance}, {record.seed}",
        f"{record.budget or 0:g}",
        f"{record.seconds:.1f}",
        f"{record.cpu_seconds:.0f}",
        f"{record.value:.2f}",
        f"{reference:.1f}",
        f"{_to_study(record):+.1f}",
        "" if joints is None else f"{joints:g}",
        "" if sheets is None else f"{sheets:g}",
        "" if fill is None else f"{fill:.1f}",
        f"{bound:.2f}",
        f"{_gap(record):.1f}",
        "yes" if record.verified else "; ".join(record.faults),
    )


def instances(options: Options) -> list[Asked]:
    """Return every job of the study in each way."""
    return [Asked(instance, way) for instance in panels_study(options.folder) for way in WAYS]


PANELS = Benchmark(name="panels", instances=instances, measure=planned, show=shown)
