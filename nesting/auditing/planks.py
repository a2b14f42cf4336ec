"""Whether planks that are ripped give the sticks that are cut from them, and each is counted once."""

from collections import defaultdict
from collections.abc import Iterator, Sequence

from nesting.model import TOLERANCE, Length, UsedLength, UsedSheet

from .findings import Finding
from .register import Register


def bought(register: Register) -> Iterator[UsedSheet | UsedLength]:
    """Yield what is taken from the stock: each sheet and length, and of every plank its first stick."""
    seen: set[str] = set()
    for used in register.plan.used:
        if used.kind == "sheet" or used.plank is None:
            yield used
        elif used.plank not in seen:
            seen.add(used.plank)
            yield used


def planks(register: Register) -> Iterator[Finding]:
    """Yield planks whose sticks are not of one plank, or are not wide or thick enough for what is cut from them."""
    sticks: defaultdict[str, list[UsedLength]] = defaultdict(list)
    for used in register.used_lengths.values():
        if used.plank is not None:
            sticks[used.plank].append(used)
        elif (used.stick, used.sticks) != (1, 1):
            yield Finding("wrong-plank", f'length "{used.id}"', "it is told to be a stick, but of no plank")
    for plank, own in sticks.items():
        yield from _numbering(plank, own)
        length = register.lengths.get(own[0].stock)
        if length is not None:
            yield from _sections(plank, own, length, register)


def _numbering(plank: str, own: Sequence[UsedLength]) -> Iterator[Finding]:
    numbers = sorted(used.stick for used in own)
    if numbers != list(range(1, len(own) + 1)) or {used.sticks for used in own} != {len(own)}:
        yield Finding("wrong-plank", f'plank "{plank}"', f"its {len(own)} sticks are not numbered from 1 to {len(own)}")
    if len({used.stock for used in own}) > 1:
        yield Finding("wrong-plank", f'plank "{plank}"', "its sticks are of different stock")


def _sections(plank: str, own: Sequence[UsedLength], length: Length, register: Register) -> Iterator[Finding]:
    where, kerf, ids = f'plank "{plank}"', register.job.workshop.kerf.rip, {used.id for used in own}
    parts = {piece.part for piece in register.strip_pieces if piece.on in ids}
    sections = [register.strips[part].section for part in sorted(parts & register.strips.keys())]
    if kerf is None:
        yield Finding("wrong-plank", where, "nothing is ripped in this workshop: it names no kerf for it")
        return
    if any(abs(thickness - length.section[1]) > TOLERANCE for _, thickness in sections):
        yield Finding("wrong-section", where, f"it is {length.section[1]:g} thick, and strips from it are not")
    widths = [width for width, _ in sections]
    if widths and max(widths) - min(widths) > TOLERANCE:
        yield Finding("wrong-section", where, "strips of several widths are cut from its sticks, which are of one")
    need = len(own) * max(widths, default=0.0) + (len(own) - 1) * kerf
    if need > length.section[0] + TOLERANCE:
        reason = f"{len(own)} sticks with the cuts between them take {need:g} of its width of {length.section[0]:g}"
        yield Finding("wrong-plank", where, reason)
