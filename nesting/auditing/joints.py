"""Whether every joint keeps its rule, has its full lap on both pieces, and lies where it may."""

from collections.abc import Iterator
from decimal import Decimal
from itertools import pairwise

from nesting.model import TOLERANCE, Joint, JointRule

from .blank_joints import joints_of_blank
from .findings import Finding
from .members import Member, members
from .register import Register
from .rules import CENT, cost_of

#: Millimetres by which the width of a joint may differ: far less than a cent's worth of glue.
WIDTH_TOLERANCE = 0.01


def joints(register: Register) -> Iterator[Finding]:
    """Yield joints that break a rule of their part, and pieces that are too long or don't add up to it."""
    for member in members(register):
        yield from _lengths(member, register.job.workshop.longest_piece)
        yield from joints_of_blank(member) if member.from_blank else _between_pieces(member, register)
        if member.most_joints is not None and len(member.joints) > member.most_joints:
            reason = f"it has {len(member.joints)} joints, the most is {member.most_joints}"
            yield Finding("too-many-joints", member.where, reason)
        if member.rule is None:
            if member.joints:
                yield Finding("joint-not-allowed", member.where, "it is to be in one piece, yet it has a joint")
            continue
        yield from _spacing(member, member.rule)
        for position, joint in enumerate(member.joints):
            yield from _joint(member, member.rule, position, joint)


def _between_pieces(member: Member, register: Register) -> Iterator[Finding]:
    """Check that a part that is not from a blank has a joint of its own between every two pieces."""
    if len(member.joints) != len(member.pieces) - 1:
        reason = f"{len(member.pieces)} pieces need {len(member.pieces) - 1} joints, not {len(member.joints)}"
        yield Finding("joint-count", member.where, reason)
    for joint in member.joints:
        if joint.scarf in register.scarfs:
            reason = f'its part is not from a blank, so scarf "{joint.scarf}" does not run across it'
            yield Finding("joint-not-there", f'joint "{joint.id}"', reason)


def _lengths(member: Member, longest: float | None) -> Iterator[Finding]:
    """Check the pieces' lengths, and that laid with their laps they run from end to end."""
    for name, (low, high) in zip(member.pieces, member.extents, strict=False):
        if longest is not None and high - low > longest + TOLERANCE:
            yield Finding("piece-too-long", f'piece "{name}"', f"it is {high - low:g} long, the longest is {longest:g}")
    if member.extents:
        low, high = min(low for low, _ in member.extents), max(high for _, high in member.extents)
        if abs(low - member.start) > TOLERANCE or abs(high - member.end) > TOLERANCE:
            reason = f"its pieces with their laps run from {low:g} to {high:g}, not {member.start:g} to {member.end:g}"
            yield Finding("not-whole", member.where, reason)


def _spacing(member: Member, rule: JointRule) -> Iterator[Finding]:
    least = max(member.least_piece or rule.least_piece, member.band)
    places = [member.start, *(joint.station for joint in member.joints), member.end]
    if not member.joints:
        return
    for place, after in pairwise(places):
        if after - place < least - TOLERANCE:
            reason = f"from {place:g} to {after:g} is less than {least:g} between joints or to an end"
            yield Finding("joint-spacing", member.where, reason)


def _joint(member: Member, rule: JointRule, position: int, joint: Joint) -> Iterator[Finding]:
    where = f'joint "{joint.id}"'
    if not member.start < joint.station < member.end:
        reason = f"station {joint.station:g} is not between the ends, {member.start:g} and {member.end:g}"
        yield Finding("joint-outside", where, reason)
        return
    yield from _figures(where, member, rule, joint)
    yield from _width_and_cost(where, member, rule, joint)
    yield from _zones(where, member, joint)
    if not member.from_blank:
        yield from _pieces(where, member, position, joint)


def _figures(where: str, member: Member, rule: JointRule, joint: Joint) -> Iterator[Finding]:
    if joint.kind != rule.kind or (joint.slope is None) != (rule.kind == "butt"):
        yield Finding("joint-kind", where, f'it is told as a {joint.kind}, its rule "{rule.kind}"')
        return
    figures = {
        "slope": (joint.slope or 0.0, 0.0 if joint.slope is None else rule.slope),
        "thickness": (joint.thickness, member.thickness),
        "lap": (joint.lap, member.lap),
        "strap": (joint.strap, member.strap),
    }
    for name, (told, true) in figures.items():
        if abs(told - true) > TOLERANCE:
            yield Finding("joint-rule", where, f"its {name} is {told:g}, by its rule {true:g}")


def _width_and_cost(where: str, member: Member, rule: JointRule, joint: Joint) -> Iterator[Finding]:
    width = member.width_at(joint.station)
    if abs(joint.width - width) > WIDTH_TOLERANCE:
        yield Finding("joint-width", where, f"its width is {joint.width:g}, that of the part there {width:g}")
    if member.from_blank:
        if joint.cost != Decimal(0):
            yield Finding("joint-cost", where, f"it is said to cost {joint.cost}, it is paid for with its blank")
    elif abs(joint.cost - (cost := cost_of(rule, width))) > CENT:
        yield Finding("joint-cost", where, f"it is said to cost {joint.cost}, by its rule {cost}")


def _zones(where: str, member: Member, joint: Joint) -> Iterator[Finding]:
    low, high = joint.station - member.band / 2, joint.station + member.band / 2
    for start, end in member.zones:
        if high > start + TOLERANCE and low < end - TOLERANCE:
            name = "strap" if member.strap else "lap"
            reason = f"its {name} from {low:g} to {high:g} reaches into the no-joint zone from {start:g} to {end:g}"
            yield Finding("no-joint-zone", where, reason)


def _pieces(where: str, member: Member, position: int, joint: Joint) -> Iterator[Finding]:
    """Check that the joint is between its two pieces, and that its lap is fully on both."""
    if position + 1 >= len(member.pieces):
        return  # told by the count
    names = member.pieces[position], member.pieces[position + 1]
    if joint.pieces != names:
        reason = f"it joins {' and '.join(joint.pieces)}, at its station are {' and '.join(names)}"
        yield Finding("joint-pieces", where, reason)
    if not member.extents:
        return
    (_, end), (start, _) = member.extents[position], member.extents[position + 1]
    if member.strap and abs(end - start) > TOLERANCE:
        apart = f"{start - end:g} apart" if start > end else f"{end - start:g} over one another"
        yield Finding("butt-open", where, f"its pieces are to meet, they are {apart}")
    elif end - start < member.lap - TOLERANCE:
        yield Finding("lap-short", where, f"its pieces overlap by {end - start:g}, the lap is {member.lap:g}")
    elif abs((start + end) / 2 - joint.station) > TOLERANCE:
        reason = f"the middle of the overlap is at {(start + end) / 2:g}, its station is {joint.station:g}"
        yield Finding("joint-station", where, reason)
