"""Steps by which a selection is made cheaper: other sheets altogether, fewer sheets for a few, and plain filling."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import combinations_with_replacement
from random import Random

from nesting.effort import Budget, Effort
from nesting.model import Job
from nesting.packing import Gaps, Workshop

from .all_at_once import AllAtOnce
from .choosing import SOLVER_WORK
from .costs import cost_of
from .layouts import Layout, Pool
from .limits import there_is
from .pieces import PieceKind
from .pricing import filled_for_worth, worths
from .realising import realised
from .selecting import Selection, selection, wanted
from .stock import Stock
from .tasks import Task

#: Hundredths of the sheets' area that pieces are reckoned to take: at first, at least, and at most.
FILLED, LEAST_FILLED, MOST_FILLED = 74, 60, 96

#: Work units of one attempt at a few sheets: for each piece, and besides.
WORK_A_PIECE, WORK_BESIDES = 20, 250

#: By how much it lasts longer than that, in turn: short ones come more often, as nobody knows which will do
#: (Luby, Sinclair and Zuckerman 1993, "Optimal speedup of Las Vegas algorithms", from memory).
LONGER = (1, 1, 2, 1, 1, 2, 4)

#: Pieces that are laid at once: of jobs with more, only those of a few sheets.
MOST_AT_ONCE = 60

#: Share of the steps of such jobs that fill one sheet for the most worth, and what one may spend.
PRICED, WORK_A_SHEET = 0.9, 2500

#: Sheets of which the pieces are laid anew, and how often such sheets are looked for.
SEVERAL, LOOKS = (2, 3, 4), 40

#: Millimetres by which curves may be taken for larger than they are.
COARSENESS = 1.0


def bench_for(job: Job) -> Workshop:
    """Return the packing engine's workshop for a job: what it prepares serves every way of joining."""
    return Workshop(Gaps(parts=job.workshop.gap), COARSENESS)


@dataclass
class Improver:
    """Tries steps on the selections of one task, and learns how full sheets can be."""

    task: Task
    pool: Pool
    workshop: Workshop
    chance: Random
    filled: int = FILLED
    attempts: int = 0
    all_at_once: AllAtOnce = field(init=False)

    def __post_init__(self) -> None:
        self.all_at_once = AllAtOnce(self.task, self.pool, self.workshop, self.chance)

    def step(self, best: Selection, effort: Effort) -> Selection:
        """Return a cheaper selection, or the same if the step found none."""
        found = self._found(best, effort)
        return found if found is not None and found.rank < best.rank else best

    def _found(self, best: Selection, effort: Effort) -> Selection | None:
        """Look for a cheaper selection: of all sheets at once, or where there are many pieces of a few at a time."""
        pieces = sum(layout.counts.total() for layout in best.layouts)
        if pieces <= MOST_AT_ONCE:
            return self.all_at_once.below(best.cost, effort)
        if self.chance.random() >= PRICED:
            return self._several_sheets(best, effort)
        self._priced_sheet(best, effort)
        return None

    def _several_sheets(self, best: Selection, effort: Effort) -> Selection | None:
        """Lay the pieces of a few sheets anew on sheets that cost less."""
        for _ in range(LOOKS):
            several = self._drawn(best)
            rest = [layout for layout in best.layouts if layout not in several]
            pieces: Counter[PieceKind] = sum((layout.counts for layout in several), Counter())
            cheaper = self._cheaper(several, rest, pieces)
            if cheaper is None:
                continue
            layouts = self._laid(pieces, cheaper, effort)
            return None if layouts is None else selection(self.task.parts, best.variants, [*rest, *layouts])
        self._reckon(2)
        return None

    def _priced_sheet(self, best: Selection, effort: Effort) -> None:
        """Fill one kind of sheet with pieces of great worth: layouts for the pool, of which many may be cut."""
        needed = wanted(self.task.parts, best.variants)
        layouts = [layout for layout in self.pool.layouts if layout.stock in self.task.stocks]
        effort.spend(SOLVER_WORK)
        worth = worths(needed, layouts)
        useful = [stock for stock in self.task.stocks if any(stock.index in kind.stocks for kind in needed)]
        part = effort.part(Budget(work=WORK_A_SHEET))
        self.pool.add([filled_for_worth(self.chance.choice(useful), needed, worth, self.workshop, part, self.chance)])

    def _drawn(self, best: Selection) -> list[Layout]:
        """Draw a few sheets, emptier ones sooner."""
        count = min(self.chance.choice(SEVERAL), len(best.layouts))
        left, drawn = list(best.layouts), list[Layout]()
        while len(drawn) < count:
            empty = [1.05 - min(1.0, layout.area / layout.stock.area) for layout in left]
            (layout,) = self.chance.choices(left, empty)
            left.remove(layout)
            drawn.append(layout)
        return drawn

    def _cheaper(
        self, several: Sequence[Layout], rest: Sequence[Layout], pieces: Counter[PieceKind]
    ) -> tuple[Stock, ...] | None:
        """Return sheets that cost less than those drawn, and are large enough for their pieces by area."""
        # Only where a merchant asks less for many do the other sheets matter.
        others = [layout.stock for layout in rest] if any(sheet.price_breaks for sheet in self.task.job.sheets) else []
        price = cost_of([*others, *(layout.stock for layout in several)])
        area = sum(kind.area * count for kind, count in pieces.items())
        useful = [stock for stock in self.task.stocks if any(stock.index in kind.stocks for kind in pieces)]
        fitting = [
            stocks
            for count in range(1, len(several) + 2)
            for stocks in combinations_with_replacement(useful, count)
            if 100 * area <= self.filled * sum(stock.area for stock in stocks)
            and cost_of([*others, *stocks]) < price
            and all(any(stock.index in kind.stocks for stock in stocks) for kind in pieces)
            and self._there(stocks, rest)
        ]
        return self.chance.choice(fitting) if fitting else None

    def _there(self, stocks: Sequence[Stock], rest: Sequence[Layout]) -> bool:
        """Whether there are enough sheets for these beside the others."""
        taken: Counter[int] = Counter()
        for stock in (*stocks, *(layout.stock for layout in rest)):
            taken.update(stock.takes)
        there = there_is([*stocks, *(layout.stock for layout in rest)])
        return all((most := there[index]) is None or count <= most for index, count in taken.items())

    def _laid(self, pieces: Counter[PieceKind], stocks: Sequence[Stock], effort: Effort) -> tuple[Layout, ...] | None:
        """Try to lay pieces on sheets, and learn from it."""
        work = (WORK_BESIDES + WORK_A_PIECE * pieces.total()) * LONGER[self.attempts % len(LONGER)]
        self.attempts += 1
        part = effort.part(Budget(work=work))
        layouts = realised(pieces, stocks, self.workshop, part, self.chance.randrange(2**31))
        self._reckon(-1 if layouts is None else 2)
        if layouts is not None:
            self.pool.add(layouts)
        return layouts

    def _reckon(self, change: int) -> None:
        """Take sheets to be fuller, or less full, from now on."""
        self.filled = max(LEAST_FILLED, min(MOST_FILLED, self.filled + change))
