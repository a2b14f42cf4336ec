"""``fills``: piece sets known to fit one container; whether a short filling finds how."""

import json
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from shapely.geometry import Polygon, box

from nesting.effort import Budget, Effort
from nesting.packing import Container, Filling, Gaps, Item, Workshop, fill, is_feasible

from .options import Options
from .records import Record
from .running import Benchmark
from .stopwatch import Stopwatch

#: Sets drawn by chance from the pieces of the study's jobs, and kept if a long run laid all of a set.
FILE = Path(__file__).with_name("fills.json")

#: Millimetres by which curves may be taken for larger than they are.
COARSENESS = 0.3

#: Work units of a usual run.
WORK = 4000


@dataclass(frozen=True)
class PieceSet:
    """Pieces, the container that holds them all, the gap between them, and how full it then is."""

    name: str
    family: str
    container: Container
    gap: float
    density: float
    items: tuple[Item, ...]


def instances(options: Options) -> Sequence[PieceSet]:
    """Return all sets."""
    del options  # our own data, few enough
    return [_piece_set(number, one) for number, one in enumerate(json.loads(FILE.read_text(encoding="utf-8")))]


def measure(instance: PieceSet, seed: int, options: Options) -> list[Record]:
    """Fill once for each budget; what is prepared in a workshop beforehand is not counted, as in thousands of fills."""
    workshop = Workshop(Gaps(parts=instance.gap), COARSENESS)
    fill(workshop, instance.container, instance.items, Effort(Budget(work=0)))
    return [_filled(workshop, instance, seed, budget) for budget in options.budgets or (None,)]


def _filled(workshop: Workshop, instance: PieceSet, seed: int, budget: float | None) -> Record:
    watch = Stopwatch()
    effort = Effort(Budget(seconds=budget) if budget else Budget(work=WORK))
    filling = fill(workshop, instance.container, instance.items, effort, seed=seed)
    seconds, cpu_seconds = watch.seconds, watch.cpu_seconds
    faults = _faults(instance, filling)
    return Record(
        benchmark="fills",
        family=f"{instance.density:.0%} full",
        instance=instance.name,
        measure="complete",
        value=float(filling.complete),
        reference=1.0,
        reference_source="a long run of ours",
        budget=budget,
        seconds=seconds,
        cpu_seconds=cpu_seconds,
        seed=seed,
        workers=1,
        verified=not faults,
        faults=faults,
    )


def _faults(instance: PieceSet, filling: Filling) -> tuple[str, ...]:
    feasible = is_feasible(instance.container, instance.items, filling.placements, instance.gap)
    return () if feasible else ("pieces overlap, or reach over the edge",)


def _piece_set(number: int, one: dict[str, object]) -> PieceSet:
    pieces = one["pieces"]
    assert isinstance(pieces, list)
    length, width, gap, density = (float(str(one[key])) for key in ("length", "width", "gap", "density"))
    return PieceSet(
        name=f"{number} {one['job']}",
        family="fills",
        container=Container(box(0, 0, length, width)),
        gap=gap,
        density=density,
        items=tuple(
            Item(Polygon(piece["points"]), tuple(map(float, piece["rotations"])), piece["mirrored"]) for piece in pieces
        ),
    )


FILLS = Benchmark(name="fills", instances=instances, measure=measure)
