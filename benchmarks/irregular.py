"""``irregular``: all items on a strip of the least length."""

from collections.abc import Sequence
from concurrent.futures import wait

from nesting.effort import Budget, Effort
from nesting.packing import Item, StripLayout, Workshop, pack_strip, pack_strip_in_rounds, wait_until_compiled

from .data import StripInstance, irregular_strips, references
from .options import Options
from .records import Record
from .running import Benchmark
from .stopwatch import Stopwatch
from .verifying import Laid, strip_density, strip_faults
from .workers import Workers

#: Instances of the fixed spread: those for which papers give averages.
CHOSEN = ("dagli", "fu", "jakobs1", "mao", "shapes0", "shapes2", "shirts", "swim", "trousers")

#: Whose averages are printed beside.
SOURCE = "gardeyn2025"

#: Work units of a usual run.
WORK = 100_000

Moment = tuple[StripLayout, float, float]


def instances(options: Options) -> Sequence[StripInstance]:
    """Return the instances whose angles are listed."""
    listed = [one for one in irregular_strips(options.folder) if all(item.rotations for item in one.items)]
    return options.spread_or_all(listed, lambda every: [one for one in every if one.name in CHOSEN])


def measure(instance: StripInstance, seed: int, options: Options) -> list[Record]:
    """Pack with one seed and return the density reached within each budget."""
    owners = [index for index, item in enumerate(instance.items) for _ in range(item.quantity)]
    items = [Item(instance.items[k].polygon, instance.items[k].rotations or ()) for k in owners]
    wait_until_compiled()
    budget = Budget(seconds=options.seconds) if options.seconds else Budget(work=WORK)
    moments = (_alone if options.workers == 1 else _together)(items, instance.width, budget, seed, options.workers)
    return [_record(instance, owners, moments, budget, seed, options) for budget in options.budgets or (None,)]


def _alone(items: Sequence[Item], width: float, budget: Budget, seed: int, workers: int) -> list[Moment]:
    """Return each layout and when it was found, wall-clock and processor seconds."""
    del workers
    watch = Stopwatch()
    return [
        (layout, watch.seconds, watch.cpu_seconds)
        for layout in pack_strip(Workshop(), items, width, Effort(budget), seed)
    ]


def _together(items: Sequence[Item], width: float, budget: Budget, seed: int, workers: int) -> list[Moment]:
    """Return the same of as many chains of attempts as there are workers."""
    with Workers(workers) as pool:
        wait([pool.submit(wait_until_compiled) for _ in range(workers)])
        watch = Stopwatch()
        layouts = pack_strip_in_rounds(Workshop(), items, width, Effort(budget), seed, chains=workers, executor=pool)
        return [(layout, watch.seconds, watch.cpu_seconds + pool.cpu_seconds) for layout in layouts]


def _record(
    instance: StripInstance,
    owners: Sequence[int],
    moments: Sequence[Moment],
    budget: float | None,
    seed: int,
    options: Options,
) -> Record:
    """Return the record of the last layout within a budget, verified; of the first if it came later."""
    in_time = [moment for moment in moments if budget is None or moment[1] <= budget]
    layout, seconds, cpu_seconds = (in_time or moments[:1])[-1]
    laid = [Laid(owners[place.item], place.angle, place.x, place.y) for place in layout.placements]
    reference = references(options.folder).density(instance.name, SOURCE)
    faults = tuple(strip_faults(instance, laid))
    return Record(
        benchmark="irregular",
        family=instance.family,
        instance=instance.name,
        measure="density",
        value=0.0 if faults else strip_density(instance, laid),
        reference=reference.value if reference else None,
        reference_source=reference.told if reference else None,
        budget=budget,
        seconds=seconds,
        cpu_seconds=cpu_seconds,
        seed=seed,
        workers=options.workers,
        verified=not faults,
        faults=faults,
    )


IRREGULAR = Benchmark(name="irregular", instances=instances, measure=measure)
