"""Where each cut and scarf of chosen groups goes, with every rule of their joints: a small model for each."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import pairwise
from math import lcm

from ortools.sat.python import cp_model

from nesting.solving import Status, minimize

from .buying import Part, plain_part
from .cutting import Member
from .groups import Group
from .layout import Cut
from .task import Task

#: Solver effort for one group, and for groups whose joints must keep a shift.
EFFORT = 0.4
EFFORT_TOGETHER = 1.5

#: Objectives from this on don't fit the solver's whole numbers.
MOST = 2**60

_Term = tuple[int, cp_model.IntVar]


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
class _Model:
    task: Task
    name: str
    openings: tuple[int, ...]
    model: cp_model.CpModel
    loads: dict[int, list[cp_model.LinearExprT]] = field(default_factory=dict)
    strips: dict[tuple[int, int], list[Piece]] = field(default_factory=dict)


def realised(task: Task, group: Group, seconds: float | None = None, patience: int = 1) -> tuple[Status, Part]:
    """Lay out a group with exactly its openings and joints, with so many times the usual effort.

    Returns
    -------
    (Status, Part)
        The part is empty unless the status says that one was found; ``IMPOSSIBLE`` is proven, and running out of
        effort is ``UNKNOWN``.
    """
    if sum(group.openings) == 1 and group.joints == 0:
        return Status.OPTIMAL, plain_part(task, group.openings.index(1), group.strips)
    model = cp_model.CpModel()
    parts = _group(task, model, group, "")
    _keep_most(model, [parts])
    answer = minimize(model, effort=EFFORT * patience, seconds=seconds)
    return answer.status, _part(parts, answer.values) if answer.found else Part((), ())


def realised_together(
    task: Task, groups: Sequence[Group], seconds: float | None = None, patience: int = 1
) -> tuple[Status, tuple[Part, ...]]:
    """Lay out several groups so that joints keep their shift from group to group, and are matched."""
    model = cp_model.CpModel()
    parts = _together(task, model, groups)
    _keep_most(model, parts)
    answer = minimize(model, effort=EFFORT_TOGETHER * patience, seconds=seconds)
    if not answer.found:
        return answer.status, ()
    return answer.status, tuple(_part(part, answer.values) for part in parts)


def best_realised(
    task: Task, groups: Sequence[Group], seconds: float | None = None, effort: float = EFFORT
) -> tuple[Part, ...]:
    """Lay out groups at the least cost, so that most is kept in offcuts and most joints lie where they are better.

    Empty if the effort does not do for any layout.
    """
    model = cp_model.CpModel()
    parts = _together(task, model, groups)
    _keep_and_prefer(model, parts)
    answer = minimize(model, effort=effort, seconds=seconds)
    return tuple(_part(part, answer.values) for part in parts) if answer.found else ()


def paired_in_one_way(task: Task) -> bool:
    """Whether matched copies can be paired in one way only, so that what is refuted for that is refuted."""
    return all(member.quantity <= 2 for member in task.members if member.matched and member.most_joints)


def _together(task: Task, model: cp_model.CpModel, groups: Sequence[Group]) -> list[_Model]:
    """Add groups with all rules, those that joints keep from group to group too."""
    parts = [_group(task, model, group, f"{number} ") for number, group in enumerate(groups)]
    joints: dict[int, list[list[Joint]]] = {}
    copies: dict[int, list[list[Piece]]] = {}
    for part in parts:
        for (place, _), pieces in part.strips.items():
            copies.setdefault(place, []).append(pieces)
            joints.setdefault(place, []).append(list(_joints(task.members[place], pieces)))
    for place in sorted(task.tied & copies.keys()):
        if task.members[place].matched:
            _match(model, copies[place])
    for shift in task.shifts:
        for one, copy in enumerate(joints.get(shift.one, [])):
            others = joints.get(shift.other, [])
            for other in others[one + 1 :] if shift.one == shift.other else others:
                _keep_apart(model, copy, other, shift.distance)
    return parts


def _match(model: cp_model.CpModel, copies: Sequence[Sequence[Piece]]) -> None:
    """Let the first and second copy, the third and fourth, and so on have equal pieces, one after the other."""
    for one, other in zip(copies[::2], copies[1::2], strict=False):
        for a, b in zip(one, other, strict=False):
            model.add(a.there == b.there)
            model.add(a.length == b.length)
        shorter, longer = sorted((one, other), key=len)
        for piece in longer[len(shorter) :]:
            model.add(piece.there == 0)


def _keep_apart(model: cp_model.CpModel, one: list[Joint], other: list[Joint], distance: int) -> None:
    for a in one:
        for b in other:
            before = model.new_bool_var("")
            model.add(a.station + distance <= b.station).only_enforce_if(before, a.there, b.there)
            model.add(b.station + distance <= a.station).only_enforce_if(~before, a.there, b.there)


def _group(task: Task, model: cp_model.CpModel, group: Group, name: str) -> _Model:
    """Add one group with all rules."""
    openings = tuple(kind for kind, count in enumerate(group.openings) for _ in range(count))
    parts = _Model(task, name, openings, model, {place: [] for place in range(len(openings))})
    fewest = sum((m.least_joints or 0) * count for m, count in zip(task.members, group.strips, strict=True))
    for place, count in enumerate(group.strips):
        _copies(parts, place, count, group.joints - fewest)
    model.add(sum(p.there for pieces in parts.strips.values() for p in pieces[1:]) == group.joints)
    _fill(parts)
    return parts


def _copies(parts: _Model, place: int, count: int, spare: int) -> None:
    """Add all copies of a member, each with at most the fewest joints and the spare ones."""
    member = parts.task.members[place]
    fewest = member.least_joints or 0
    most = min(fewest + max(0, spare), max(member.most_joints, fewest))
    for copy in range(count):
        parts.strips[place, copy] = _strip(parts, member, place, f"{parts.name}{place} {copy}", most)
    if place in parts.task.tied:
        return
    for copy in range(1, count):  # equal copies could be renamed
        before, after = parts.strips[place, copy - 1], parts.strips[place, copy]
        parts.model.add(sum(piece.there for piece in before) >= sum(piece.there for piece in after))


def _strip(parts: _Model, member: Member, place: int, name: str, joints: int) -> list[Piece]:
    """Add one copy with at most so many joints, all its rules kept."""
    pieces = [_piece(parts, member, place, f"{name} {index}") for index in range(joints + 1)]
    model = parts.model
    model.add(pieces[0].there == 1)
    model.add(sum(piece.length for piece in pieces) - member.lap * sum(p.there for p in pieces[1:]) == member.length)
    allowed = cp_model.Domain.from_intervals(list(_allowed(member)))
    stations = list(_joints(member, pieces))
    for index, joint in enumerate(stations, start=1):
        model.add_implication(joint.there, pieces[index - 1].there)
        model.add_linear_expression_in_domain(joint.station, allowed).only_enforce_if(joint.there)
    for before, after in pairwise(stations):
        model.add(before.station + member.least_between <= after.station).only_enforce_if(after.there)
    return pieces


def _piece(parts: _Model, member: Member, place: int, name: str) -> Piece:
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


def _joints(member: Member, pieces: Sequence[Piece]) -> Iterator[Joint]:
    """Yield the joint before each piece but the first."""
    for index in range(1, len(pieces)):
        station = sum(piece.length for piece in pieces[:index]) - (index - 1) * member.lap - member.half_lap
        yield Joint(pieces[index].there, station)


def _allowed(member: Member) -> Iterator[tuple[int, int]]:
    """Yield the stations at which a lap keeps off the ends and the no-joint zones."""
    start, end = member.least_end, member.length - member.least_end
    for zone_start, zone_end in sorted(member.zones):
        yield from _if_forward(start, min(zone_start - member.half_lap, end))
        start = max(start, zone_end + member.half_lap)
    yield from _if_forward(start, end)


def _if_forward(start: int, end: int) -> Iterator[tuple[int, int]]:
    if start <= end:
        yield start, end


def _fill(parts: _Model) -> None:
    """Keep each opening within its room; equal ones stand in the order of their loads, since they could be swapped."""
    for number, kind in enumerate(parts.openings):
        parts.model.add(sum(parts.loads[number]) <= parts.task.openings[kind].room)
        if number and parts.openings[number - 1] == kind:
            parts.model.add(sum(parts.loads[number - 1]) >= sum(parts.loads[number]))


def _keep_most(model: cp_model.CpModel, parts: Sequence[_Model]) -> None:
    """Ask for offcuts that are worth most, where they are worth anything."""
    if any(part.task.openings[kind].offcut for part in parts for kind in part.openings):
        model.maximize(_sum(_worth(list(_offcuts(model, parts)))))


def _worth(kept: Sequence[tuple[Fraction, cp_model.IntVar]]) -> list[_Term]:
    """Return what offcuts are worth, in a fraction of a cent of which all values are whole."""
    common = lcm(*(value.denominator for value, _ in kept))
    return [(int(value * common), offcut) for value, offcut in kept]


def _keep_and_prefer(model: cp_model.CpModel, parts: Sequence[_Model]) -> None:
    """Ask for offcuts that are worth most, then longest together, then for joints where they are better."""
    joints = [joint for part in parts for joint in _preferred(part)]
    kept = list(_offcuts(model, parts))
    longest = 1 + sum(part.task.openings[kind].room for part in parts for kind in part.openings)
    once = 1 + len(joints)
    worth, length = _worth(kept), [(once, offcut) for _, offcut in kept]
    if any(value for value, _ in worth):
        length += [(value * longest * once, offcut) for value, offcut in worth]
    terms = [*length, *((1, joint) for joint in joints)]
    if longest * sum(factor for factor, _ in terms) >= MOST:  # units so fine that only money can be told apart
        terms = worth
    model.maximize(_sum(terms))


def _sum(terms: Sequence[_Term]) -> cp_model.LinearExprT:
    return cp_model.LinearExpr.weighted_sum([variable for _, variable in terms], [factor for factor, _ in terms])


def _preferred(parts: _Model) -> Iterator[cp_model.IntVar]:
    """Yield for each joint that a copy may have whether it is there with its lap where joints are better."""
    for (place, _), pieces in parts.strips.items():
        member = parts.task.members[place]
        better = [(a + member.half_lap, b - member.half_lap) for a, b in member.preferred if b - a >= member.lap]
        for joint in _joints(member, pieces) if better else ():
            well = parts.model.new_bool_var("")
            parts.model.add_implication(well, joint.there)
            domain = cp_model.Domain.from_intervals([list(each) for each in better])
            parts.model.add_linear_expression_in_domain(joint.station, domain).only_enforce_if(well)
            yield well


def _offcuts(model: cp_model.CpModel, parts: Sequence[_Model]) -> Iterator[tuple[Fraction, cp_model.IntVar]]:
    """Yield what a unit of the offcut of each opening is worth, and its length: 0 if it is too short to be kept."""
    for part in parts:
        for number, kind in enumerate(part.openings):
            opening, cutting = part.task.openings[kind], part.task.cutting
            longest = opening.room - cutting.kerf
            if longest >= cutting.keep_from:
                domain = cp_model.Domain.from_intervals([[0, 0], [cutting.keep_from, longest]])
                offcut, is_kept = model.new_int_var_from_domain(domain, ""), model.new_bool_var("")
                model.add(offcut <= longest * is_kept)
                model.add(sum([offcut, *part.loads[number]]) <= longest).only_enforce_if(is_kept)
                yield opening.offcut, offcut


def _part(parts: _Model, values: Mapping[str, int]) -> Part:
    cuts = []
    for (place, copy), pieces in parts.strips.items():
        for index, piece in enumerate(pieces):
            for number, on in piece.on.items():
                if values[on.name]:
                    member = parts.task.members[place]
                    cuts.append(Cut(member.index, copy + 1, index, values[piece.length.name], number))
    return Part(parts.openings, tuple(cuts))
