"""Whether ids are unique, and whether everything that is named is there."""

from collections import Counter
from collections.abc import Iterable, Iterator
from collections.abc import Set as AbstractSet

from nesting.model import SheetOffcut

from .findings import Finding
from .register import Register


def names(register: Register) -> Iterator[Finding]:
    """Yield ids that stand twice, and names of parts, sheets and lengths that are not there."""
    plan = register.plan
    planks = (*(plank.id for plank in plan.long_planks), *(s.id for plank in plan.long_planks for s in plank.sticks))
    places = (*(used.id for used in plan.used), *(blank.id for blank in plan.blanks), *planks)
    yield from _repeated("sheets, lengths, blanks and long planks", places)
    scarfs = (
        *(s.id for blank in plan.blanks for s in blank.scarfs),
        *(s.id for p in plan.long_planks for s in p.scarfs),
    )
    yield from _repeated("scarfs of blanks and long planks", scarfs)
    yield from _repeated("pieces", (piece.id for piece in plan.pieces))
    yield from _repeated("joints", (joint.id for joint in plan.joints))
    yield from _unknown_parts(register)
    yield from _unknown_places(register)
    for joint in plan.joints:
        if joint.scarf is not None and joint.scarf not in register.scarfs:
            reason = f'there is no scarf "{joint.scarf}" in a blank or long plank'
            yield Finding("unknown-id", f'joint "{joint.id}"', reason)


def _repeated(kind: str, ids: Iterable[str]) -> Iterator[Finding]:
    for name, count in Counter(ids).items():
        if count > 1:
            yield Finding("same-id", kind, f'the id "{name}" stands {count} times')


def _unknown_parts(register: Register) -> Iterator[Finding]:
    known = register.panels.keys() | register.strips.keys()
    for piece in register.sheet_pieces:
        if piece.part not in register.panels:
            yield Finding("unknown-part", f'piece "{piece.id}"', f'the job has no panel "{piece.part}"')
    for strip_piece in register.strip_pieces:
        if strip_piece.part not in register.strips:
            yield Finding("unknown-part", f'piece "{strip_piece.id}"', f'the job has no strip "{strip_piece.part}"')
    for joint in register.plan.joints:
        if joint.part not in known:
            yield Finding("unknown-part", f'joint "{joint.id}"', f'the job has no part "{joint.part}"')


def _unknown_places(register: Register) -> Iterator[Finding]:
    yield from _unknown_boards(register)
    for plank in register.plan.long_planks:
        for part in plank.members:
            if part.used not in register.used_lengths:
                yield Finding("unknown-id", f'long plank "{plank.id}"', f'the plan has no length "{part.used}"')
    for strip_piece in register.strip_pieces:
        if strip_piece.on not in _timber(register):
            yield Finding("unknown-id", f'piece "{strip_piece.id}"', f'the plan has no length "{strip_piece.on}"')
    for offcut in register.plan.offcuts:
        places = _boards(register) if isinstance(offcut, SheetOffcut) else _timber(register)
        if offcut.on not in places:
            yield Finding("unknown-id", "offcut", f'the plan has no {offcut.kind} "{offcut.on}"')


def _timber(register: Register) -> AbstractSet[str]:
    return register.used_lengths.keys() | register.long_sticks.keys()


def _boards(register: Register) -> AbstractSet[str]:
    return register.used_sheets.keys() | register.blanks.keys()


def _unknown_boards(register: Register) -> Iterator[Finding]:
    """Check the places of pieces and straps, and the sheets of blanks."""
    for piece in register.panel_pieces:
        if piece.on not in _boards(register):
            yield Finding("unknown-id", f'piece "{piece.id}"', f'the plan has no sheet or blank "{piece.on}"')
    for strap in register.straps:
        if strap.on not in register.used_sheets:
            yield Finding("unknown-id", f'strap "{strap.id}"', f'the plan has no sheet "{strap.on}"')
    for blank in register.plan.blanks:
        for member in blank.members:
            if member.used not in register.used_sheets:
                yield Finding("unknown-id", f'blank "{blank.id}"', f'the plan has no sheet "{member.used}"')
