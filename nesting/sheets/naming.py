"""The names by which a plan tells of sheets, blanks, pieces and joints."""

from dataclasses import dataclass, field
from itertools import count

from .pieces import PieceKind


class Names:
    """Deals out the ids of sheets, S1, S2 and so on, and of blanks, B1, B2 and so on."""

    def __init__(self) -> None:
        self._sheets = count(1)
        self._blanks = count(1)

    def next_sheet(self) -> str:
        """Return the id of the next sheet."""
        return f"S{next(self._sheets)}"

    def next_blank(self) -> str:
        """Return the id of the next blank."""
        return f"B{next(self._blanks)}"


@dataclass
class Copies:
    """Deals out the copies of each panel: port and starboard in turn, from 1."""

    _dealt: dict[PieceKind, int] = field(default_factory=dict)

    def next_of(self, kind: PieceKind) -> int:
        """Return the copy to which the next piece of this kind belongs."""
        before = self._dealt.get(kind, 0)
        self._dealt[kind] = before + 1
        if not kind.hand:
            return before + 1
        return 2 * before + (1 if kind.hand == "port" else 2)


def joint_id(part: str, copy: int, number: int) -> str:
    """Return the id of a joint between pieces, counted from the low stations."""
    return f"{part}-{copy}/J{number}"


def piece_id(part: str, copy: int, index: int) -> str:
    """Return the id of a piece."""
    return f"{part}-{copy}-{index}"
