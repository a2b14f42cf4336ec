"""Whether every part asked for is there, in the asked number, all its pieces once, and of the right hand."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from collections.abc import Set as AbstractSet

from nesting.model import Panel, PanelPiece, Strip, StripPiece

from .findings import Finding
from .register import CopyName, Register, in_words

Copies = Mapping[CopyName, Sequence[PanelPiece]] | Mapping[CopyName, Sequence[StripPiece]]


def parts(register: Register) -> Iterator[Finding]:
    """Yield copies that are missing or too many, pieces numbered wrongly, and hands that are wrong."""
    for panel in register.job.panels:
        yield from _copies(panel, register.panel_copies, register)
        yield from _hands(panel, register)
    for strip in register.job.strips:
        yield from _copies(strip, register.strip_copies, register)


def _copies(part: Panel | Strip, copies: Copies, register: Register) -> Iterator[Finding]:
    for copy in range(1, part.quantity + 1):
        pieces = copies.get((part.name, copy))
        if not pieces:
            yield Finding("missing-copy", in_words(part, copy), f"{part.quantity} are asked for, this one is missing")
        elif not _numbered(pieces):
            numbers = ", ".join(f"{piece.index} of {piece.of}" for piece in pieces[:6])
            yield Finding("piece-numbering", in_words(part, copy), f"its pieces are numbered {numbers}")
    for name, copy in sorted(copies.keys() | register.joints.keys()):
        if name == part.name and copy > part.quantity:
            yield Finding("unknown-copy", in_words(part, copy), f"only {part.quantity} are asked for")


def _numbered(pieces: Sequence[PanelPiece | StripPiece]) -> bool:
    """Whether pieces in the order of their index are 1 to n, each of n."""
    return all(piece.index == k and piece.of == len(pieces) for k, piece in enumerate(pieces, 1))


def _hands(panel: Panel, register: Register) -> Iterator[Finding]:
    copies = {name[1]: pieces for name, pieces in register.panel_copies.items() if name[0] == panel.name}
    allowed = {"port", "starboard"} if panel.handed else {""}
    for copy, pieces in copies.items():
        hands = {piece.hand for piece in pieces}
        if len(hands) > 1 or not hands <= allowed:
            yield Finding("wrong-hand", in_words(panel, copy), f"its hand is {_told(hands)}, not {_told(allowed)}")
        for piece in pieces:
            if piece.mirrored != (piece.hand == "starboard"):
                mirrored = "mirrored" if piece.mirrored else "not mirrored"
                yield Finding("wrong-hand", f'piece "{piece.id}"', f"it is {mirrored}, yet {_told({piece.hand})}")
    count = Counter(pieces[0].hand for pieces in copies.values())
    if panel.handed and count["port"] != count["starboard"]:
        reason = f"{count['port']} are port and {count['starboard']} starboard, not half of {panel.quantity} each"
        yield Finding("wrong-hand", in_words(panel), reason)


def _told(hands: AbstractSet[str]) -> str:
    return " or ".join(sorted(hand or "of no hand" for hand in hands))
