"""Processes for searches in rounds, and how long they worked."""

import multiprocessing
import time
from collections.abc import Callable
from concurrent.futures import Future, ProcessPoolExecutor
from typing import ParamSpec, TypeVar

from nesting.packing import wait_until_compiled

Parameters = ParamSpec("Parameters")
Result = TypeVar("Result")


class Workers(ProcessPoolExecutor):
    """A pool of processes that counts the processor seconds of what they have done."""

    def __init__(self, count: int) -> None:
        super().__init__(count, mp_context=multiprocessing.get_context("spawn"), initializer=wait_until_compiled)
        self.cpu_seconds = 0.0

    def submit(
        self, function: Callable[Parameters, Result], /, *args: Parameters.args, **kwargs: Parameters.kwargs
    ) -> Future[Result]:
        """Have a function done by one of the processes."""
        handed_on: Future[Result] = Future()

        def hand_on(timed: Future[tuple[Result, float]]) -> None:
            if timed.exception():
                handed_on.set_exception(timed.exception())
                return
            result, seconds = timed.result()
            self.cpu_seconds += seconds
            handed_on.set_result(result)

        super().submit(_timed, function, *args, **kwargs).add_done_callback(hand_on)
        return handed_on


def _timed(function: Callable[..., Result], /, *args: object, **kwargs: object) -> tuple[Result, float]:
    begun = time.process_time()
    result = function(*args, **kwargs)
    return result, time.process_time() - begun
