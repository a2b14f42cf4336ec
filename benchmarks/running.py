"""The frame of all benchmarks: instances by seeds, resumed from a file, written as they come, told as a table."""

import sys
import traceback
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Generic, Protocol, TypeVar

from .options import Options
from .records import Record, read_records, write_records
from .stopwatch import Stopwatch
from .telling import tables

#: The measure of a record which says that an instance ended in an error; such a one is run again when resuming.
FAILED = "failed"


class Named(Protocol):
    """What every instance has."""

    @property
    def name(self) -> str:
        """Name, told apart from all others of the benchmark."""

    @property
    def family(self) -> str:
        """Where it belongs in the summary."""


Instance = TypeVar("Instance", bound=Named)


@dataclass(frozen=True, kw_only=True)
class Benchmark(Generic[Instance]):
    """What tells one benchmark from another.

    Attributes
    ----------
    name : str
        As on the command line, and in every record.
    instances : callable
        Returns what the options ask for; names that do not match the pattern are left out by the frame.
    measure : callable
        Runs one instance with one seed, verifies what came out, and returns a record for each measure and budget.
    show : callable
        Returns what is printed at the end.
    """

    name: str
    instances: Callable[[Options], Sequence[Instance]]
    measure: Callable[[Instance, int, Options], list[Record]]
    show: Callable[[Sequence[Record]], str] = tables


def run(benchmark: Benchmark[Instance], options: Options) -> list[Record]:
    """Run all instances with all seeds but those that the file of records has; print tables; return the records.

    The file is written after each run, so that a benchmark that was broken off goes on where it was.
    """
    instances = [one for one in benchmark.instances(options) if options.wants(one.name)]
    earlier = read_records(options.json) if options.json and options.json.exists() else []
    asked: list[Record] = []
    for instance in instances:
        for seed in options.seeds:
            done = _done(benchmark.name, instance.name, seed, options, earlier)
            if not done:
                done = _measured(benchmark, instance, seed, options)
                earlier = _merged(earlier, done)
                if options.json:
                    write_records(options.json, earlier)
            asked += done
    print(f"{benchmark.name}: seconds are of this machine, {options.describe()}\n")
    print(benchmark.show(asked))
    return asked


def _measured(benchmark: Benchmark[Instance], instance: Instance, seed: int, options: Options) -> list[Record]:
    """Run one instance; an error is told and recorded, and does not end the benchmark."""
    watch = Stopwatch()
    try:
        records = benchmark.measure(instance, seed, options)
    except Exception as error:
        traceback.print_exc()
        records = [_failure(benchmark.name, instance, seed, options, watch, repr(error))]
    told = ", ".join(f"{record.measure} {record.value:g}" for record in records)
    print(f"{instance.name}, seed {seed}: {told} ({watch.seconds:.1f} s)", file=sys.stderr, flush=True)
    for record in records:
        for fault in record.faults:
            print(f"{instance.name}, seed {seed}: NOT VERIFIED: {fault}", file=sys.stderr, flush=True)
    return records


def _failure(name: str, instance: Named, seed: int, options: Options, watch: Stopwatch, error: str) -> Record:
    return Record(
        benchmark=name,
        family=instance.family,
        instance=instance.name,
        measure=FAILED,
        value=1,
        budget=options.seconds,
        seconds=watch.seconds,
        cpu_seconds=watch.cpu_seconds,
        seed=seed,
        workers=options.workers,
        verified=False,
        faults=(error,),
    )


def _done(name: str, instance: str, seed: int, options: Options, earlier: Sequence[Record]) -> list[Record]:
    """Return the records of such a run with all budgets, or none if any is missing."""
    budgets: tuple[float | None, ...] = options.budgets or (None,)
    found = [
        record
        for record in earlier
        if (record.benchmark, record.instance, record.seed, record.workers) == (name, instance, seed, options.workers)
        and record.budget in budgets
        and record.measure != FAILED
    ]
    return found if {record.budget for record in found} == set(budgets) else []


def _merged(earlier: Sequence[Record], fresh: Sequence[Record]) -> list[Record]:
    """Return the records with fresh ones in place of those of the same run, and of failures of it."""

    def run_of(record: Record) -> tuple[object, ...]:
        return record.benchmark, record.instance, record.seed, record.workers, record.budget

    gone = {run_of(record) for record in fresh}
    return [*(record for record in earlier if run_of(record) not in gone), *fresh]
