"""The verb ``plan``."""

import signal
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from threading import Event
from typing import TYPE_CHECKING

from nesting.effort import Budget, Effort, News, Progress
from nesting.files import RUN_RECORD, located, plan_json, read_job, require_usable, write_folder
from nesting.model import Job, JobError, NoPlanError, Plan
from nesting.planner import USUAL_WORK
from nesting.planner import plan as make

from .hinting import say_hints
from .run_record import run_record
from .showing import shown
from .telling import Teller, tell_as_table

if TYPE_CHECKING:
    from concurrent.futures import Executor


@dataclass(frozen=True, kw_only=True)
class Asked:
    """How a plan is to be searched for; ``workers`` are processes."""

    work: int | None = None
    seconds: float | None = None
    seed: int = 0
    chains: int = 1
    workers: int = 1

    @property
    def budget(self) -> Budget:
        """What may be spent."""
        usual = USUAL_WORK if self.work is None and self.seconds is None else None
        return Budget(work=self.work if self.work is not None else usual, seconds=self.seconds)

    @property
    def busy_workers(self) -> int:
        """How many processes there is something to do for."""
        return min(self.workers, self.chains)


def make_plan(job_file: Path, out: Path, asked: Asked, tell: Teller = tell_as_table) -> None:
    """Read a job, plan it, write everything, and say what came out."""
    require_usable(out)
    job = read_job(job_file)
    effort = Effort(asked.budget)
    with stopping_on_interrupt(effort) as hear:
        with shown() as show:
            plan = _planned(job, job_file, asked, effort, _both(hear, show))
        stopped = effort.stopped
        names = _write(plan, job_file, out, asked, stopped=stopped)
    tell(plan, out, names, stopped=stopped)
    say_hints(job, job_file)  # last: a job that can't be planned gets one clear message and no hints beside it


def _write(plan: Plan, job_file: Path, out: Path, asked: Asked, *, stopped: bool) -> list[str]:
    """Write everything and return the names of the files."""
    from nesting.report import report_files  # only now: the first plan shows the sooner

    files = {"plan.json": plan_json(plan), **report_files(plan)}
    files[RUN_RECORD] = run_record(
        job_file, plan, files, chains=asked.chains, workers=asked.busy_workers, stopped=stopped
    )
    write_folder(out, files)
    return sorted(files)


def _planned(job: Job, job_file: Path, asked: Asked, effort: Effort, progress: Progress) -> Plan:
    try:
        with _workers(asked.busy_workers) as executor:
            return make(job, seed=asked.seed, effort=effort, progress=progress, chains=asked.chains, executor=executor)
    except NoPlanError as error:
        raise NoPlanError(located(error.problems, job_file)) from None
    except JobError as error:
        raise JobError(located(error.problems, job_file)) from None


@contextmanager
def _workers(count: int) -> Iterator["Executor | None"]:
    """Give so many processes; none for one, as what there is to do is then done here."""
    if count == 1:
        yield None
        return
    from .workers import workers  # only now: the first plan shows the sooner

    with workers(count) as executor:
        yield executor


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
