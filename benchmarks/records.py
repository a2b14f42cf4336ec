"""What a benchmark measures, as records in a file and as a table."""

import json
from collections.abc import Sequence
from dataclasses import asdict, dataclass, replace
from pathlib import Path
from statistics import fmean


class NoRecordsError(Exception):
    """A file that should hold records holds something else."""


@dataclass(frozen=True, kw_only=True)
class Record:
    """One measured value.

    Attributes
    ----------
    value, bound, proven, bound_reason
        What was reached, what is proven that nothing can beat, whether the two meet, and what proves it.
    reference, reference_source
        A published value, and where and how surely it was seen.
    seconds, cpu_seconds
        Wall-clock and processor seconds until then, of all processes of the benchmark.
    budget
        Seconds that were allowed; None for the usual work.
    verified, faults
        Whether the result passed its verification, and what is wrong if not.
    """

    benchmark: str
    family: str
    instance: str
    measure: str
    value: float
    bound: float | None = None
    proven: bool = False
    reference: float | None = None
    reference_source: str | None = None
    budget: float | None = None
    seconds: float
    cpu_seconds: float
    seed: int
    workers: int
    verified: bool
    faults: tuple[str, ...] = ()
    bound_reason: str | None = None


def write_records(file: Path, records: Sequence[Record]) -> None:
    """Write the records as JSON, moved into place when whole."""
    fresh = file.with_name(file.name + ".part")
    fresh.write_text(json.dumps([asdict(record) for record in records], indent=1) + "\n", encoding="utf-8")
    fresh.replace(file)


def read_records(file: Path) -> list[Record]:
    """Return the records of a file.

    Raises
    ------
    NoRecordsError
        If the file holds something else.
    """
    try:
        found = json.loads(file.read_text(encoding="utf-8"))
        return [Record(**{**one, "faults": tuple(one.get("faults", ()))}) for one in found]
    except (TypeError, AttributeError, ValueError) as error:
        raise NoRecordsError(f"{file} is no file of records: {error}") from None


def off_reference(record: Record) -> float | None:
    """Return by how many percent of the reference a value is above it (below: negative); None without one."""
    return None if not record.reference else 100 * (record.value - record.reference) / record.reference


def means_of_seeds(records: Sequence[Record]) -> list[Record]:
    """Return for each instance, measure and budget one record with the mean over its seeds, seed -1.

    Bounds are left out: they are not of the mean.
    """
    groups: dict[tuple[object, ...], list[Record]] = {}
    for record in records:
        groups.setdefault((record.instance, record.measure, record.budget), []).append(record)
    return [
        replace(
            group[0],
            value=fmean(record.value for record in group),
            bound=None,
            proven=all(record.proven for record in group),
            seconds=fmean(record.seconds for record in group),
            cpu_seconds=fmean(record.cpu_seconds for record in group),
            seed=-1,
            verified=all(record.verified for record in group),
            faults=(),
        )
        for group in groups.values()
    ]


def table(header: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    """Return a plain table, first column to the left, all others to the right."""
    columns = list(zip(header, *rows, strict=True))
    widths = [max(map(len, column)) for column in columns]
    lines = [
        "  ".join(
            cell.ljust(w) if k == 0 else cell.rjust(w) for k, (cell, w) in enumerate(zip(row, widths, strict=True))
        )
        for row in (header, *rows)
    ]
    return "\n".join(line.rstrip() for line in lines)
