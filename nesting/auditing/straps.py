"""Whether every butt has its strap: the shape of the panel there, turned over, and its own."""

from collections import Counter
from collections.abc import Iterator

from nesting.model import Joint, Panel, StrapPiece

from .findings import Finding
from .geometry import between, flattened, own_shape, polygon, same_shape
from .register import Register
from .rules import strap_of


def straps(register: Register) -> Iterator[Finding]:
    """Yield butts without a strap, straps without a butt, and straps that don't fit theirs."""
    butts = {joint.id: joint for joint in register.plan.joints if joint.kind == "butt"}
    count = Counter(strap.joint for strap in register.straps)
    for name in butts:
        if not count[name]:
            yield Finding("strap-missing", f'joint "{name}"', "no strap is cut for it")
    for name, times in count.items():
        if name not in butts or times > 1:
            reason = f"{times} straps are cut for it" if name in butts else "a strap is cut for it, and it is no butt"
            yield Finding("strap-too-many", f'joint "{name}"', reason)
    for strap in register.straps:
        if polygon(strap.outline) is None:
            yield Finding("bad-polygon", _where(strap), "its outline is no sound polygon")
        if strap.joint in butts:
            yield from _strap(strap, butts[strap.joint], register)


def _strap(strap: StrapPiece, butt: Joint, register: Register) -> Iterator[Finding]:
    yield from _belongs(strap, butt, register)
    if strap.mirrored != (strap.hand != "starboard"):
        yield Finding("strap-not-turned", _where(strap), "behind the panel its good face would look at the panel")
    panel = register.panels.get(butt.part)
    if panel is not None and polygon(strap.outline) is not None:
        yield from _shape(strap, butt, panel, register)


def _belongs(strap: StrapPiece, butt: Joint, register: Register) -> Iterator[Finding]:
    if strap.id != f"{butt.id}/strap":
        yield Finding("wrong-strap", _where(strap), f'the strap of joint "{butt.id}" is called "{butt.id}/strap"')
    if (strap.part, strap.copy_number) != (butt.part, butt.copy_number):
        reason = f'it is of "{strap.part}", copy {strap.copy_number}, its butt of "{butt.part}", {butt.copy_number}'
        yield Finding("wrong-strap", _where(strap), reason)
    hands = {piece.hand for piece in register.panel_copies.get((butt.part, butt.copy_number), ())}
    if hands and strap.hand not in hands:
        reason = f'its hand is "{strap.hand}", that of its panel "{min(hands)}"'
        yield Finding("wrong-strap", _where(strap), reason)


def _shape(strap: StrapPiece, butt: Joint, panel: Panel, register: Register) -> Iterator[Finding]:
    """Compare a strap, brought back into the panel's frame, with the panel half a strap to either side."""
    outline, there = flattened(panel.outline), own_shape(strap)
    half = strap_of(register.rule(panel), register.thickness(panel)) / 2
    if outline is None or not half:
        return  # told of the panel, or of the joint
    expected = between(outline, butt.station - half, butt.station + half)
    if there is None or len(expected) != 1 or not same_shape(expected[0], there):
        reason = f"it is not the panel's outline from {butt.station - half:g} to {butt.station + half:g}"
        yield Finding("not-congruent", _where(strap), reason)


def _where(strap: StrapPiece) -> str:
    return f'strap "{strap.id}"'
