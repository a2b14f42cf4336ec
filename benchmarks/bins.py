"""``bins``: all items in the fewest equal bins; the optimum is known."""

import math
from collections.abc import Sequence

from shapely.geometry import box

from nesting.effort import Budget, Effort
from nesting.packing import Container, Item, SeveralLayouts, Workshop, pack_several, wait_until_compiled

from .data import BinInstance, irregular_bins, spread
from .options import Options
from .records import Record
from .running import Benchmark
from .stopwatch import Stopwatch
from .verifying import Laid, bins_faults

#: Instances of the fixed spread.
SPREAD = 20

#: Work units of a usual run.
WORK = 60_000

Moment = tuple[SeveralLayouts, float, float]


def instances(options: Options) -> Sequence[BinInstance]:
    """Return the instances whose angles are listed."""
    listed = [one for one in irregular_bins(options.folder) if all(item.rotations for item in one.items)]
    return options.spread_or_all(listed, lambda every: spread(every, SPREAD))


def measure(instance: BinInstance, seed: int, options: Options) -> list[Record]:
    """Pack with one seed and return the number of bins reached within each budget."""
    owners = [index for index, item in enumerate(instance.items) for _ in range(item.quantity)]
    items = [Item(instance.items[k].polygon, instance.items[k].rotations or ()) for k in owners]
    most = min(len(items), math.ceil(2 * instance.area / (instance.width * instance.height)) + 2)
    wait_until_compiled()
    watch = Stopwatch()
    effort = Effort(Budget(seconds=options.seconds) if options.seconds else Budget(work=WORK))
    layouts = pack_several(
        Workshop(),
        items,
        [Container(box(0, 0, instance.width, instance.height))] * most,
        effort,
        seed=seed,
        tolerance=1e-7 * min(instance.width, instance.height),
    )
    moments: list[Moment] = [(layout, watch.seconds, watch.cpu_seconds) for layout in layouts]
    return [_record(instance, owners, moments, budget, seed) for budget in options.budgets or (None,)]


def _record(
    instance: BinInstance, owners: Sequence[int], moments: Sequence[Moment], budget: float | None, seed: int
) -> Record:
    """Return the record of the last layout within a budget, verified; of the first if it came later."""
    in_time = [moment for moment in moments if budget is None or moment[1] <= budget]
    layout, seconds, cpu_seconds = (in_time or moments[:1])[-1]
    bins = [[Laid(owners[p.item], p.angle, p.x, p.y) for p in one.placements] for one in layout.laid]
    faults = tuple(bins_faults(instance, bins))
    return Record(
        benchmark="bins",
        family=instance.kind,
        instance=instance.name,
        measure="bins",
        value=len(bins),
        bound=math.ceil(instance.area / (instance.width * instance.height) - 1e-9),
        proven=len(bins) == math.ceil(instance.area / (instance.width * instance.height) - 1e-9),
        reference=instance.optimum,
        reference_source="known from cutting whole bins" if instance.optimum else None,
        budget=budget,
        seconds=seconds,
        cpu_seconds=cpu_seconds,
        seed=seed,
        workers=1,
        verified=not faults,
        faults=faults,
    )


BINS = Benchmark(name="bins", instances=instances, measure=measure)
