"""The verb ``plan``."""

import signal
import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from threading import Event

from nesting.effort import Budget, Effort, News, Progress
from nesting.files import RUN_RECORD, located, plan_json, read_job, require_usable, write_folder
from nesting.model import Job, JobError, NoPlanError, Plan
from nesting.planner import USUAL_WORK
from nesting.planner import plan as make

from .run_record import run_record
from .showing import shown


def make_plan(job_file: Path, out: Path, *, work: int | None, seconds: float | None, seed: int) -> None:
    """Read a job, plan it, write everything, and say what came out."""
    require_usable(out)
    job = read_job(job_file)
    usual = USUAL_WORK if work is None and seconds is None else None
    effort = Effort(Budget(work=work if work is not None else usual, seconds=seconds))
    with stopping_on_interrupt(effort) as hear:
        with shown() as show:
            plan = _planned(job, job_file, seed, effort, _both(hear, show))
        stopped = effort.stopped
        names = _write(plan, job_file, out, stopped=stopped)
    _tell(plan, out, names, stopped=stopped)


def _write(plan: Plan, job_file: Path, out: Path, *, stopped: bool) -> list[str]:
    """Write everything and return the names of the files."""
    from nesting.report import report_files  # only now: the first plan shows the sooner

    files = {"plan.json": plan_json(plan), **report_files(plan)}
    files[RUN_RECORD] = run_record(job_file, plan, files, stopped=stopped)
    write_folder(out, files)
    return sorted(files)


def _planned(job: Job, job_file: Path, seed: int, effort: Effort, progress: Progress) -> Plan:
    try:
        return make(job, seed=seed, effort=effort, progress=progress)
    except NoPlanError as error:
        raise NoPlanError(located(error.problems, job_file)) from None
    except JobError as error:
        raise JobError(located(error.problems, job_file)) from None


def _both(first: Progress, second: Progress) -> Progress:
    def tell(news: News) -> None:
        first(news)
        second(news)

    return tell


@contextmanager
def stopping_on_interrupt(effort: Effort) -> Iterator[Progress]:
    """Let Ctrl-C end the search with the best plan so far; before there is one, and a second time, everything.

    It hears of plans by the listener that it gives. While the plan is being written a first one changes nothing.
    """
    there = Event()

    def hear(news: News) -> None:
        if news.objective is not None:
            there.set()

    def stop(*_: object) -> None:
        if effort.stopped or not there.is_set():
            raise KeyboardInterrupt
        effort.stop()

    before = signal.signal(signal.SIGINT, stop)
    try:
        yield hear
    finally:
        signal.signal(signal.SIGINT, before)


def _tell(plan: Plan, out: Path, names: Sequence[str], *, stopped: bool) -> None:
    """Print the outcome."""
    totals, currency = plan.totals, plan.job.currency
    if stopped:
        print("Stopped early: this is the best plan found until then.")
    rows = [
        ("sheets", str(totals.sheets)),
        ("lengths", str(totals.lengths)),
        ("joints", str(totals.joints)),
        ("waste of sheets", f"{totals.waste_percent:.1f} %"),
        ("waste of timber", f"{totals.timber_waste_percent:.1f} %"),
        ("to pay", f"{totals.to_pay:.2f} {currency}"),
        ("joints, in glue and time", f"{totals.joint_cost:.2f} {currency}"),
        ("together", f"{totals.objective:.2f} {currency}"),
        ("no plan can be below", f"{totals.bound:.2f} {currency}, by {totals.bound_reason}"),
    ]
    if totals.proven:
        rows[-1] = ("proven minimum", f"by {totals.bound_reason}")
    for name, value in rows:
        print(f"{name:<26}{value}")
    print(f"audited: nothing wrong. Open {out / 'index.html'}")
    print(f"{len(names)} files in {out}", file=sys.stderr)
