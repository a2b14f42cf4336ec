"""Strips that hang together through pieces they share: the columns of the master programme.

Draw openings and strips as dots and pieces as lines between them. A connected group of s openings and t strips needs
at least s + t - 1 lines, and a strip has one joint fewer than pieces: so the group has at least s - 1 joints, and its
openings together cover its strips, laps and kerfs. Every valid plan splits into such groups; so the cheapest
choice of groups is a lower bound, and if each chosen group can be laid out it is a cheapest plan.
"""

from dataclasses import dataclass


@dataclass(frozen=True)
class Group:
    """Copies of each member by place, openings of each kind by place, joints in all, and cents of kept offcuts.

    A group without strips is a clear stretch that is kept as it is.
    """

    strips: tuple[int, ...]
    openings: tuple[int, ...]
    joints: int
    kept: int = 0
