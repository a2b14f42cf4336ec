"""Moves the joints of one panel to where there may be more room."""

from collections.abc import Sequence
from random import Random

from nesting.joints import stations_hold

from .clashing import clashes
from .known import Known
from .pieces import PieceKind
from .realising import Attempt
from .tasks import Task
from .variants import Variant

Choice = tuple[Variant, ...]

#: How often a panel with a piece that overlaps is drawn, and not any panel.
HURT = 0.8

#: How often a panel is made in another of the ways first thought of, and how often it is turned end for end.
OTHERWISE, TURNED = 0.2, 0.1

#: How often a joint is moved so that a piece that overlaps becomes shorter.
SHORTER = 0.75

#: Joints move by so many millimetres, or up to so many times as far: short moves as often as long ones.
STEP, FURTHEST = 10.0, 32.0

#: How many moves are looked at before it is given up.
LOOKS = 60


class JointMover:
    """Draws other ways to make one panel of a task."""

    def __init__(self, task: Task, chance: Random) -> None:
        self._task, self._chance, self.known = task, chance, Known(task)

    def moved(self, choice: Choice, attempt: Attempt, most: int) -> Choice | None:
        """Return a choice with one panel made otherwise that costs no more than ``most`` cents; None if none was drawn.

        Its pieces fit the sheets of the attempt.
        Panels whose pieces overlap in the attempt are drawn sooner, and joints of theirs so moved that these shrink.
        """
        there = {stock.index for stock in attempt.stocks}
        for _ in range(LOOKS):
            hurt = self._hurt(attempt)
            panel = self._chance.randrange(len(choice)) if hurt is None else hurt.panel
            other = self._other(choice[panel], hurt)
            if other is None or other is choice[panel]:
                continue
            changed = (*choice[:panel], other, *choice[panel + 1 :])
            if joint_costs(self._task, changed) > most or not other.fits(there):
                continue
            if not clashes(self._task.job, [[variant] for variant in changed]):
                return changed
        return None

    def _hurt(self, attempt: Attempt) -> PieceKind | None:
        """Draw a piece that overlaps, those that overlap more sooner; now and then none."""
        overlaps = attempt.arrangement.overlaps
        if sum(overlaps) <= 0 or self._chance.random() >= HURT:
            return None
        return self._chance.choices(attempt.kinds, overlaps)[0]

    def _other(self, variant: Variant, hurt: PieceKind | None) -> Variant | None:
        """Draw another way to make a panel; None if it would break a rule."""
        if variant.way == "whole" or self._chance.random() < OTHERWISE:
            return self._made_otherwise(variant)
        reach = self._task.parts[variant.panel].reach
        if self._chance.random() < TURNED:
            stations = reach.from_other_end(variant.stations)
        elif variant.way == "joined":
            stations = self._slid(variant.stations)
        else:
            stations = self._with_one_moved(variant.stations, hurt)
        if variant.way == "joined":
            return self.known.joined(variant.panel, stations)
        return self.known.divided(variant.panel, stations) if stations_hold(stations, reach) else None

    def _made_otherwise(self, variant: Variant) -> Variant:
        """Draw one of the ways first thought of to make a panel."""
        likely = self._task.variants[variant.panel]
        way = self._chance.choice(list(dict.fromkeys(v.way for v in likely)))
        return self._chance.choice([v for v in likely if v.way == way])

    def _slid(self, stations: Sequence[float]) -> tuple[float, ...]:
        """Slide a panel along its blank."""
        forward = self._chance.random() < 0.5
        by = self._distance() if forward else -self._distance()
        return tuple(round(station + by, 7) for station in stations)

    def _distance(self) -> float:
        """Draw how far joints move."""
        return STEP * round(float(FURTHEST ** self._chance.random()))

    def _with_one_moved(self, stations: Sequence[float], hurt: PieceKind | None) -> tuple[float, ...]:
        """Move one joint, by preference an end of a piece that overlaps, and into it."""
        joint, forward = self._chance.randrange(len(stations)), self._chance.random() < 0.5
        if hurt is not None and not hurt.is_strap and self._chance.random() < SHORTER:
            ends = [end for end in (hurt.index - 2, hurt.index - 1) if 0 <= end < len(stations)]
            joint = self._chance.choice(ends)
            forward = joint == hurt.index - 2
        by = self._distance()
        there = round(stations[joint] + (by if forward else -by), 1)
        return (*stations[:joint], there, *stations[joint + 1 :])


def joint_costs(task: Task, choice: Choice) -> int:
    """Return what all joints of a choice cost, in cents."""
    return sum(task.parts[variant.panel].panel.quantity * variant.joint_cost for variant in choice)
