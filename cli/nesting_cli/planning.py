"""The verb ``plan``."""

import signal
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from threading import Event

from nesting.effort import Budget, Effort, News, Progress
from nesting.files import RUN_RECORD, located, plan_json, read_job, require_usable, write_folder
from nesting.model import Job, JobError, NoPlanError, Plan
from nesting.planner import USUAL_WORK
from nesting.planner import plan as make

from .hinting import say_hints
from .run_record import run_record
from .showing import shown
from .telling import Teller, tell_as_table


def make_plan(
    job_file: Path, out: Path, *, work: int | None, seconds: float | None, seed: int, tell: Teller = tell_as_table
) -> None:
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
    tell(plan, out, names, stopped=stopped)
    say_hints(job, job_file)  # last: a job that can't be planned gets one clear message and no hints beside it


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
