"""Processes in which a search goes on side by side, and which never outlive it."""

import multiprocessing
import os
import signal
from collections.abc import Callable, Iterator
from concurrent.futures import Executor, Future, ProcessPoolExecutor
from contextlib import contextmanager
from multiprocessing.context import SpawnContext, SpawnProcess
from threading import Thread
from typing import Any, ParamSpec, TypeVar

Parameters = ParamSpec("Parameters")
Result = TypeVar("Result")


@contextmanager
def workers(count: int) -> Iterator[Executor]:
    """Give so many processes, begun when they are first asked for, and end them afterwards whatever they are at."""
    pool = _Workers(count)
    try:
        yield pool
    finally:
        pool.end()


class _Workers(ProcessPoolExecutor):
    """Processes that have the kernels compiled before they do anything, and hear nothing of Ctrl-C."""

    def __init__(self, count: int) -> None:
        self._context = _Noting()
        super().__init__(count, mp_context=self._context, initializer=_begin)

    def submit(
        self, function: Callable[Parameters, Result], /, *args: Parameters.args, **kwargs: Parameters.kwargs
    ) -> Future[Result]:
        """Have a function done by one of the processes."""
        with _deaf_to_interrupts():  # and so are the processes that are begun here, from their first moment
            return super().submit(function, *args, **kwargs)

    def end(self) -> None:
        """End all processes at once."""
        self.shutdown(wait=False, cancel_futures=True)
        for process in self._context.begun:
            process.terminate()
        for process in self._context.begun:
            process.join()


class _Noting(SpawnContext):
    """Starts processes anew, not as copies, and notes which."""

    def __init__(self) -> None:
        super().__init__()
        self.begun: list[SpawnProcess] = []

    def Process(self, *args: Any, **kwargs: Any) -> SpawnProcess:  # type: ignore[override]  # noqa: N802
        """Return a process to be started."""
        process = SpawnProcess(*args, **kwargs)
        self.begun.append(process)
        return process


@contextmanager
def _deaf_to_interrupts() -> Iterator[None]:
    """Let Ctrl-C wait, where that can be: it is heard afterwards."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def _begin() -> None:
    """Make a process ready."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    Thread(target=_end_with_the_parent, name="parent", daemon=True).start()
    from nesting.packing import wait_until_compiled

    wait_until_compiled()


def _end_with_the_parent() -> None:
    """End this process when the one that began it is gone, even if that was killed."""
    parent = multiprocessing.parent_process()
    if parent is not None:
        parent.join()
        os._exit(1)
