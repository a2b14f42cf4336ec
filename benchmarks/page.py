"""How long the report takes to write, how large it is, and how soon its page can be used on a slow device."""

import tempfile
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from statistics import median

from nesting.effort import Budget, Effort
from nesting.files import read_job
from nesting.model import Job
from nesting.planner import plan
from nesting.report import report_files
from nesting.starters import JOB_FILE, starter_files

from .options import Options
from .records import Record, table
from .running import Benchmark
from .slow_browser import Seen, looks
from .stopwatch import Stopwatch

#: How often the page is opened: the median is told, and the worst.
TIMES = 7

COLUMNS = {
    "sheets": "sheets",
    "pieces": "pieces",
    "report CPU s": "report cpu seconds",
    "MB": "megabytes",
    "usable s": "usable seconds",
    "worst": "worst usable seconds",
    "all read s": "all read seconds",
    "a sheet s": "sheet seconds",
}


@dataclass(frozen=True)
class Batch:
    """A starter job, so many times over."""

    name: str
    starter: str
    times: int
    family: str = "pages"


BATCHES = (Batch("skiff", "skiff", 1), Batch("fleet", "fleet", 1), Batch("six fleets", "fleet", 6))


def measured(batch: Batch, seed: int, options: Options) -> list[Record]:
    """Plan a batch quickly, write its report, and open its page as a device four times slower would."""
    with tempfile.TemporaryDirectory() as folder:
        made = plan(batch_job(batch, Path(folder)), seed=seed, effort=Effort(Budget(work=0)))
        watch = Stopwatch()
        files = report_files(made)
        taken = watch.cpu_seconds
        page = Path(folder) / "index.html"
        page.write_text(files["index.html"], encoding="utf-8")
        seen = looks(page, TIMES)
    values = {
        "sheets": made.totals.sheets,
        "pieces": len(made.pieces),
        "report cpu seconds": taken,
        "megabytes": sum(len(text.encode()) for text in files.values()) / 1e6,
        "usable seconds": median(look.usable for look in seen),
        "worst usable seconds": max(look.usable for look in seen),
        "all read seconds": median(look.all_read for look in seen),
        "sheet seconds": median(look.sheet for look in seen),
    }
    return _records(batch, seed, options, watch, values, tuple(_faults(files, seen)))


def shown(records: Sequence[Record]) -> str:
    """Return a table with one row for each batch."""
    runs: dict[tuple[str, int], dict[str, Record]] = {}
    for record in records:
        runs.setdefault((record.instance, record.seed), {})[record.measure] = record
    rows = [
        (name, *(f"{of[measure].value:.2f}" if measure in of else "none" for measure in COLUMNS.values()), _verdict(of))
        for (name, _), of in runs.items()
    ]
    return table(("batch", *COLUMNS, "verified"), rows)


PAGE = Benchmark(name="page", instances=lambda _: BATCHES, measure=measured, show=shown)


def batch_job(batch: Batch, folder: Path) -> Job:
    """Return a starter job that asks for every part so many times, by way of its files in a folder."""
    for name, text in starter_files(batch.starter).items():
        (folder / name).write_text(text, encoding="utf-8")
    job = read_job(folder / JOB_FILE)
    panels = tuple(one.model_copy(update={"quantity": one.quantity * batch.times}) for one in job.panels)
    strips = tuple(one.model_copy(update={"quantity": one.quantity * batch.times}) for one in job.strips)
    return job.model_copy(update={"panels": panels, "strips": strips})


def _faults(files: dict[str, str], seen: Sequence[Seen]) -> list[str]:
    """Return what the browser complained of, and which drawings are not on the page."""
    missing = [name for name, text in files.items() if name.endswith(".svg") and text not in files["index.html"]]
    return [*(f"{name} is not on the page" for name in missing), *(said for look in seen for said in look.complaints)]


def _verdict(of: dict[str, Record]) -> str:
    one = next(iter(of.values()))
    return "yes" if one.verified else "; ".join(one.faults)


def _records(
    batch: Batch, seed: int, options: Options, watch: Stopwatch, values: dict[str, float], faults: tuple[str, ...]
) -> list[Record]:
    first = Record(
        benchmark="page",
        family=batch.family,
        instance=batch.name,
        measure="",
        value=0.0,
        budget=options.seconds,
        seconds=watch.seconds,
        cpu_seconds=watch.cpu_seconds,
        seed=seed,
        workers=1,
        verified=not faults,
        faults=faults,
    )
    return [replace(first, measure=measure, value=float(value)) for measure, value in values.items()]
