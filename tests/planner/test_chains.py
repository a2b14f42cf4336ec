"""Plans from several chains side by side, wherever these run."""

import os
from concurrent.futures import Executor, Future, ProcessPoolExecutor
from multiprocessing import get_context
from threading import Timer
from typing import Any

import pytest

from nesting.effort import Budget, Effort, News
from nesting.files import plan_json
from nesting.packing import wait_until_compiled
from nesting.planner import plan
from tests.jobs import PLY, job, panel

#: Takes a while to get to its best: panels that may be divided in many ways, and two kinds of sheet.
BOAT = job(
    panel("side", 3100, 460, quantity=2, handed=True, joint="scarf"),
    panel("bottom", 2800, 640, joint="scarf"),
    panel("frame", 960, 330, quantity=5, grain="any"),
    sheets=({**PLY, "name": "small", "size": [2100, 900], "price": "53.00"}, PLY),
)


def processes(count: int) -> ProcessPoolExecutor:
    """Return workers that have their kernels compiled."""
    return ProcessPoolExecutor(count, mp_context=get_context("spawn"), initializer=wait_until_compiled)


def made(chains: int = 2, executor: Executor | None = None, work: int = 2500) -> bytes:
    """Return the bytes of a plan."""
    return bytes(plan_json(plan(BOAT, effort=Effort(Budget(work=work)), chains=chains, executor=executor)), "utf-8")


@pytest.fixture(scope="module")
def alone() -> bytes:
    """A plan of two chains that run here."""
    return made()


@pytest.mark.parametrize("count", [1, 2])
def test_plans_are_the_same_whatever_the_number_of_workers(alone: bytes, count: int) -> None:
    """To the byte."""
    with processes(count) as workers:
        assert made(executor=workers) == alone


def test_a_plan_survives_its_workers(alone: bytes) -> None:
    """What they were at is done here."""
    with processes(1) as workers:
        workers.submit(os._exit, 1)
        assert made(executor=workers) == alone


def test_one_chain_never_asks_for_a_worker() -> None:
    """It is searched for here."""
    nobody = Executor()  # it raises an error where it is asked for anything
    assert made(chains=1, executor=nobody, work=500) == made(chains=1, work=500)


def test_a_search_without_a_chain_is_refused() -> None:
    """Before anything is done."""
    with pytest.raises(ValueError, match="without a chain there is no search"):
        plan(BOAT, chains=0)


def test_a_stop_is_heard_while_workers_are_busy() -> None:
    """They may never come back, neither from being called nor from a round: the best plan so far is there."""

    class Busy(Executor):
        def submit(self, function: Any, /, *args: Any, **kwargs: Any) -> Future[Any]:
            tasks.append((function, args, kwargs))
            if len(tasks) == 4:
                Timer(0.1, effort.stop).start()
            return Future()

    effort, told, tasks = Effort(Budget()), list[News](), list[Any]()
    best = plan(BOAT, effort=effort, progress=told.append, chains=2, executor=Busy())
    assert len(tasks) == 4
    assert best.totals.objective == told[-1].objective
