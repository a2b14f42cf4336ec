"""The ways to make one panel: in one piece, divided at given stations, or from a blank with its scarfs there."""

from collections.abc import Collection
from dataclasses import dataclass
from typing import Literal

from nesting.joints import DividingError, boat_station, chord, divide, straps_behind
from nesting.model import TOLERANCE, Job

from .parts import Part, longest_pieces
from .pieces import PieceKind, pieces_of, straps_of
from .stations import station_tuples


@dataclass(frozen=True, eq=False)
class Variant:
    """A panel made in one way, with its joints at ``stations``; ``joint_cost``, in cents, is for one copy.

    ``pieces`` are all that has to be cut for it, straps behind butts among them.
    Whole panels go with either way; those cut from a blank cost no joints of their own: the blank's are paid for.
    """

    panel: int
    stations: tuple[float, ...]
    boat_stations: tuple[float, ...]
    pieces: tuple[PieceKind, ...]
    joint_cost: int
    way: Literal["whole", "divided", "joined"]

    def fits(self, there: Collection[int]) -> bool:
        """Whether each piece fits one of these kinds of sheet or blank, told by their indices."""
        return all(not kind.stocks.isdisjoint(there) for kind in self.pieces)


def variants_of(part: Part, job: Job) -> tuple[Variant, ...]:
    """Return ways to make a panel whose every piece fits some sheet, those with the fewest joints first."""
    found = (variant_at(part, stations, job) for stations in _likely(part, job))
    return tuple(variant for variant in found if variant is not None)


def _likely(part: Part, job: Job) -> list[tuple[float, ...]]:
    """Return station tuples worth trying, those with the fewest first."""
    whole: list[tuple[float, ...]] = [()] if can_be_handled(part, job) else []
    if part.rule is None:
        return whole
    divided = station_tuples(part.reach, longest_pieces(part.panel, part.shape, part.stocks))
    # By its length alone a panel drawn aslant seems too long for a sheet on which it fits when it leans.
    return list(dict.fromkeys([*whole, *divided])) if part.panel.grain_tolerance else divided


def can_be_handled(part: Part, job: Job) -> bool:
    """Whether a part in one piece is no longer than the workshop can handle."""
    longest = job.workshop.longest_piece
    return longest is None or part.reach.length <= longest + TOLERANCE


def variant_at(part: Part, stations: tuple[float, ...], job: Job) -> Variant | None:
    """Return the panel so divided, or None if a piece is not sound or fits no sheet."""
    try:
        pieces = _cut(part, stations, job.rank(part.panel.grade))
    except DividingError:
        return None
    if not all(piece.stocks for piece in pieces):
        return None
    cost = sum(int(part.rule.cost.of(chord(part.shape, s)) * 100) for s in stations) if part.rule else 0
    along_boat = tuple(boat_station(station, part.panel.boat_stations) for station in stations)
    return Variant(part.index, stations, along_boat, pieces, cost, "divided" if stations else "whole")


def _cut(part: Part, stations: tuple[float, ...], rank: int) -> tuple[PieceKind, ...]:
    """Return what has to be cut: the pieces, and behind each butt a strap."""
    pieces = pieces_of(part, divide(part.shape, stations, part.reach.lap, part.reach.strap), rank)
    if not part.reach.strap:
        return pieces
    return (*pieces, *straps_of(part, straps_behind(part.shape, stations, part.reach.strap), rank))
