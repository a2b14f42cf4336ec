"""What a benchmark measures, as records and as a table."""

import json
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from pathlib import Path


@dataclass(frozen=True, kw_only=True)
class Record:
    """One measured value; ``reference`` is a published one, with its source."""

    benchmark: str
    family: str
    instance: str
    measure: str
    value: float
    bound: float | None = None
    proven: bool = False
    reference: float | None = None
    reference_source: str | None = None
    seconds: float
    cpu_seconds: float
    seed: int
    workers: int
    verified: bool


def write_records(file: Path, records: Sequence[Record]) -> None:
    """Write the records as JSON, moved into place when whole."""
    fresh = file.with_name(file.name + ".part")
    fresh.write_text(json.dumps([asdict(record) for record in records], indent=1) + "\n")
    fresh.replace(file)


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
