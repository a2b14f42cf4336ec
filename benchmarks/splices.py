"""Timber with scarfs: what the study jobs cost, beside what a study found for them and direct models find."""

from collections.abc import Iterator
from dataclasses import replace

from nesting.effort import Budget, Effort
from nesting.lengths import Cutting, Layout, Member, Shift, Stock, cheapest_cutting

from . import chosen
from .beside import OURS, beside, run_beside
from .data import SpliceInstance, SpliceShift, SpliceStock, splices_study
from .direct_timber import splicing_model
from .options import Options
from .records import Record
from .running import Benchmark
from .stopwatch import Stopwatch
from .timber_table import timber_tables
from .verifying import CutPiece, SplicedLength, splicing_cost, splicing_faults

#: Seconds for each job where nobody says.
USUAL_SECONDS = 30.0

FAMILIES = {"s": "2-10 strips", "m": "12-20 strips", "l": "25-40 strips"}


def spliced(instance: SpliceInstance, seed: int, options: Options) -> list[Record]:
    """Plan one job, once for each budget."""
    return [
        record
        for budget in options.budgets or (None,)
        for record in _spliced(
            instance, seed, budget, beside_direct=instance.name in run_beside(options.folder, splices_study)
        )
    ]


def _spliced(instance: SpliceInstance, seed: int, budget: float | None, *, beside_direct: bool) -> Iterator[Record]:
    seconds = budget or USUAL_SECONDS
    ours = replace(
        planned(instance, seed, seconds),
        benchmark="splices",
        family=FAMILIES[instance.family],
        reference=float(instance.study_cost),
        reference_source="splices: cents, a study with a prototype, 15 s on one core",
        budget=budget,
    )
    yield ours
    if beside_direct:
        dearest = 2 * instance.study_cost  # a newcomer would not know; more lengths only make the model larger
        yield from beside(ours, splicing_model(cutting_of(instance), dearest), seconds)


def planned(instance: SpliceInstance, seed: int, seconds: float) -> Record:
    """Plan a job in so many seconds, and return what it costs, what is proven, and whether the plan keeps all rules."""
    cutting, watch = cutting_of(instance), Stopwatch()
    outcome = cheapest_cutting(cutting, Effort(Budget(seconds=seconds)))
    wall, cpu = watch.seconds, watch.cpu_seconds
    made = [] if outcome.layout is None else lengths_of(instance, outcome.layout)
    wrong = splicing_faults(instance, made)
    cost = float("inf") if outcome.layout is None else float(splicing_cost(instance, made))
    return Record(
        benchmark="timber",
        family=instance.family,
        instance=instance.name,
        measure=OURS,
        value=cost,
        bound=float(outcome.proven.cents),
        proven=cost == outcome.proven.cents,
        budget=seconds,
        seconds=wall,
        cpu_seconds=cpu,
        seed=seed,
        workers=1,
        verified=not wrong,
        faults=tuple(wrong),
    )


def cutting_of(instance: SpliceInstance) -> Cutting:
    """Return a study job as the timber room takes it; whole millimetres and cents."""
    lap, kerf, least = instance.lap, instance.kerf, instance.least_piece
    stocks = {
        index: Stock(index, tuple(clear(stock)), kerf, stock.price, stock.available)
        for index, stock in enumerate(instance.stock)
    }
    longest = max(end - start for stock in stocks.values() for start, end in stock.stretches)
    members = tuple(
        Member(
            index=index,
            length=strip.length,
            quantity=strip.quantity,
            joinable=strip.most_joints > 0,
            half_lap=lap // 2,
            least_end=least - lap // 2,
            least_between=least - lap,
            zones=strip.no_joint,
            joint_cents=instance.joint_cost,
            longest=longest,
            stocks=frozenset(stocks),
            limit=strip.most_joints,
        )
        for index, strip in enumerate(instance.strips)
    )
    return Cutting(kerf, None, members, stocks, tuple(_shift(instance, shift) for shift in instance.shift))


def _shift(instance: SpliceInstance, shift: SpliceShift) -> Shift:
    """Return a shift between two copies; it must be the only two there are."""
    (one, _), (other, _) = shift.a, shift.b
    copies = instance.strips[one].quantity, instance.strips[other].quantity
    if copies != ((2, 2) if one == other else (1, 1)):
        raise ValueError(f"{instance.name}: a shift between two of several copies")
    return Shift(one, other, shift.distance)


def clear(stock: SpliceStock) -> Iterator[tuple[int, int]]:
    """Yield the stretches of a length between its faults."""
    start = 0
    for begin, end in (*sorted(stock.faults), (stock.length, stock.length)):
        if begin > start:
            yield start, begin
        start = end


def lengths_of(instance: SpliceInstance, layout: Layout) -> list[SplicedLength]:
    """Return a layout as the study's rules speak of it: in each clear stretch pieces lie one kerf apart."""
    found = []
    for bar, stock in enumerate(layout.bars):
        pieces = []
        for stretch, (start, _) in enumerate(clear(instance.stock[stock])):
            for cut in layout.on(bar):
                if cut.stretch == stretch:
                    pieces.append(CutPiece(cut.member, cut.copy - 1, cut.index, start, start + cut.length))
                    start += cut.length + instance.kerf
        found.append(SplicedLength(stock, tuple(pieces)))
    return found


SPLICES = Benchmark(name="splices", instances=chosen.splices, measure=spliced, show=timber_tables)
