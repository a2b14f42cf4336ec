"""``python -m benchmarks NAME``: prints a table; exit status 1 if a result fails its own verification."""

import argparse
import os
import sys
from collections.abc import Callable
from pathlib import Path

from .jobs import jobs
from .lengths import lengths
from .options import Options
from .records import Record, write_records
from .splices import splices

BENCHMARKS: dict[str, Callable[[Options], list[Record]]] = {"jobs": jobs, "lengths": lengths, "splices": splices}


def main() -> int:
    """Run one benchmark."""
    asked = _parser().parse_args()
    folder = asked.data or os.environ.get("NESTING_DATA")
    options = Options(
        data=Path(folder) if folder else None,
        seconds=asked.seconds,
        seeds=asked.seeds,
        workers=asked.workers,
        only=asked.only,
    )
    records = BENCHMARKS[asked.name](options)
    if asked.json:
        write_records(asked.json, records)
    return 0 if records and all(record.verified for record in records) else 1


def _seeds(text: str) -> tuple[int, ...]:
    return tuple(int(seed) for seed in text.split(","))


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="python -m benchmarks", description="How good the plans are.")
    parser.add_argument("name", choices=sorted(BENCHMARKS))
    parser.add_argument("--data", type=Path, help="folder of open instances; else the environment's NESTING_DATA")
    parser.add_argument("--seconds", type=float, help="seconds for each instance instead of the usual work")
    parser.add_argument("--seeds", type=_seeds, default="0", help="seeds, parted by commas")
    parser.add_argument("--workers", type=int, default=1)
    parser.add_argument("--only", default="*", metavar="PATTERN", help="only instances whose names match")
    parser.add_argument("--json", type=Path, metavar="FILE", help="write the records to a file")
    return parser


if __name__ == "__main__":
    sys.exit(main())
