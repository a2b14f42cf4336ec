"""Runs a direct model beside our own plan, and holds the one against the other."""

from collections.abc import Callable, Iterator, Sequence
from functools import cache
from pathlib import Path
from typing import TypeVar

from .data import spread_of_each
from .direct_model import DirectModel
from .records import Record
from .running import Named
from .stopwatch import Stopwatch

Instance = TypeVar("Instance", bound=Named)

#: Instances of each family that direct models are run beside.
DIRECT = 20

#: What plans are called by who makes them.
OURS, BY_CP_SAT, BY_HIGHS = "ours", "direct CP-SAT", "direct HiGHS"


@cache
def run_beside(folder: Path, read: Callable[[Path], Sequence[Instance]]) -> frozenset[str]:
    """Return the names of the instances that direct models are run beside; ``read`` is asked once for a folder."""
    return frozenset(one.name for one in spread_of_each(read(folder), lambda one: one.family, DIRECT))


def beside(ours: Record, model: DirectModel, seconds: float) -> Iterator[Record]:
    """Yield what CP-SAT and HiGHS make of a direct model in so many seconds each, on one thread."""
    for name, solve in ((BY_CP_SAT, model.by_cp_sat), (BY_HIGHS, model.by_highs)):
        watch = Stopwatch()
        answer = solve(seconds)
        value = float("inf") if answer.objective is None else float(answer.objective)
        bound = None if answer.bound is None else float(answer.bound)
        wrong = []
        if bound is not None and bound > ours.value:
            wrong.append(f"{name} proves {bound:g}, and we have a verified plan of {ours.value:g}")
        if ours.bound is not None and value < ours.bound:
            wrong.append(f"{name} has {value:g}, and we prove {ours.bound:g}")
        yield Record(
            benchmark=ours.benchmark,
            family=ours.family,
            instance=ours.instance,
            measure=name,
            value=value,
            bound=bound,
            proven=value == bound,
            reference=ours.reference,
            reference_source=ours.reference_source,
            budget=ours.budget,
            seconds=watch.seconds,
            cpu_seconds=watch.cpu_seconds,
            seed=ours.seed,
            workers=1,
            verified=not wrong,
            faults=tuple(wrong),
        )
