"""``python -m benchmarks NAME``: prints a table; exit status 1 if a result fails its own verification."""

import argparse
import math
import os
import sys
from collections.abc import Callable
from functools import partial
from pathlib import Path

from .bins import BINS
from .data import MissingDataError
from .engine import ENGINE
from .fills import FILLS
from .irregular import IRREGULAR
from .jobs import JOBS
from .lengths import LENGTHS
from .multiples import MULTIPLES
from .options import Options
from .page import PAGE
from .panels import PANELS
from .records import NoRecordsError, Record
from .running import run
from .splices import SPLICES
from .stocks import STOCKS

BENCHMARKS: dict[str, Callable[[Options], list[Record]]] = {
    "bins": partial(run, BINS),
    "engine": partial(run, ENGINE),
    "fills": partial(run, FILLS),
    "irregular": partial(run, IRREGULAR),
    "jobs": partial(run, JOBS),
    "lengths": partial(run, LENGTHS),
    "multiples": partial(run, MULTIPLES),
    "page": partial(run, PAGE),
    "panels": partial(run, PANELS),
    "splices": partial(run, SPLICES),
    "stocks": partial(run, STOCKS),
}


def main() -> int:
    """Run one benchmark, or all."""
    asked = _parser().parse_args()
    options = _options(asked)
    names = sorted(BENCHMARKS) if asked.name == "all" else [asked.name]
    try:
        records = [record for name in names for record in BENCHMARKS[name](options)]
    except (MissingDataError, NoRecordsError) as unusable:
        print(f"benchmarks: {unusable}", file=sys.stderr)
        return 2
    except KeyboardInterrupt:
        print("benchmarks: interrupted", file=sys.stderr)
        return 130
    return 0 if records and all(record.verified for record in records) else 1


def _options(asked: argparse.Namespace) -> Options:
    folder = asked.data or os.environ.get("NESTING_DATA")
    return Options(
        data=Path(folder) if folder else None,
        budgets=asked.seconds,
        seeds=asked.seeds,
        workers=asked.workers,
        only=asked.only,
        everything=asked.all,
        json=asked.json,
    )


def _seeds(text: str) -> tuple[int, ...]:
    seeds = tuple(int(seed) for seed in text.split(","))
    if min(seeds) < 0:
        raise ValueError("a seed is not negative")
    return seeds


def _budgets(text: str) -> tuple[float, ...]:
    budgets = tuple(sorted({float(seconds) for seconds in text.split(",")}))
    if not all(0 < seconds < math.inf for seconds in budgets):
        raise ValueError("seconds are above zero")
    return budgets


def _workers(text: str) -> int:
    workers = int(text)
    if workers < 1:
        raise ValueError("at least one worker")
    return workers


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="python -m benchmarks", description="How good the plans are.")
    parser.add_argument("name", choices=[*sorted(BENCHMARKS), "all"])
    parser.add_argument("--data", type=Path, help="folder of open instances; else the environment's NESTING_DATA")
    parser.add_argument(
        "--seconds",
        type=_budgets,
        default=(),
        help="seconds for each instance instead of the usual work; several, parted by commas, are read from one run",
    )
    parser.add_argument("--seeds", type=_seeds, default="0", help="seeds, parted by commas")
    parser.add_argument("--workers", type=_workers, default=1)
    parser.add_argument("--only", default="*", metavar="PATTERN", help="only instances whose names match, of all")
    parser.add_argument("--all", action="store_true", help="all instances instead of a fixed spread")
    parser.add_argument("--json", type=Path, metavar="FILE", help="file of records: added to, and resumed from")
    return parser


if __name__ == "__main__":
    sys.exit(main())
