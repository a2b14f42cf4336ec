"""One search for sheet goods, made step by step: plain passes first, then the packing engine, and the best of all."""

from collections import Counter
from random import Random

from nesting.effort import Effort
from nesting.packing import Placer, compiled, wait_until_compiled

from .batch import Batch
from .choosing import SOLVER_WORK, altered, chosen
from .exchange import Exchange
from .filling import plain_manner, random_manner
from .first_plans import filled
from .giving_back import give_memory_back
from .improving import Improver, bench_for
from .layouts import Pool
from .master import best_selection
from .outcomes import Outcomes
from .selecting import Selection, selection
from .tasks import Task
from .variants import Variant

#: So many plain passes come first, or with many pieces those within so much work, and within a share of the budget.
PLAIN_PASSES, PLAIN_WORK, PLAIN_SHARE = 2, 5000, 0.5

#: Of the later steps one in so many is a plain pass.
STEPS_PER_PASS = 40

#: Share of the work that later plain passes may take.
PASSES = 0.05

#: Every so many steps the best sheets of all layouts are chosen anew, if there are new ones.
STEPS_PER_CHOICE = 6


class Chain:
    """What one search has found in each way, and what it has learnt on the way there."""

    def __init__(self, outcomes: Outcomes, pool: Pool, chance: Random) -> None:
        self.outcomes, self.pool, self._chance = outcomes, pool, chance
        self.workshop = bench_for(outcomes.tasks[0].job)
        self._improvers = {task: Improver(task, pool, self.workshop, chance) for task in outcomes.tasks}
        self._batches = {task: Batch(task, one.all_at_once) for task, one in self._improvers.items()}
        self.exchange = Exchange(
            outcomes, pool, {task: one.all_at_once.mover.known for task, one in self._improvers.items()}
        )
        self._steps, self._seen, self._spent = 0, 0, 0
        self._had: Counter[Task] = Counter()
        self._passes, self._other_variants = 0, True

    @property
    def gap(self) -> float:
        """Least distance between pieces."""
        return self.outcomes.tasks[0].job.workshop.gap

    @property
    def has_begun(self) -> bool:
        """Whether the plain passes are made that come first."""
        return self._steps >= PLAIN_PASSES or self._passes >= PLAIN_WORK

    def draw_from(self, seed: int) -> None:
        """Draw by chance from a seed from now on."""
        self._chance.seed(seed)

    def begin(self, effort: Effort, placer: Placer) -> None:
        """Make one plain pass in each way with the solver's choice of variants, for which first plans did not wait."""
        before = effort.spent
        for task in self.outcomes.tasks:
            if effort.over or not self.outcomes.has(task) or (variants := chosen(task, None, effort)) is None:
                continue
            done = filled(task, variants, placer, plain_manner(), self._chance)
            self.pool.add(done.tried)
            if not done.left:
                self.outcomes.take(task, selection(task.parts, variants, done.used))
        self._spent += effort.spent - before

    def step(self, effort: Effort, placer: Placer) -> None:
        """Look for a better selection in one way, and now and then over all layouts found."""
        before, task = effort.spent, self.outcomes.next_task(self._had)
        self._steps += 1
        better = self._stepped(task, self.outcomes.of(task), effort, placer)
        if self._steps % STEPS_PER_CHOICE == 0 and len(self.pool) > self._seen and not effort.over:
            better = self._best_of_all(task, better, effort)
        give_memory_back()  # steps leave holes behind them: a tenth of all memory
        self.outcomes.take(task, better)
        self._spent += effort.spent - before
        self._had[task] += effort.spent - before

    def _stepped(self, task: Task, best: Selection, effort: Effort, placer: Placer) -> Selection:
        """Return a better selection, or the same if the step found none."""
        if self._begins(effort) or self._pass_is_due or not engine_is_ready(effort):
            return self._pass(task, best, effort, placer)
        if self._batches[task].is_next(self._spent):
            return self._batches[task].step(best, effort)
        return self._improvers[task].step(best, effort)

    def _begins(self, effort: Effort) -> bool:
        """Whether the search has only begun: plain passes soon find much, and show what sheets hold."""
        few = self._steps <= PLAIN_PASSES and self._passes < PLAIN_WORK
        return few and effort.share < PLAIN_SHARE

    @property
    def _pass_is_due(self) -> bool:
        """Whether another plain pass is to be made: now and then, but where there are many pieces it takes long."""
        return self._steps % STEPS_PER_PASS == 0 and self._passes <= PASSES * self._spent

    def _best_of_all(self, task: Task, better: Selection, effort: Effort) -> Selection:
        """Return the best selection over all layouts found so far."""
        effort.spend(SOLVER_WORK)
        self._seen = len(self.pool)
        layouts = [layout for layout in self.pool.layouts if layout.stock in task.stocks]
        # Most new layouts are of the best variants; only plain passes try others.
        variants = task.variants if self._other_variants else tuple((variant,) for variant in better.variants)
        self._other_variants = False
        return best_selection(task.parts, variants, task.clashing, layouts, better)

    def _pass(self, task: Task, best: Selection, effort: Effort, placer: Placer) -> Selection:
        """Fill sheets in a manner and with variants drawn by chance; return it if it is better."""
        before, self._other_variants = effort.spent, True
        variants = self._next_choice(task, best, effort)
        done = filled(task, variants, placer, random_manner(self._chance), self._chance)
        self.pool.add(done.tried)
        self._passes += effort.spent - before
        if done.left:
            return best
        return min(best, selection(task.parts, variants, done.used), key=lambda s: s.rank)

    def _next_choice(self, task: Task, best: Selection, effort: Effort) -> tuple[Variant, ...]:
        """Return the best choice of variants so far, or it with one panel made otherwise, or a fresh one."""
        draw = self._chance.random()
        if draw < 0.35:
            return best.variants
        if draw < 0.85:
            return altered(best.variants, task.variants, task.clashing, self._chance)
        return chosen(task, self._chance, effort) or best.variants


def engine_is_ready(effort: Effort) -> bool:
    """Whether the packing engine can be used; where the outcome may not depend on time, wait for it."""
    if effort.budget.seconds is None and not effort.over:
        wait_until_compiled()
    return compiled()
