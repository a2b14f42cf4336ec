"""What is asked of a layout beyond its rules: offcuts that are worth most or longest, joints where they are better."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from math import lcm

from ortools.sat.python import cp_model

from .group_model import GroupModel, joints_of

#: Objectives from this on don't fit the solver's whole numbers.
MOST = 2**60

_Term = tuple[int, cp_model.IntVar]


def keep_most(model: cp_model.CpModel, parts: Sequence[GroupModel]) -> None:
    """Ask for offcuts that are worth most, where they are worth anything."""
    if any(part.task.openings[kind].offcut for part in parts for kind in part.openings):
        model.maximize(_sum(_worth(list(_offcuts(model, parts)))))


def keep_and_prefer(model: cp_model.CpModel, parts: Sequence[GroupModel]) -> None:
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


def _worth(kept: Sequence[tuple[Fraction, cp_model.IntVar]]) -> list[_Term]:
    """Return what offcuts are worth, in a fraction of a cent of which all values are whole."""
    common = lcm(*(value.denominator for value, _ in kept))
    return [(int(value * common), offcut) for value, offcut in kept]


def _sum(terms: Sequence[_Term]) -> cp_model.LinearExprT:
    return cp_model.LinearExpr.weighted_sum([variable for _, variable in terms], [factor for factor, _ in terms])


def _preferred(parts: GroupModel) -> Iterator[cp_model.IntVar]:
    """Yield for each joint that a copy may have whether it is there with its lap where joints are better."""
    for (place, _), pieces in parts.strips.items():
        member = parts.task.members[place]
        better = [(a + member.half_lap, b - member.half_lap) for a, b in member.preferred if b - a >= member.lap]
        for joint in joints_of(member, pieces) if better else ():
            well = parts.model.new_bool_var("")
            parts.model.add_implication(well, joint.there)
            domain = cp_model.Domain.from_intervals([list(each) for each in better])
            parts.model.add_linear_expression_in_domain(joint.station, domain).only_enforce_if(well)
            yield well


def _offcuts(model: cp_model.CpModel, parts: Sequence[GroupModel]) -> Iterator[tuple[Fraction, cp_model.IntVar]]:
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
