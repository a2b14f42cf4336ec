"""The ways to make one panel: in one piece, or divided at given stations."""

from dataclasses import dataclass

from nesting.joints import DividingError, boat_station, chord, divide
from nesting.model import Job

from .parts import Part, longest_along
from .pieces import PieceKind, pieces_of
from .stations import station_tuples


@dataclass(frozen=True, eq=False)
class Variant:
    """A panel divided at ``stations``; ``joint_cost``, in cents, is for one copy."""

    panel: int
    stations: tuple[float, ...]
    boat_stations: tuple[float, ...]
    pieces: tuple[PieceKind, ...]
    joint_cost: int


def variants_of(part: Part, job: Job) -> tuple[Variant, ...]:
    """Return ways to make a panel whose every piece fits some sheet, those with the fewest joints first."""
    reach = part.reach
    if part.rule is None:
        tuples: list[tuple[float, ...]] = [()]
    else:
        tuples = station_tuples(reach, [longest_along(part.panel, stock) for stock in part.stocks])
    found = (_variant(part, stations, job) for stations in tuples)
    return tuple(variant for variant in found if variant is not None)


def _variant(part: Part, stations: tuple[float, ...], job: Job) -> Variant | None:
    """Return the panel so divided, or None if a piece is not sound or fits no sheet."""
    try:
        shapes = divide(part.shape, stations, part.reach.lap)
    except DividingError:
        return None
    pieces = pieces_of(part, shapes, job.rank(part.panel.grade))
    if not all(piece.stocks for piece in pieces):
        return None
    cost = sum(int(part.rule.cost.of(chord(part.shape, s)) * 100) for s in stations) if part.rule else 0
    along_boat = tuple(boat_station(station, part.panel.boat_stations) for station in stations)
    return Variant(part.index, stations, along_boat, pieces, cost)
