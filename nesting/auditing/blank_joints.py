"""Whether the joints told of a panel cut from a blank are the blank's scarfs that run across it, all of them."""

from collections.abc import Iterator

from nesting.model import TOLERANCE, Joint

from .crossings import Crossing
from .findings import Finding
from .members import Member
from .true_blank import TrueBlank


def joints_of_blank(member: Member) -> Iterator[Finding]:
    """Yield scarfs that cut into a panel or must not cross it, and joints that are not where the scarfs are."""
    if member.blank is None:
        return  # told of the blank
    for crossing in member.crossings:
        yield from _crossing(member, member.blank, crossing)
    across = [crossing for crossing in member.crossings if crossing.runs == "across"]
    there, told = {crossing.scarf for crossing in across}, set[str | None]()
    for joint in member.joints:
        if joint.scarf not in there or joint.scarf in told:
            reason = f'its panel does not run across scarf "{joint.scarf}", or another joint tells of it'
            yield Finding("joint-not-there", f'joint "{joint.id}"', reason)
        told.add(joint.scarf)


def _crossing(member: Member, blank: TrueBlank, crossing: Crossing) -> Iterator[Finding]:
    if member.rule is not blank.rule:
        reason = f'it lies across scarf "{crossing.scarf}" of a blank that is not joined by its own rule'
        yield Finding("joint-not-allowed", member.where, reason)
    if not crossing.whole:
        reason = f'it cuts into scarf "{crossing.scarf}", which must lie wholly within it or off it'
        yield Finding("scarf-cut-into", member.where, reason)
        return
    if blank.rows > 1 and not member.too_wide:
        reason = f'it lies over scarf "{crossing.scarf}" of a blank for panels wider than every sheet, which it is not'
        yield Finding("joint-not-allowed", member.where, reason)
    if crossing.runs == "along":
        return  # no joint tells of it: the blank does
    if crossing.station is None:
        reason = f'it lies across scarf "{crossing.scarf}" and not along the blank'
        yield Finding("scarf-askew", member.where, reason)
        return
    told = next((joint for joint in member.joints if joint.scarf == crossing.scarf), None)
    if told is None:
        reason = f'it lies across scarf "{crossing.scarf}" at station {crossing.station:g}: no joint tells of it'
        yield Finding("joint-missing", member.where, reason)
        return
    yield from _told(member, told, crossing.station)


def _told(member: Member, joint: Joint, station: float) -> Iterator[Finding]:
    where = f'joint "{joint.id}"'
    if abs(joint.station - station) > TOLERANCE:
        reason = f"its station is {joint.station:g}, the scarf crosses the panel at {station:g}"
        yield Finding("joint-station", where, reason)
    if joint.pieces != member.pieces:
        reason = f"it names {' and '.join(joint.pieces)}, across the scarf lies {member.pieces[0]}"
        yield Finding("joint-pieces", where, reason)
