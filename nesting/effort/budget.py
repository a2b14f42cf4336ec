"""How much may be spent on a search, and how much has been."""

import time
from dataclasses import dataclass
from threading import Event


@dataclass(frozen=True, kw_only=True)
class Budget:
    """What a search may spend. With ``work`` alone the same seed gives the same bytes; ``seconds`` does not.

    Attributes
    ----------
    work : int or None
        Work units: one is one piece tried in one attitude on one sheet, or as much solver time.
    seconds : float or None
        Wall-clock seconds from the start of the search.
    """

    work: int | None = None
    seconds: float | None = None

    def __post_init__(self) -> None:
        if any(limit is not None and not limit >= 0 for limit in (self.work, self.seconds)):
            raise ValueError("a budget can't be negative")


class Effort:
    """What one search has spent of its budget. Not shared between searches.

    Searches ask ``over`` between steps that are short, and never break off inside one, so that what was done
    depends on the work units alone. One that is sent to another process has there what is left of it, and hears of
    nothing here.
    """

    def __init__(self, budget: Budget, whole: "Effort | None" = None, heeded: "Effort | None" = None) -> None:
        self.budget = budget
        self.spent = 0
        self._whole, self._heeded = whole, heeded or whole
        self._started = time.monotonic()
        self._stopped = Event()

    def spend(self, units: int) -> None:
        """Count work that was done."""
        self.spent += units
        if self._whole is not None:
            self._whole.spend(units)

    def part(self, budget: Budget) -> "Effort":
        """Return an effort with a budget of its own that counts here too, and is over when this one is."""
        return Effort(budget, self)

    def share_of_rest(self, share: float) -> "Effort":
        """Return an effort that may spend a share of what is left; what it spends counts here too."""
        work, seconds = self.budget.work, self.seconds_left
        left = None if work is None else max(0, int((work - self.spent) * share))
        return Effort(Budget(work=left, seconds=None if seconds is None else seconds * share), self)

    def apart(self, budget: Budget) -> "Effort":
        """Return an effort with a budget of its own that counts nowhere else, and ends if this one is stopped."""
        return Effort(budget, heeded=self)

    def __reduce__(self) -> tuple[type["Effort"], tuple[Budget]]:
        work = self.budget.work
        left = None if work is None else max(0, work - self.spent)
        return Effort, (Budget(work=left, seconds=self.seconds_left),)

    def stop(self) -> None:
        """Ask the search to end at its next step; safe from a signal handler or another thread."""
        self._stopped.set()

    @property
    def stopped(self) -> bool:
        """Whether somebody asked the search to end."""
        return self._stopped.is_set() or (self._heeded is not None and self._heeded.stopped)

    @property
    def out_of_time(self) -> bool:
        """Whether somebody asked the search to end, or its seconds have passed: to be asked in steps that may be long.

        Work does not count, on which alone it depends where a search without a limit in seconds ends.
        """
        if self.stopped or (self._whole is not None and self._whole.out_of_time):
            return True
        return self.seconds_left == 0.0

    @property
    def share(self) -> float:
        """How much of the budget is spent, 0 to 1; always 0 if nothing limits the search."""
        budget, shares = self.budget, [0.0]
        if budget.work is not None:
            shares.append(self.spent / max(budget.work, 1))
        if budget.seconds is not None:
            shares.append((time.monotonic() - self._started) / max(budget.seconds, 1e-9))
        return min(max(shares), 1.0)

    @property
    def seconds_left(self) -> float | None:
        """Wall-clock seconds until the search has to end; None without such a limit."""
        if self.budget.seconds is None:
            return None
        return max(0.0, self._started + self.budget.seconds - time.monotonic())

    @property
    def over(self) -> bool:
        """Whether the search has to end."""
        budget = self.budget
        if self.stopped or (self._whole is not None and self._whole.over):
            return True
        if budget.work is not None and self.spent >= budget.work:
            return True
        return budget.seconds is not None and time.monotonic() - self._started >= budget.seconds
