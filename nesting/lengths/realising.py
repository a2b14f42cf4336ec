"""The exact search, second half: where each cut and scarf of a group goes, with every rule of its joints."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from itertools import pairwise

from ortools.sat.python import cp_model

from nesting.solving import Status, minimize

from .cutting import Cutting, Member
from .joined_groups import Group
from .layout import Cut, Layout

#: Solver effort for one group.
EFFORT = 0.3


@dataclass(frozen=True)
class Piece:
    """A piece that a copy may consist of: whether it is there, how long it is, and what it takes of each bar."""

    there: cp_model.IntVar
    length: cp_model.IntVar
    on: dict[int, cp_model.IntVar]


@dataclass
class _Model:
    cutting: Cutting
    bars: tuple[int, ...]
    model: cp_model.CpModel = field(default_factory=cp_model.CpModel)
    loads: dict[int, list[cp_model.LinearExprT]] = field(default_factory=dict)


def realised(cutting: Cutting, group: Group) -> tuple[Status, Layout]:
    """Lay out a group with exactly its lengths and joints.

    Returns
    -------
    (Status, Layout)
        The layout counts copies from 1 and is empty unless the status says that one was found; ``IMPOSSIBLE``
        is proven, and running out of effort is ``UNKNOWN``.
    """
    bars = tuple(index for index in sorted(group.bars) for _ in range(group.bars[index]))
    parts = _Model(cutting, bars, loads={bar: [] for bar in range(len(bars))})
    spare = group.joints - sum((m.least_joints or 0) * group.copies[m.index] for m in cutting.members)
    strips = {
        (member.index, copy + 1): pieces
        for member in cutting.members
        for copy, pieces in enumerate(_copies_of(parts, member, group, spare))
    }
    parts.model.add(sum(piece.there for pieces in strips.values() for piece in pieces[1:]) == group.joints)
    _fill_bars(parts)
    answer = minimize(parts.model, effort=EFFORT)
    if not answer.found:
        return answer.status, Layout()
    cuts = [cut for name, pieces in strips.items() for cut in _read(name, pieces, answer.values)]
    return answer.status, Layout(bars, tuple(cuts))


def _copies_of(parts: _Model, member: Member, group: Group, spare: int) -> list[list[Piece]]:
    """Add all copies of a member, each with at most the fewest joints and the spare ones."""
    most = min((member.least_joints or 0) + spare, max(member.most_joints, member.least_joints or 0))
    copies = [_strip(parts, member, f"{member.index} {copy}", most) for copy in range(group.copies[member.index])]
    for before, after in pairwise(copies):  # equal copies could be renamed
        parts.model.add(sum(piece.there for piece in before) >= sum(piece.there for piece in after))
    return copies


def _strip(parts: _Model, member: Member, name: str, joints: int) -> list[Piece]:
    """Add one copy with at most so many joints, all its rules kept."""
    pieces = [_piece(parts, member, f"{name} {index}") for index in range(joints + 1)]
    model = parts.model
    model.add(pieces[0].there == 1)
    model.add(sum(piece.length for piece in pieces) - member.lap * sum(p.there for p in pieces[1:]) == member.length)
    for index in range(1, len(pieces)):
        model.add_implication(pieces[index].there, pieces[index - 1].there)
        _joint(parts, member, pieces, index)
    return pieces


def _piece(parts: _Model, member: Member, name: str) -> Piece:
    model, cutting = parts.model, parts.cutting
    piece = Piece(model.new_bool_var(f"there {name}"), model.new_int_var(0, member.longest, f"length {name}"), {})
    shares = []
    for bar, stock in enumerate(parts.bars):
        if stock in member.stocks:
            piece.on[bar] = model.new_bool_var(f"on {name} {bar}")
            share = model.new_int_var(0, cutting.longest_from(stock), f"share {name} {bar}")
            model.add(share <= cutting.longest_from(stock) * piece.on[bar])
            shares.append(share)
            parts.loads[bar].append(share + cutting.kerf * piece.on[bar])
    model.add(sum(piece.on.values()) == piece.there)
    model.add(sum(shares) == piece.length)
    return piece


def _joint(parts: _Model, member: Member, pieces: list[Piece], index: int) -> None:
    """Add the rules of the joint before a piece: its place, and the least lengths on its two sides."""
    model, there = parts.model, pieces[index].there
    before_it = member.lap if index > 1 else member.half_lap
    model.add(pieces[index - 1].length >= member.spacing + before_it).only_enforce_if(there)
    model.add(pieces[index].length >= member.spacing + member.half_lap).only_enforce_if(there)
    station = sum(piece.length for piece in pieces[:index]) - (index - 1) * member.lap - member.half_lap
    allowed = cp_model.Domain.from_intervals(list(_allowed(member)))
    model.add_linear_expression_in_domain(station, allowed).only_enforce_if(there)


def _allowed(member: Member) -> Iterator[tuple[int, int]]:
    """Yield the stations at which a lap keeps off the ends and the no-joint zones."""
    start = member.spacing
    for zone_start, zone_end in sorted(member.zones):
        yield from _if_forward(start, min(zone_start - member.half_lap, member.length - member.spacing))
        start = max(start, zone_end + member.half_lap)
    yield from _if_forward(start, member.length - member.spacing)


def _if_forward(start: int, end: int) -> Iterator[tuple[int, int]]:
    if start <= end:
        yield start, end


def _fill_bars(parts: _Model) -> None:
    """Keep each bar within its room; equal bars stand in the order of their loads, since they could be swapped."""
    for bar, stock in enumerate(parts.bars):
        parts.model.add(sum(parts.loads[bar]) <= parts.cutting.stocks[stock].room)
        if bar and parts.bars[bar - 1] == stock:
            parts.model.add(sum(parts.loads[bar - 1]) >= sum(parts.loads[bar]))


def _read(name: tuple[int, int], pieces: list[Piece], values: Mapping[str, int]) -> Iterator[Cut]:
    member, copy = name
    for index, piece in enumerate(pieces):
        for bar, on in piece.on.items():
            if values[on.name]:
                yield Cut(member, copy, index, values[piece.length.name], bar)
