"""Where each cut and scarf of chosen groups goes, with every rule of their joints: a small model for each."""

from collections.abc import Sequence

from ortools.sat.python import cp_model

from nesting.solving import Status, minimize

from .aims import keep_and_prefer, keep_most
from .buying import Part, plain_part
from .group_model import GroupModel, Joint, Piece, add_core, add_group, joints_of, part_of_model
from .groups import Group
from .task import Task
from .trees import laid_out_as_tree

#: Solver effort for one group, and for groups whose joints must keep a shift.
EFFORT = 0.4
EFFORT_TOGETHER = 1.5


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
    if (tried := laid_out_as_tree(task, group)) is not None:
        return tried
    model = cp_model.CpModel()
    parts = add_group(task, model, group, "")
    keep_most(model, [parts])
    answer = minimize(model, effort=EFFORT * patience, seconds=seconds)
    return answer.status, part_of_model(parts, answer.values) if answer.found else Part((), ())


def realised_together(
    task: Task, groups: Sequence[Group], seconds: float | None = None, patience: int = 1
) -> tuple[Status, tuple[Part, ...]]:
    """Lay out several groups so that joints keep their shift from group to group, and are matched."""
    model = cp_model.CpModel()
    parts = _together(task, model, groups)
    keep_most(model, parts)
    answer = minimize(model, effort=EFFORT_TOGETHER * patience, seconds=seconds)
    if not answer.found:
        return answer.status, ()
    return answer.status, tuple(part_of_model(part, answer.values) for part in parts)


def held_together(task: Task, cores: Sequence[Group], seconds: float | None = None, patience: int = 1) -> Status:
    """Return whether the strips of several groups, tied to one another, fit what others may leave of their openings.

    Other strips may be cut from the openings too, and take some of the joints. So where these are refuted, so are all
    groups with more strips, shorter openings, or fewer joints.
    """
    model = cp_model.CpModel()
    _tie(task, model, [add_core(task, model, core, f"{number} ", task.tied) for number, core in enumerate(cores)])
    return minimize(model, effort=EFFORT * patience, seconds=seconds).status


def best_realised(
    task: Task, groups: Sequence[Group], seconds: float | None = None, effort: float = EFFORT
) -> tuple[Part, ...]:
    """Lay out groups at the least cost, so that most is kept in offcuts and most joints lie where they are better.

    Empty if the effort does not do for any layout.
    """
    model = cp_model.CpModel()
    parts = _together(task, model, groups)
    keep_and_prefer(model, parts)
    answer = minimize(model, effort=effort, seconds=seconds)
    return tuple(part_of_model(part, answer.values) for part in parts) if answer.found else ()


def paired_in_one_way(task: Task) -> bool:
    """Whether matched copies can be paired in one way only, so that what is refuted for that is refuted."""
    return all(member.quantity <= 2 for member in task.members if member.matched and member.most_joints)


def _together(task: Task, model: cp_model.CpModel, groups: Sequence[Group]) -> list[GroupModel]:
    """Add groups with all rules, those that joints keep from group to group too."""
    parts = [add_group(task, model, group, f"{number} ", task.tied) for number, group in enumerate(groups)]
    _tie(task, model, parts)
    return parts


def _tie(task: Task, model: cp_model.CpModel, parts: Sequence[GroupModel]) -> None:
    """Let joints keep their shifts from group to group, and matched copies be the same."""
    joints: dict[int, list[list[Joint]]] = {}
    copies: dict[int, list[list[Piece]]] = {}
    for part in parts:
        for (place, _), pieces in part.strips.items():
            copies.setdefault(place, []).append(pieces)
            joints.setdefault(place, []).append(list(joints_of(task.members[place], pieces)))
    for place in sorted(task.tied & copies.keys()):
        if task.members[place].matched:
            _match(model, copies[place])
    for shift in task.shifts:
        for one, copy in enumerate(joints.get(shift.one, [])):
            others = joints.get(shift.other, [])
            for other in others[one + 1 :] if shift.one == shift.other else others:
                _keep_apart(model, copy, other, shift.distance)


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
