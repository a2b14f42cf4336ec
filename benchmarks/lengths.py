"""Timber without joints: open cutting-stock instances, how many lengths they take and what is proven.

Beside a spread of each family, a direct model of it is given to CP-SAT and to HiGHS for as long.
"""

from collections import Counter, defaultdict
from collections.abc import Iterator

from nesting.effort import Budget, Effort
from nesting.lengths import Cutting, Layout, Member, Stock, cheapest_cutting

from . import chosen
from .beside import OURS, beside, run_beside
from .data import CuttingInstance, one_dimensional
from .direct_timber import packing_model
from .options import Options
from .records import Record
from .running import Benchmark
from .stopwatch import Stopwatch
from .timber_table import timber_tables
from .verifying import Pattern, cutting_faults

#: Seconds for each instance where nobody says.
USUAL_SECONDS = 60.0


def cut(instance: CuttingInstance, seed: int, options: Options) -> list[Record]:
    """Cut one instance, once for each budget: a bound is not worth less for being found early."""
    return [
        record
        for budget in options.budgets or (None,)
        for record in _cut(
            instance, seed, budget, beside_direct=instance.name in run_beside(options.folder, one_dimensional)
        )
    ]


def _cut(instance: CuttingInstance, seed: int, budget: float | None, *, beside_direct: bool) -> Iterator[Record]:
    seconds, watch = budget or USUAL_SECONDS, Stopwatch()
    outcome = cheapest_cutting(cutting_of(instance), Effort(Budget(seconds=seconds)))
    wall, cpu = watch.seconds, watch.cpu_seconds
    count = float("inf") if outcome.layout is None else float(len(outcome.layout.bars))
    wrong = ["no plan"] if outcome.layout is None else cutting_faults(instance, patterns(outcome.layout))
    ours = Record(
        benchmark="lengths",
        family=instance.family,
        instance=instance.name,
        measure=OURS,
        value=count,
        bound=float(outcome.proven.cents),
        proven=count == outcome.proven.cents,
        reference=float(instance.bounds[1]),
        reference_source="lengths: the best number known, as the open data give it",
        budget=budget,
        seconds=wall,
        cpu_seconds=cpu,
        seed=seed,
        workers=1,
        verified=not wrong,
        faults=(*wrong, *_against_published(instance, count, outcome.proven.cents)),
    )
    yield ours
    if beside_direct:
        yield from beside(ours, packing_model(instance, first_fit(instance)), seconds)


def cutting_of(instance: CuttingInstance) -> Cutting:
    """Return an instance as the timber room takes it: no kerf, one stock of price 1, no joints."""
    members = tuple(
        Member(
            index=index,
            length=size,
            quantity=quantity,
            joinable=False,
            half_lap=0,
            least_end=1,
            least_between=1,
            zones=(),
            joint_cents=0,
            longest=instance.capacity,
            stocks=frozenset([0]),
        )
        for index, (size, quantity) in enumerate(instance.items)
    )
    return Cutting(0, None, members, {0: Stock(0, ((0, instance.capacity),), 0, 1, None)})


def patterns(layout: Layout) -> list[Pattern]:
    """Return what is cut from each length, equal lengths together."""
    bars: defaultdict[int, Counter[int]] = defaultdict(Counter)
    for piece in layout.cuts:
        bars[piece.bar][piece.length] += 1
    alike = Counter(tuple(sorted(copies.items())) for copies in bars.values())
    return [Pattern(count, dict(copies)) for copies, count in alike.items()]


def first_fit(instance: CuttingInstance) -> int:
    """Return how many lengths it takes if each piece, longest first, is cut from the first with room for it."""
    rooms: list[int] = []
    for size, quantity in sorted(instance.items, reverse=True):
        for _ in range(quantity):
            place = next((k for k, room in enumerate(rooms) if room >= size), len(rooms))
            if place == len(rooms):
                rooms.append(instance.capacity)
            rooms[place] -= size
    return len(rooms)


def _against_published(instance: CuttingInstance, count: float, bound: int) -> Iterator[str]:
    low, high = instance.bounds
    if count < low:
        yield f"below the published bound {low}"
    if bound > high:
        yield f"bound above the published plan {high}"


LENGTHS = Benchmark(name="lengths", instances=chosen.lengths, measure=cut, show=timber_tables)
