"""``engine``: what the packing engine needs before and while it searches: compiling, moves, a thousand parts."""

import os
import resource
import subprocess
import sys
import tempfile
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial

import numpy as np
import shapely
from shapely.geometry import Polygon

from nesting.compiling import lean_kernel
from nesting.effort import Budget, Effort
from nesting.packing import Container, Gaps, Item, Workshop, is_feasible, pack_several, wait_until_compiled
from nesting.packing.arrays import Around, Floats, Layout, Tables
from nesting.packing.kernels import exact_at, gather
from nesting.packing.posing import pose
from nesting.packing.searching import MOVES_A_UNIT
from nesting.packing.wanting import want

from .options import Options
from .records import Record
from .running import Benchmark
from .stopwatch import Stopwatch

#: Parts of the large problem, and corners of each.
PARTS, CORNERS = 1000, 60

#: Moves of single items that are timed, and places at which the loss of an item is.
MOVES, PLACES = 20_000, 200_000

#: Density asked for while moves are timed: more than can be had, so that the search does not end.
FULL = 0.95

#: Sheet and gap of all problems, in millimetres.
SHEET, GAP = Container(shapely.box(0, 0, 2440, 1220)), 3.0


@dataclass(frozen=True)
class Trial:
    """One thing to be measured; returns a value for each measure."""

    name: str
    measured: Callable[[int], dict[str, float]]
    family: str = "engine"


def _compiling(seed: int) -> dict[str, float]:
    """Compile all kernels in a fresh process with an empty cache."""
    del seed
    with tempfile.TemporaryDirectory() as folder:
        watch = Stopwatch()
        code = "from nesting.packing import warm_up; warm_up()"
        subprocess.run([sys.executable, "-c", code], check=True, env={**os.environ, "NUMBA_CACHE_DIR": folder})
        return {"compile CPU seconds": watch.cpu_seconds}


def _searching(seed: int) -> dict[str, float]:
    """Search for 50 parts on a strip that is too short for them, and ask for the loss of one of them at many places."""
    wait_until_compiled()
    items = [Item(_part(kind, seed), (0.0, 180.0)) for kind in range(10) for _ in range(5)]
    workshop, effort = Workshop(Gaps(parts=GAP)), Effort(Budget(work=MOVES // MOVES_A_UNIT))
    wanted = [want(workshop, item) for item in items]
    length = sum(item.area for item in wanted) / 1220 / FULL
    search = pose(workshop, wanted, [shapely.box(0, 0, length, 1220)], [], effort, seed)
    for item in range(len(items)):
        search.place(item)
    watch, before = Stopwatch(), search.moves
    search.separate(patience=10**9)
    moves = (search.moves - before) / watch.cpu_seconds
    gather(search.tables, search.layout, 0, search.around)
    places = np.random.default_rng(seed).uniform(search.layout.room[0, :2], search.layout.room[0, 2:], (PLACES, 2))
    _losses(search.tables, search.layout, search.around, places[:1])  # compiled before the watch starts
    watch = Stopwatch()
    _losses(search.tables, search.layout, search.around, places)
    return {"moves/s": moves, "losses/s": PLACES / watch.cpu_seconds}


@lean_kernel
def _losses(tables: Tables, layout: Layout, around: Around, places: Floats) -> float:
    """Work out the loss of the first item among all others at many places."""
    total = 0.0
    for k in range(len(places)):
        total += exact_at(tables, around, 0, layout.look[0], places[k, 0], places[k, 1])
    return total


def _thousand(kinds: int, seed: int) -> dict[str, float]:
    """Lay a thousand parts of so many kinds for the first time."""
    wait_until_compiled()
    polygons = [_part(kind, seed) for kind in range(kinds)]
    items = [Item(polygons[k % kinds], (0.0, 180.0)) for k in range(PARTS)]
    watch = Stopwatch()
    layout = next(pack_several(Workshop(Gaps(parts=GAP), 0.3), items, [SHEET] * 40, Effort(Budget(work=0)), seed=seed))
    cpu_seconds = watch.cpu_seconds
    if layout.left_out or not all(is_feasible(SHEET, items, one.placements, GAP) for one in layout.laid):
        raise AssertionError("the layout is wrong")
    area, bought = sum(item.polygon.area for item in items), len(layout.laid) * SHEET.free_area
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    return {"first layout CPU seconds": cpu_seconds, "fill %": 100 * area / bought, "peak MB so far": peak}


def _part(kind: int, seed: int) -> Polygon:
    """Return a smooth part of many corners, 120 to 700 mm long: a rounded shape with two or three lobes."""
    chance = np.random.default_rng([seed, kind])
    turn = np.linspace(0, 2 * np.pi, CORNERS, endpoint=False)
    lobes = 1 + 0.25 * chance.random() * np.sin(3 * turn + chance.random() * 6)
    lobes += 0.2 * np.sin(2 * turn + chance.random() * 6)
    length, width = chance.uniform(60, 300), chance.uniform(30, 90)
    return Polygon(np.column_stack([length * lobes * np.cos(turn), width * lobes * np.sin(turn)]))


TRIALS = (
    Trial("compiling", _compiling),
    Trial("searching", _searching),
    Trial("thousand of ten kinds", partial(_thousand, 10)),
    Trial("thousand kinds", partial(_thousand, PARTS)),
)


def instances(options: Options) -> Sequence[Trial]:
    """Return all trials."""
    del options
    return TRIALS


def measure(trial: Trial, seed: int, options: Options) -> list[Record]:
    """Return a record for each of its measures."""
    watch = Stopwatch()
    measured = trial.measured(seed)
    return [
        Record(
            benchmark="engine",
            family=trial.family,
            instance=trial.name,
            measure=name,
            value=value,
            budget=options.seconds,
            seconds=watch.seconds,
            cpu_seconds=watch.cpu_seconds,
            seed=seed,
            workers=1,
            verified=True,
        )
        for name, value in measured.items()
    ]


ENGINE = Benchmark(name="engine", instances=instances, measure=measure)
