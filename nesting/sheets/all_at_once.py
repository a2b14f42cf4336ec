"""Lays everything at once on sheets that would cost less, again and again with joints elsewhere."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from random import Random

from nesting.effort import Budget, Effort
from nesting.packing import Workshop

from .aims import Aim, aim_below
from .choosing import SOLVER_WORK
from .costs import cost_of
from .crowd import Crowd, Member
from .layouts import Pool
from .moving_joints import Choice, JointMover, joint_costs
from .realising import Attempt, attempted
from .selecting import Selection, selection, wanted
from .stock import Stock
from .tasks import Task

#: What share of the cost an attempt begun afresh is to gain, at least and at most: little is as likely as much.
LEAST_GAIN, MOST_GAIN = 0.001, 0.1

#: How often what is to be gained is drawn anew where no sheets would do.
DRAWS = 6

#: How often an attempt is begun afresh though there are enough: else all may come to be at sheets that hold too little.
FRESH = 0.4

#: Work units, besides and for each piece, of an attempt begun afresh, and of going on with one.
WORK_AFRESH, WORK_AGAIN = (200, 10), (60, 3)

#: The nearer an attempt came the longer it is gone on with: so much overlap for once, and at most so many times.
NEAR_BY, MOST_TIMES = 3.0, 50.0

#: Work units that the preparing of a panel's new pieces counts for.
SHAPES_WORK = 60


@dataclass
class AllAtOnce:
    """Attempts to make everything of one task for less; those that came near are gone on with."""

    task: Task
    pool: Pool
    workshop: Workshop
    chance: Random
    crowd: Crowd = field(default_factory=Crowd)
    mover: JointMover = field(init=False)

    def __post_init__(self) -> None:
        self.mover = JointMover(self.task, self.chance)

    def for_task(self, task: Task) -> "AllAtOnce":
        """Return one for another task of the same job, with a share in the pool of layouts."""
        return AllAtOnce(task, self.pool, self.workshop, self.chance)

    def below(self, cost: int, effort: Effort) -> Selection | None:
        """Return a selection that costs less than ``cost`` cents, or None if the step came to none.

        A step begins an attempt, or goes on with one that came near.
        """
        limit = round(cost * (1 - LEAST_GAIN))
        self.crowd.drop_from(limit)
        goes_on = self.crowd.is_full and self.chance.random() >= FRESH
        member = self._with_a_joint_moved(limit, effort) if goes_on else self._fresh(cost, effort)
        if member is None or not member.attempt.arrangement.apart:
            return None
        self.pool.add(member.attempt.layouts)
        return selection(self.task.parts, member.choice, member.attempt.layouts)

    def _fresh(self, cost: int, effort: Effort) -> Member | None:
        """Choose variants and sheets that cost less by area, and lay everything on them."""
        aim = self._aim(cost, effort)
        if aim is None:
            return None
        member = self._tried(aim.variants, aim.stocks, WORK_AFRESH, effort)
        if member is not None and not member.attempt.arrangement.apart:
            self.crowd.join(member)
        return member

    def _aim(self, cost: int, effort: Effort) -> Aim | None:
        """Draw what is to be gained, and return variants and sheets that gain it; None if there seem to be none."""
        effort.spend(SOLVER_WORK)
        for _ in range(DRAWS):
            gain = LEAST_GAIN * (MOST_GAIN / LEAST_GAIN) ** self.chance.random()
            aim = aim_below(self.task, round(cost * (1 - gain)), self.chance)
            if aim is not None:
                return aim
        return None

    def _with_a_joint_moved(self, limit: int, effort: Effort) -> Member | None:
        """Go on with an attempt that came near, with a panel's joints elsewhere."""
        member = self.crowd.drawn(self.chance)
        stocks = member.attempt.stocks
        most = limit - 1 - cost_of(stocks)
        choice = self.mover.moved(member.choice, member.attempt, most) or member.choice
        effort.spend(SHAPES_WORK)
        longer = min(MOST_TIMES, member.times * max(1.0, NEAR_BY / max(member.overlap, 1e-9)))
        work = [round(longer * work) for work in WORK_AGAIN]
        changed = self._tried(choice, stocks, work, effort, member.attempt)
        self.crowd.go_on(member, changed)
        return changed

    def _tried(
        self,
        choice: Choice,
        stocks: Sequence[Stock],
        work: Sequence[int],
        effort: Effort,
        start: Attempt | None = None,
    ) -> Member | None:
        """Lay all pieces of a choice on sheets; None if one fits nowhere."""
        pieces = wanted(self.task.parts, choice)
        part = effort.part(Budget(work=work[0] + work[1] * pieces.total()))
        attempt = attempted(pieces, stocks, self.workshop, part, self.chance.randrange(2**31), start)
        if attempt is None:
            return None
        return Member(choice, attempt, joint_costs(self.task, choice) + cost_of(stocks))
