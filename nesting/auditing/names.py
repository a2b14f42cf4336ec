"""Whether ids are unique, and whether everything that is named is there."""

from collections import Counter
from collections.abc import Iterable, Iterator

from nesting.model import SheetOffcut

from .findings import Finding
from .register import Register


def names(register: Register) -> Iterator[Finding]:
    """Yield ids that stand twice, and names of parts, sheets and lengths that are not there."""
    plan = register.plan
    yield from _repeated("sheets and lengths", (used.id for used in plan.used))
    yield from _repeated("pieces", (piece.id for piece in plan.pieces))
    yield from _repeated("joints", (joint.id for joint in plan.joints))
    yield from _unknown_parts(register)
    yield from _unknown_places(register)
    for joint in plan.joints:
        if joint.scarf is not None:
            yield Finding("unknown-id", f'joint "{joint.id}"', f'there is no scarf "{joint.scarf}" in a blank')


def _repeated(kind: str, ids: Iterable[str]) -> Iterator[Finding]:
    for name, count in Counter(ids).items():
        if count > 1:
            yield Finding("same-id", kind, f'the id "{name}" stands {count} times')


def _unknown_parts(register: Register) -> Iterator[Finding]:
    known = register.panels.keys() | register.strips.keys()
    for piece in register.panel_pieces:
        if piece.part not in register.panels:
            yield Finding("unknown-part", f'piece "{piece.id}"', f'the job has no panel "{piece.part}"')
    for strip_piece in register.strip_pieces:
        if strip_piece.part not in register.strips:
            yield Finding("unknown-part", f'piece "{strip_piece.id}"', f'the job has no strip "{strip_piece.part}"')
    for joint in register.plan.joints:
        if joint.part not in known:
            yield Finding("unknown-part", f'joint "{joint.id}"', f'the job has no part "{joint.part}"')


def _unknown_places(register: Register) -> Iterator[Finding]:
    for piece in register.panel_pieces:
        if piece.on not in register.used_sheets:
            yield Finding("unknown-id", f'piece "{piece.id}"', f'the plan has no sheet "{piece.on}"')
    for strip_piece in register.strip_pieces:
        if strip_piece.on not in register.used_lengths:
            yield Finding("unknown-id", f'piece "{strip_piece.id}"', f'the plan has no length "{strip_piece.on}"')
    for offcut in register.plan.offcuts:
        places = register.used_sheets if isinstance(offcut, SheetOffcut) else register.used_lengths
        if offcut.on not in places:
            yield Finding("unknown-id", "offcut", f'the plan has no {offcut.kind} "{offcut.on}"')
