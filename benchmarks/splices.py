"""Timber with scarfs: what the open study jobs cost, beside the cost that a study found for them."""

import json
import time
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Any

from nesting.effort import Budget, Effort
from nesting.lengths import Cutting, Layout, Member, Shift, Stock, cheapest_cutting

from .options import Options
from .records import Record, table, write_records

#: Seconds for each job where nobody says.
SECONDS = 30.0

HEADER = ("family", "jobs", "proven", "proven in 5 s", "< 2 s", "median s", "95 % s", "cheaper", "dearer", "open gap %")
FAMILIES = {"s": "2-10 strips", "m": "12-20 strips", "l": "25-40 strips"}


def splices(options: Options) -> list[Record]:
    """Plan every study job that is wanted; print a table; return the records."""
    instances = json.loads((options.folder / "splices_study.json").read_text())["instances"]
    records = [_planned(instance, options) for instance in instances if options.wants(instance["name"])]
    print(f"{options.describe()}; limit {options.seconds or SECONDS:g} s a job\n")
    print(table(HEADER, [_row(family, [r for r in records if r.family == family]) for family in FAMILIES.values()]))
    if options.json:
        write_records(options.json, records)
    return records


def _planned(instance: dict[str, Any], options: Options) -> Record:
    cutting = cutting_of(instance)
    started, cpu = time.perf_counter(), time.process_time()
    outcome = cheapest_cutting(cutting, Effort(Budget(seconds=options.seconds or SECONDS)))
    seconds, cpu = time.perf_counter() - started, time.process_time() - cpu
    wrong = ["no plan"] if outcome.layout is None else list(faults(instance, outcome.layout))
    cost = float("inf") if outcome.layout is None else outcome.layout.price(cutting)[0]
    print(
        f"{instance['name']}: {cost:g}, bound {outcome.proven.cents}, study {instance['study']['cost']}, "
        f"{seconds:.2f} s{''.join('; ' + fault for fault in wrong)}",
        flush=True,
    )
    return Record(
        benchmark="splices",
        family=FAMILIES[instance["name"][0]],
        instance=instance["name"],
        measure="cents",
        value=cost,
        bound=float(outcome.proven.cents),
        proven=cost == outcome.proven.cents,
        reference=float(instance["study"]["cost"]),
        reference_source="study: a prototype, 15 s on one core",
        seconds=seconds,
        cpu_seconds=cpu,
        seed=0,
        workers=1,
        verified=not wrong,
        faults=tuple(wrong),
    )


def cutting_of(instance: dict[str, Any]) -> Cutting:
    """Return a study job as the timber room takes it; whole millimetres and cents."""
    lap, kerf, least = instance["lap"], instance["kerf"], instance["least_piece"]
    stocks = {
        index: Stock(index, tuple(_clear(stock)), kerf, stock["price"], stock["available"])
        for index, stock in enumerate(instance["stock"])
    }
    longest = max(end - start for stock in stocks.values() for start, end in stock.stretches)
    members = tuple(
        Member(
            index=index,
            length=strip["length"],
            quantity=strip["quantity"],
            joinable=strip["most_joints"] > 0,
            half_lap=lap // 2,
            least_end=least - lap // 2,
            least_between=least - lap,
            zones=tuple(map(tuple, strip["no_joint"])),
            joint_cents=instance["joint_cost"],
            longest=longest,
            stocks=frozenset(stocks),
            limit=strip["most_joints"],
        )
        for index, strip in enumerate(instance["strips"])
    )
    return Cutting(kerf, None, members, stocks, tuple(_shift(instance, shift) for shift in instance["shift"]))


def _shift(instance: dict[str, Any], shift: dict[str, Any]) -> Shift:
    """Return a shift between two copies; it must be the only two there are."""
    one, other = shift["a"]["strip"], shift["b"]["strip"]
    copies = instance["strips"][one]["quantity"], instance["strips"][other]["quantity"]
    if copies != ((2, 2) if one == other else (1, 1)):
        raise ValueError(f"{instance['name']}: a shift between two of several copies")
    return Shift(one, other, shift["distance"])


def _clear(stock: dict[str, Any]) -> Iterator[tuple[int, int]]:
    start = 0
    for begin, end in [*sorted(stock["faults"]), [stock["length"], stock["length"]]]:
        if begin > start:
            yield start, begin
        start = end


def faults(instance: dict[str, Any], layout: Layout) -> Iterator[str]:
    """Yield what is wrong with a plan, by plain arithmetic from the study's rules."""
    for bar, stock in enumerate(layout.bars):
        for stretch, (start, end) in enumerate(_clear(instance["stock"][stock])):
            pieces = [cut.length for cut in layout.cuts if (cut.bar, cut.stretch) == (bar, stretch)]
            if sum(pieces) + (len(pieces) - 1) * instance["kerf"] > end - start:
                yield f"bar {bar} is overfull"
    for index, stock in enumerate(instance["stock"]):
        if stock["available"] is not None and layout.bars.count(index) > stock["available"]:
            yield f"too many of stock {index}"
    starts: dict[tuple[int, int], list[int]] = {}
    for index, strip in enumerate(instance["strips"]):
        for copy in range(1, strip["quantity"] + 1):
            lengths = [cut.length for cut in sorted(layout.cuts) if (cut.member, cut.copy) == (index, copy)]
            starts[index, copy] = _laps(instance, lengths)
            yield from (f"strip {index} {copy}: {fault}" for fault in _strip_faults(instance, strip, lengths))
    for shift in instance["shift"]:
        a, b = ((shift[k]["strip"], shift[k]["copy"] + 1) for k in "ab")
        if any(abs(one - other) < shift["distance"] for one in starts[a] for other in starts[b]):
            yield f"strips {a} and {b} have joints too near"


def _laps(instance: dict[str, Any], lengths: Sequence[int]) -> list[int]:
    """Return where each lap starts."""
    end, starts = 0, []
    for length in lengths:
        end += length - instance["lap"]
        starts.append(end)
    return starts[:-1]


def _strip_faults(instance: dict[str, Any], strip: dict[str, Any], lengths: Sequence[int]) -> Iterator[str]:
    lap, starts = instance["lap"], _laps(instance, lengths)
    if sum(lengths) - (len(lengths) - 1) * lap != strip["length"]:
        yield "its pieces don't add up"
    if len(lengths) > 1 and min(lengths) < instance["least_piece"]:
        yield "a piece is too short"
    if len(lengths) - 1 > strip["most_joints"]:
        yield "too many joints"
    if any(start < b and start + lap > a for start in starts for a, b in strip["no_joint"]):
        yield "a lap lies in a no-joint zone"
    if any(b - a < lap for a, b in pairwise(starts)):
        yield "laps overlap"


def _row(family: str, records: Sequence[Record]) -> tuple[str, ...]:
    seconds = sorted(record.seconds for record in records)
    if not seconds:
        return (family, "0", *[""] * (len(HEADER) - 2))
    gaps = [(r.value - (r.bound or 0)) / r.value * 100 for r in records if not r.proven]
    return (
        family,
        str(len(records)),
        str(sum(r.proven for r in records)),
        str(sum(r.proven and r.seconds <= 5 for r in records)),
        str(sum(r.seconds < 2 for r in records)),
        f"{seconds[len(seconds) // 2]:.2f}",
        f"{seconds[int(len(seconds) * 0.95)]:.2f}",
        str(sum(r.value < (r.reference or 0) for r in records)),
        str(sum(r.value > (r.reference or 0) for r in records)),
        " ".join(f"{gap:.2f}" for gap in gaps) or "-",
    )
