"""Attempts that came near: each is a choice of joints, with its pieces on sheets that would cost less."""

from dataclasses import dataclass
from random import Random

from .moving_joints import Choice
from .realising import Attempt

#: Attempts that are kept.
MOST = 6

#: After so many changes in a row that did no good an attempt is given up.
PATIENCE = 24

#: After so many such changes the next ones are tried for longer.
LONGER = 4

#: By how much an attempt may come out worse and still be gone on with, and by how much less overlap is progress.
WORSE, PROGRESS = 1.03, 0.97

#: What counts for the least overlap where nearer ones are drawn sooner.
LEAST = 0.01


@dataclass
class Member:
    """One attempt, and how often in a row a change of it did no good."""

    choice: Choice
    attempt: Attempt
    cost: int
    waited: int = 0

    @property
    def times(self) -> int:
        """How many times as long as the first ones the next change may be tried: ever longer while none does good."""
        return 1 + self.waited // LONGER

    @property
    def overlap(self) -> float:
        """Of all its pieces."""
        return self.attempt.arrangement.overlap


class Crowd:
    """A few attempts; the nearest are gone on with most."""

    def __init__(self) -> None:
        self._members: list[Member] = []

    @property
    def is_full(self) -> bool:
        """Whether there are as many as are kept."""
        return len(self._members) >= MOST

    def drop_from(self, cost: int) -> None:
        """Forget attempts that would cost so much or more."""
        self._members = [member for member in self._members if member.cost < cost]

    def join(self, member: Member) -> None:
        """Take in an attempt; if there are too many, the one that is furthest from coming about leaves."""
        self._members.append(member)
        if len(self._members) > MOST:
            self._members.remove(max(self._members, key=lambda one: one.overlap))

    def drawn(self, chance: Random) -> Member:
        """Draw one, the sooner the less it overlaps."""
        return chance.choices(self._members, [1 / max(one.overlap, LEAST) for one in self._members])[0]

    def go_on(self, member: Member, changed: Member | None) -> bool:
        """Put a changed attempt in the place of its parent, unless it is worse; whether the parent was given up."""
        at = self._members.index(member)
        if changed is not None and changed.overlap <= WORSE * member.overlap:
            changed.waited = 0 if changed.overlap < PROGRESS * member.overlap else member.waited + 1
            self._members[at] = changed
        else:
            member.waited += 1
        if self._members[at].waited <= PATIENCE:
            return False
        del self._members[at]
        return True
