"""Why strips can't be made, in the builder's words, with what would help."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from nesting.joints import Reach, least_joints
from nesting.model import Job, Length, NoPlanError, Problem, Strip, same_section, timber_gives

from .cutting import Cutting, Member, length_of
from .least_change import Planning, changes_that_help
from .measure import Measure
from .outcome import Outcome
from .refusing_shifts import contradictory_shifts

#: Strips of one job, each of which a plan lists with its pieces: far more than a fleet takes.
MOST_STRIPS = 20_000


def refuse_impossible(job: Job, whole: Cutting, measure: Measure) -> None:
    """Raise if any strip can't be made, before anything is searched.

    Raises
    ------
    NoPlanError
        With a problem for each strip without stock, or too long, or without a station for its joints; if there is
        none, for each shift that can't be kept; and else for each strip that limited stock is too short for.
    """
    problems = [*_too_many(whole), *(p for member in whole.members for p in _alone(job, member, measure))]
    problems = problems or list(contradictory_shifts(job, whole, measure))
    if problems := problems or list(_running_out(job, whole, measure)):
        raise NoPlanError(problems)


def refuse_without_plan(
    job: Job, lacking: Sequence[tuple[Cutting, Outcome]], measure: Measure, planned: Planning
) -> None:
    """Raise if there are strips for which no layout was found; ``planned`` is asked what would help.

    Raises
    ------
    NoPlanError
        It says whether none exists or none was found.
    """
    if lacking:
        raise NoPlanError(
            [
                _without_plan(job, cutting, outcome, list(changes_that_help(job, cutting, measure, planned)))
                for cutting, outcome in lacking
            ]
        )


def _too_many(whole: Cutting) -> Iterator[Problem]:
    """Yield a problem if there are more strips than a plan can tell one by one."""
    if whole.copies > MOST_STRIPS:
        yield Problem(
            code="too-many-strips",
            where="strips",
            path=("strips",),
            reason=f"{whole.copies} strips are asked for, and one plan tells of {MOST_STRIPS} at most, piece by piece",
            remedy="Plan a share of them, and repeat it.",
        )


def _alone(job: Job, member: Member, measure: Measure) -> Iterator[Problem]:
    """Yield what is wrong with a strip whatever else is to be made."""
    strip = job.strips[member.index]
    if not any(timber_gives(job, length, strip) for length in job.lengths):
        yield _no_stock(job, member.index)
    elif not member.stocks:
        yield _no_grade(job, member.index)
    elif member.least_joints is None and not member.joinable:
        yield _too_long(job, member, measure)
    elif member.least_joints is None:
        yield _no_station(job, member, measure)


def _no_stock(job: Job, index: int) -> Problem:
    strip = job.strips[index]
    nearest = _nearest(job, strip)
    hint = f' The nearest is "{nearest.name}": {_timber(nearest)}.' if nearest else ""
    return _problem(
        job,
        index,
        "no-timber",
        f"no length is of {_timber(strip)}",
        f"Add [[lengths]] of that material and section.{hint}",
    )


def _no_grade(job: Job, index: int) -> Problem:
    strip = job.strips[index]
    best = max(
        (length for length in job.lengths if timber_gives(job, length, strip)),
        key=lambda length: job.rank(length.grade),
    )
    grade = f'grade "{best.grade}"' if best.grade else "no grade"
    return _problem(
        job,
        index,
        "no-grade",
        f'no length of {_timber(strip)} is of grade "{strip.grade}" or better',
        f'The best is "{best.name}" with {grade}: add a better one, or ask for less.',
    )


def _too_long(job: Job, member: Member, measure: Measure) -> Problem:
    longest = measure.millimetres(member.longest)
    over = measure.millimetres(member.length - member.longest)
    return _problem(
        job,
        member.index,
        "too-long",
        f"it is {job.strips[member.index].length:g} long, {over:g} longer than the longest piece "
        f"{_limit(job, member, measure)} ({longest:g}), and no joint is allowed",
        'Add a longer length, or allow a joint with joint = "...".',
    )


def _no_station(job: Job, member: Member, measure: Measure) -> Problem:
    strip = job.strips[member.index]
    zones = ", ".join(f"{a:g} to {b:g}" for a, b in strip.no_joint)
    without = least_joints(_without_zones(member.reach))
    fewest = replace(member, limit=None).least_joints
    helps = (
        f"{fewest} would do: raise most_joints, or add a longer length."
        if fewest is not None
        else f"Without the zones {without} {'joint' if without == 1 else 'joints'} would do: shorten a zone, or add a "
        "longer length."
        if without
        else "Even without no-joint zones no number of joints would do: add a longer length, or allow a shorter "
        "least_piece."
    )
    return _problem(
        job,
        member.index,
        "no-station",
        f"length {strip.length:g}, longest piece {measure.millimetres(member.longest):g} "
        f"({_limit(job, member, measure)}), lap {measure.millimetres(member.lap):g}, least distance between joints "
        f"and to the ends {measure.millimetres(max(member.least_end, member.least_between)):g}"
        f"{f' and no-joint zones {zones}' if zones else ''} leave no station for {_how_many(strip)}",
        helps,
    )


def _how_many(strip: Strip) -> str:
    return "its joints, however many" if strip.most_joints is None else f"at most {strip.most_joints} joints"


def _without_zones(reach: Reach) -> Reach:
    return Reach(start=reach.start, end=reach.end, lap=reach.lap, usable=reach.usable, least_piece=reach.least_piece)


def _running_out(job: Job, whole: Cutting, measure: Measure) -> Iterator[Problem]:
    """Yield a problem for each set of limited stock that is too short for the strips that nothing else serves."""
    told: set[int] = set()
    for stocks, members in whole.levels():
        missing = _missing(whole, stocks, members)
        if missing > 0 and not told.intersection(m.index for m in members):
            told.update(m.index for m in members)
            have = " and ".join(f'"{length_of(job, index).name}"' for index in sorted(stocks))
            yield Problem(
                code="too-little-timber",
                where=_names(job, members),
                path=("strips", members[0].index),
                reason=f"all there is of {have} is {measure.millimetres(missing):g} mm too short, laps and saw cuts "
                "included",
                remedy="Raise available, add another length, or ask for fewer strips.",
            )


def _missing(whole: Cutting, stocks: frozenset[int], members: Sequence[Member]) -> int:
    """Return by how much limited stock is too short; at most 0 if it is not, or not limited."""
    have = 0
    for index in stocks:
        available = whole.stocks[index].available
        if available is None:
            return 0
        have += available * whole.stocks[index].room
    return sum(m.quantity * whole.need(m, m.least_joints or 0) for m in members) - have


def _without_plan(job: Job, cutting: Cutting, outcome: Outcome, changes: Sequence[str]) -> Problem:
    if outcome.proven.impossible:
        reason = f"the lengths there are can't be cut into these strips{_apart_by(job, cutting)}: that is proven"
    else:
        reason = (
            f"no way was found to cut these strips from the lengths there are{_apart_by(job, cutting)}, though one may "
            "exist"
        )
    return Problem(
        code="no-plan",
        where=_names(job, cutting.members),
        path=("strips", cutting.members[0].index),
        reason=reason,
        remedy=_remedy(cutting, changes),
    )


def _remedy(cutting: Cutting, changes: Sequence[str]) -> str:
    """Return what would help: what was found to do alone, or else what is worth trying."""
    if changes:
        told = "; or ".join(changes)
        return f"Any one of this helps: {told}." if len(changes) > 1 else f"{told[0].upper()}{told[1:]}."
    if cutting.shifts:
        return "Ask for a smaller shift, shorten a no-joint zone or the least piece, or add a longer length."
    return "Raise available, add another length, or allow joints."


def _apart_by(job: Job, cutting: Cutting) -> str:
    """Return the shifts that joints would have to keep, in words."""
    names = {job.strips[member.index].name for member in cutting.members}
    pairs = [
        f'those of "{pair.between[0]}" and "{pair.between[1]}" {pair.shift:g}'
        for pair in job.neighbours
        if cutting.shifts and names.issuperset(pair.between)
    ]
    return f" with joints apart as asked ({'; '.join(pairs)})" if pairs else ""


def _problem(job: Job, index: int, code: str, reason: str, remedy: str) -> Problem:
    where = f'strip "{job.strips[index].name}"'
    return Problem(code=code, where=where, reason=reason, remedy=remedy, path=("strips", index))


def _names(job: Job, members: Sequence[Member]) -> str:
    names = ", ".join(f'"{job.strips[member.index].name}"' for member in members)
    return f"{'strip' if len(members) == 1 else 'strips'} {names}"


def _timber(item: Length | Strip) -> str:
    return f"{item.material} {item.section[0]:g} x {item.section[1]:g}"


def _limit(job: Job, member: Member, measure: Measure) -> str:
    """Say what limits the longest piece of a member."""
    longest = job.workshop.longest_piece
    from_stock = longest is None or measure.units(longest) > member.longest
    return "that a length gives" if from_stock else "that the workshop handles"


def _nearest(job: Job, strip: Strip) -> Length | None:
    """Return the length of the same material and nearest section, else one of the same section."""
    same_material = [length for length in job.lengths if length.material == strip.material]
    if same_material:
        return min(same_material, key=lambda length: _apart(length.section, strip.section))
    return next((length for length in job.lengths if same_section(length.section, strip.section)), None)


def _apart(one: tuple[float, float], other: tuple[float, float]) -> float:
    return sum(abs(a - b) for a, b in zip(one, other, strict=True))
