"""Timber without joints: open cutting-stock instances, how many lengths they take and what is proven."""

import json
import time
from collections import Counter
from collections.abc import Iterator, Sequence
from typing import Any

from nesting.effort import Budget, Effort
from nesting.lengths import Cutting, Layout, Member, Stock, cheapest_cutting

from .options import Options
from .records import Record, table, write_records

#: Seconds for each instance where nobody says.
SECONDS = 60.0

#: Of each family one instance in so many is run, unless a pattern asks for others.
SPREAD = {"falkenauer": 6, "hard28": 3, "scholl": 9, "schwerin": 9, "waescher": 3}

HEADER = ("family", "instances", "proven", "< 2 s", "median s", "95 % s", "longest s", "above the best known", "open")


def lengths(options: Options) -> list[Record]:
    """Cut a fixed spread of the instances; print a table; return the records."""
    records: list[Record] = []
    for family, spread in SPREAD.items():
        instances = json.loads((options.folder / f"one_dimensional_{family}.json").read_text())["instances"]
        step = spread if options.only == "*" else 1
        records += [_cut(family, one, options) for one in instances[::step] if options.wants(one["name"])]
    print(f"{options.describe()}; limit {options.seconds or SECONDS:g} s an instance\n")
    families = dict.fromkeys(record.family for record in records)
    print(table(HEADER, [_row(family, [r for r in records if r.family == family]) for family in families]))
    if options.json:
        write_records(options.json, records)
    return records


def _cut(family: str, instance: dict[str, Any], options: Options) -> Record:
    cutting = cutting_of(instance)
    started, cpu = time.perf_counter(), time.process_time()
    outcome = cheapest_cutting(cutting, Effort(Budget(seconds=options.seconds or SECONDS)))
    seconds, cpu = time.perf_counter() - started, time.process_time() - cpu
    wrong = ["no plan"] if outcome.layout is None else list(faults(instance, outcome.layout))
    count = float("inf") if outcome.layout is None else float(len(outcome.layout.bars))
    wrong += _against_published(instance, count, outcome.proven.cents)
    print(
        f"{instance['name']}: {count:g}, bound {outcome.proven.cents}, {seconds:.2f} s {'; '.join(wrong)}", flush=True
    )
    return Record(
        benchmark="lengths",
        family=family if family != "scholl" else _scholl(instance["name"]),
        instance=instance["name"],
        measure="bins",
        value=count,
        bound=float(outcome.proven.cents),
        proven=count == outcome.proven.cents,
        reference=float(instance["bounds"][1]),
        reference_source="best known, in the data",
        seconds=seconds,
        cpu_seconds=cpu,
        seed=0,
        workers=1,
        verified=not wrong,
        faults=tuple(wrong),
    )


def cutting_of(instance: dict[str, Any]) -> Cutting:
    """Return an instance as the timber room takes it: no kerf, one stock of price 1, no joints."""
    capacity = instance["capacity"]
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
            longest=capacity,
            stocks=frozenset([0]),
        )
        for index, (size, quantity) in enumerate(instance["items"])
    )
    return Cutting(0, None, members, {0: Stock(0, ((0, capacity),), 0, 1, None)})


def faults(instance: dict[str, Any], layout: Layout) -> Iterator[str]:
    """Yield what is wrong with a plan, by plain arithmetic."""
    made = Counter(cut.length for cut in layout.cuts)
    asked: Counter[int] = Counter()
    for size, quantity in instance["items"]:
        asked[size] += quantity
    if made != asked:
        yield "not all pieces are there"
    loads: Counter[int] = Counter()
    for cut in layout.cuts:
        loads[cut.bar] += cut.length
    if max(loads.values()) > instance["capacity"]:
        yield "a length is overfull"


def _against_published(instance: dict[str, Any], count: float, bound: int) -> Iterator[str]:
    low, high = instance["bounds"]
    if count < low:
        yield f"below the published bound {low}"
    if bound > high:
        yield f"bound above the published plan {high}"


def _scholl(name: str) -> str:
    return "scholl 3" if name.startswith("hard") else "scholl 1" if "c" in name else "scholl 2"


def _row(family: str, records: Sequence[Record]) -> tuple[str, ...]:
    seconds = sorted(record.seconds for record in records)
    return (
        family,
        str(len(records)),
        str(sum(r.proven for r in records)),
        str(sum(r.seconds < 2 for r in records)),
        f"{seconds[len(seconds) // 2]:.2f}",
        f"{seconds[int(len(seconds) * 0.95)]:.2f}",
        f"{seconds[-1]:.2f}",
        str(sum(r.value > (r.reference or 0) for r in records)),
        " ".join(r.instance for r in records if not r.proven) or "-",
    )
