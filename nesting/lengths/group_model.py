"""One group as a model of all its pieces, with every rule of joints."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from ortools.sat.python import cp_model

from .buying import Part
from .crossing import allowed_stations
from .cutting import Member
from .groups import Group
from .layout import Cut
from .task import Task


@dataclass(frozen=True)
class Piece:
    """A piece that a copy may consist of: whether it is there, how long it is, and what it takes of each opening."""

    there: cp_model.IntVar
    length: cp_model.IntVar
    on: dict[int, cp_model.IntVar]


@dataclass(frozen=True)
class Joint:
    """A joint that a copy may have, and its station."""

    there: cp_model.IntVar
    station: cp_model.LinearExprT


@dataclass
class GroupModel:
    """The variables of one group: what is cut from each opening, and the pieces of each copy of each member.

    Copies of members in ``kept_apart`` are not to be renamed: rules beyond the group tell them apart.
    """

    task: Task
    name: str
    openings: tuple[int, ...]
    model: cp_model.CpModel
    kept_apart: frozenset[int] = frozenset()
    loads: dict[int, list[cp_model.LinearExprT]] = field(default_factory=dict)
    strips: dict[tuple[int, int], list[Piece]] = field(default_factory=dict)


def add_group(
    task: Task, model: cp_model.CpModel, group: Group, name: str, kept_apart: frozenset[int] = frozenset()
) -> GroupModel:
    """Add one group with all rules."""
    parts = _parts(task, model, group, name, kept_apart)
    model.add(sum(p.there for pieces in parts.strips.values() for p in pieces[1:]) == group.joints)
    _leave_little(parts, group)
    if group.joints == len(parts.openings) - 1:
        _without_rings(parts)
    return parts


def add_core(
    task: Task, model: cp_model.CpModel, core: Group, name: str, kept_apart: frozenset[int] = frozenset()
) -> GroupModel:
    """Add strips of a group beside which it may make others, that take room and joints too."""
    parts = _parts(task, model, core, name, kept_apart)
    model.add(sum(p.there for pieces in parts.strips.values() for p in pieces[1:]) <= core.joints)
    return parts


def _parts(task: Task, model: cp_model.CpModel, group: Group, name: str, kept_apart: frozenset[int]) -> GroupModel:
    """Add all copies, with the rules of each, within the rooms of the openings."""
    openings = tuple(kind for kind, count in enumerate(group.openings) for _ in range(count))
    parts = GroupModel(task, name, openings, model, kept_apart, {place: [] for place in range(len(openings))})
    made = [(place, count) for place, count in enumerate(group.strips) if count]
    fewest = sum((task.members[place].least_joints or 0) * count for place, count in made)
    for place, count in made:
        _copies(parts, place, count, group.joints - fewest)
    _fill(parts)
    return parts


def _copies(parts: GroupModel, place: int, count: int, spare: int) -> None:
    """Add all copies of a member, each with at most the fewest joints and the spare ones."""
    member = parts.task.members[place]
    fewest = member.least_joints or 0
    most = min(fewest + max(0, spare), max(member.most_joints, fewest))
    for copy in range(count):
        parts.strips[place, copy] = _strip(parts, member, place, f"{parts.name}{place} {copy}", most)
    if place in parts.kept_apart:
        return
    for copy in range(1, count):  # equal copies could be renamed: most pieces first, then the longest first piece
        before, after = parts.strips[place, copy - 1], parts.strips[place, copy]
        parts.model.add(_rank(member, before) >= _rank(member, after))


def _rank(member: Member, pieces: Sequence[Piece]) -> cp_model.LinearExprT:
    return sum(piece.there for piece in pieces) * (1 + member.longest) + pieces[0].length


def _strip(parts: GroupModel, member: Member, place: int, name: str, joints: int) -> list[Piece]:
    """Add one copy with at most so many joints, all its rules kept."""
    pieces = [_piece(parts, member, place, f"{name} {index}") for index in range(joints + 1)]
    model = parts.model
    model.add(pieces[0].there == 1)
    model.add(sum(piece.length for piece in pieces) - member.lap * sum(p.there for p in pieces[1:]) == member.length)
    allowed = cp_model.Domain.from_intervals(list(allowed_stations(member)))
    stations = list(joints_of(member, pieces))
    for index, joint in enumerate(stations, start=1):
        model.add_implication(joint.there, pieces[index - 1].there)
        model.add_linear_expression_in_domain(joint.station, allowed).only_enforce_if(joint.there)
    for before, after in pairwise(stations):
        model.add(before.station + member.least_between <= after.station).only_enforce_if(after.there)
    return pieces


def _piece(parts: GroupModel, member: Member, place: int, name: str) -> Piece:
    model, cutting = parts.model, parts.task.cutting
    piece = Piece(model.new_bool_var(f"there {name}"), model.new_int_var(0, member.longest, f"length {name}"), {})
    shares = []
    for number, kind in enumerate(parts.openings):
        opening = parts.task.openings[kind]
        if place in opening.members:
            longest = max(0, cutting.longest_in(opening.room))
            piece.on[number] = model.new_bool_var(f"on {name} {number}")
            share = model.new_int_var(0, longest, "")
            model.add(share <= longest * piece.on[number])
            shares.append(share)
            parts.loads[number].append(share + cutting.kerf * piece.on[number])
    model.add(sum(piece.on.values()) == piece.there)
    model.add(sum(shares) == piece.length)
    return piece


def joints_of(member: Member, pieces: Sequence[Piece]) -> Iterator[Joint]:
    """Yield the joint before each piece but the first."""
    for index in range(1, len(pieces)):
        station = sum(piece.length for piece in pieces[:index]) - (index - 1) * member.lap - member.half_lap
        yield Joint(pieces[index].there, station)


def _fill(parts: GroupModel) -> None:
    """Keep each opening within its room; equal ones stand in the order of their loads, since they could be swapped."""
    for number, kind in enumerate(parts.openings):
        parts.model.add(sum(parts.loads[number]) <= parts.task.openings[kind].room)
        if number and parts.openings[number - 1] == kind:
            parts.model.add(sum(parts.loads[number - 1]) >= sum(parts.loads[number]))


def _leave_little(parts: GroupModel, group: Group) -> None:
    """Tell the solver what follows from all rooms and strips: no opening can have more left than there is in all."""
    task = parts.task
    joinable = [member for member, count in zip(task.members, group.strips, strict=True) if count and member.joinable]
    lap = min((member.lap for member in joinable), default=0) + task.cutting.kerf
    need = sum(int(size) * count for size, count in zip(task.sizes, group.strips, strict=True)) + lap * group.joints
    left = sum(task.openings[kind].room for kind in parts.openings) - need
    for number, kind in enumerate(parts.openings):
        parts.model.add(sum(parts.loads[number]) >= task.openings[kind].room - left)


def _without_rings(parts: GroupModel) -> None:
    """Let no copy have two pieces of one opening.

    With one joint fewer than openings, openings and copies hang together without rings; what falls apart into groups
    is listed as these.
    """
    for pieces in parts.strips.values():
        for number in range(len(parts.openings)):
            twice = [piece.on[number] for piece in pieces if number in piece.on]
            if len(twice) > 1:
                parts.model.add_at_most_one(twice)


def part_of_model(parts: GroupModel, values: Mapping[str, int]) -> Part:
    """Return what the values of a solved model cut from the openings of its group."""
    cuts = []
    for (place, copy), pieces in parts.strips.items():
        for index, piece in enumerate(pieces):
            for number, on in piece.on.items():
                if values[on.name]:
                    member = parts.task.members[place]
                    cuts.append(Cut(member.index, copy + 1, index, values[piece.length.name], number))
    return Part(parts.openings, tuple(cuts))
