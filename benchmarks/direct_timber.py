"""Timber as one direct model: every piece that a strip may have on every length that may be bought."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import lcm

from nesting.lengths import Cutting, Member

from .data import CuttingInstance
from .direct_model import DirectModel, Term


def packing_model(instance: CuttingInstance, most: int) -> DirectModel:
    """Return the usual model of one stock length: copies of each size on each of up to so many lengths."""
    model = DirectModel()
    taken = [model.variable(1, cost=1) for _ in range(most)]
    copies = [[model.variable(quantity) for _ in taken] for _, quantity in instance.items]
    for number, length in enumerate(taken):
        loads = [(size, copies[k][number]) for k, (size, _) in enumerate(instance.items)]
        model.row([*loads, (-instance.capacity, length)], upper=0)
    for own, (_, quantity) in zip(copies, instance.items, strict=True):
        model.row([(1, each) for each in own], lower=quantity)
    for one, other in pairwise(taken):
        model.row([(1, one), (-1, other)], lower=0)
    return model


@dataclass(frozen=True)
class _Opening:
    stock: int
    room: int
    taken: int
    loads: list[Term]


@dataclass(frozen=True)
class _Joint:
    """``there`` is 0 or 1; the station is the sum of terms, less ``back``, if it is there."""

    there: int
    terms: tuple[Term, ...]
    back: int


def splicing_model(cutting: Cutting, dearest: int) -> DirectModel:
    """Return a model of all stock, pieces, stations, zones, shifts and kept offcuts.

    Without plans dearer than ``dearest`` cents, of stock whose offcuts are worth nothing. Its costs count
    ``parts_of_a_cent``, and what offcuts are worth is not cut to whole cents.
    """
    model = DirectModel()
    openings = _openings(model, cutting, dearest)
    stations = [
        [_strip(model, cutting, member, openings) for _ in range(member.quantity)] for member in cutting.members
    ]
    for opening in openings:
        model.row([*opening.loads, (-opening.room, opening.taken)], upper=0)
    for shift in cutting.shifts:
        far = shift.distance + sum(_reach(cutting.members[place]) for place in (shift.one, shift.other))
        for number, one in enumerate(stations[shift.one]):
            others = stations[shift.other][number + 1 :] if shift.one == shift.other else stations[shift.other]
            for other in others:
                _keep_apart(model, one, other, shift.distance, far)
    return model


def parts_of_a_cent(cutting: Cutting) -> int:
    """Return in how many parts of a cent all costs are whole."""
    return lcm(*(stock.offcut.denominator for stock in cutting.stocks.values()))


def _openings(model: DirectModel, cutting: Cutting, dearest: int) -> list[_Opening]:
    pieces = sum(member.quantity * (1 + member.most_joints) for member in cutting.members)
    found = []
    for stock in cutting.stocks.values():
        limited = stock.cents and not cutting.keeps
        most = min(pieces, dearest // stock.cents if limited else pieces, stock.available or pieces)
        taken = [model.variable(1, cost=stock.cents * parts_of_a_cent(cutting)) for _ in range(most)]
        for one, other in pairwise(taken):
            model.row([(1, one), (-1, other)], lower=0)
        offcut = int(stock.offcut * parts_of_a_cent(cutting))
        for opening in (_Opening(stock.index, room, length, []) for length in taken for room in stock.rooms):
            if offcut:
                opening.loads.extend(_offcut(model, cutting, opening.room - cutting.kerf, offcut))
            found.append(opening)
    return found


def _offcut(model: DirectModel, cutting: Cutting, longest: int, value: int) -> list[Term]:
    """Add an offcut that may be kept; return what it takes of its opening."""
    length, kept = model.variable(longest, cost=-value), model.variable(1)
    model.row([(1, length), (-longest, kept)], upper=0)
    model.row([(1, length), (-cutting.keep_from, kept)], lower=0)
    return [(1, length), (cutting.kerf, kept)]


def _strip(model: DirectModel, cutting: Cutting, member: Member, openings: list[_Opening]) -> list[_Joint]:
    """Add one copy; return its joints."""
    pieces = [_piece(model, cutting, member, openings, k) for k in range(member.most_joints + 1)]
    there = [piece[0] for piece in pieces]
    model.row([*((1, long) for _, long in pieces), *((-member.lap, each) for each in there[1:])], *[member.length] * 2)
    for before, after in pairwise(there):
        model.row([(1, before), (-1, after)], lower=0)
    joints = [
        _Joint(
            there[k],
            tuple((1, long) for _, long in pieces[:k]),
            (k - 1) * member.lap + member.half_lap,
        )
        for k in range(1, len(pieces))
    ]
    for joint in joints:
        _where_allowed(model, member, joint)
    far = _reach(member)
    for one, other in pairwise(joints):
        way = [*other.terms, *((-entry, k) for entry, k in one.terms), (-far, other.there)]
        model.row(way, lower=member.least_between + other.back - one.back - far)
    return joints


def _piece(
    model: DirectModel, cutting: Cutting, member: Member, openings: list[_Opening], index: int
) -> tuple[int, int]:
    """Add a piece that may be there; return whether it is, and how long."""
    first = index == 0
    there = model.variable(1, cost=0 if first else member.joint_cents * parts_of_a_cent(cutting), lower=int(first))
    long = model.variable(member.longest)
    ons, shares = [(-1, there)], [(-1, long)]
    for opening in openings:
        if opening.stock in member.stocks:
            longest = max(0, min(cutting.longest_in(opening.room), member.longest))
            on, share = model.variable(1), model.variable(longest)
            model.row([(1, share), (-longest, on)], upper=0)
            opening.loads.extend([(1, share), (cutting.kerf, on)])
            ons.append((1, on))
            shares.append((1, share))
    model.row(ons, 0, 0)
    model.row(shares, 0, 0)
    return there, long


def _where_allowed(model: DirectModel, member: Member, joint: _Joint) -> None:
    """Put a joint, if it is there, into one of the stretches that the ends and the zones leave."""
    far = _reach(member)
    chosen = []
    for start, end in _allowed(member):
        here = model.variable(1)
        chosen.append((1, here))
        model.row([*joint.terms, (-far, here)], lower=start + joint.back - far)
        model.row([*joint.terms, (far, here)], upper=end + joint.back + far)
    model.row([*chosen, (-1, joint.there)], 0, 0)


def _allowed(member: Member) -> Iterator[tuple[int, int]]:
    start, last = member.least_end, member.length - member.least_end
    for begin, end in sorted(member.zones):
        if start <= min(begin - member.half_lap, last):
            yield start, min(begin - member.half_lap, last)
        start = max(start, end + member.half_lap)
    if start <= last:
        yield start, last


def _reach(member: Member) -> int:
    """Return more than any sum of a strip's pieces comes to."""
    return member.length + member.most_joints * member.lap


def _keep_apart(model: DirectModel, one: list[_Joint], other: list[_Joint], distance: int, far: int) -> None:
    for a in one:
        for b in other:
            before = model.variable(1)
            way = [*b.terms, *((-entry, k) for entry, k in a.terms)]
            back, both = b.back - a.back, [(-far, a.there), (-far, b.there)]
            model.row([*way, (-far, before), *both], lower=distance + back - 3 * far)
            model.row([*((-entry, k) for entry, k in way), (far, before), *both], lower=distance - back - 2 * far)
