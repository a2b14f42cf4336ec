"""The ways to make the panels of a task that are known so far: each is worked out once, and one object."""

from .joined import joined_at
from .tasks import Task
from .variants import Variant, variant_at

#: The panel, and where its joints lie.
Key = tuple[int, tuple[float, ...]]


class Known:
    """Those first thought of, and others with joints elsewhere as they are asked for."""

    def __init__(self, task: Task) -> None:
        self._task = task
        self._joined: dict[Key, Variant | None] = {}
        self._others: dict[Key, Variant | None] = {}
        for several in task.variants:
            for variant in several:
                self.learn(variant)

    def joined(self, panel: int, stations: tuple[float, ...]) -> Variant | None:
        """Return a panel cut from a blank with its scarfs at these stations; None if it lies on none so."""
        key = (panel, stations)
        if key not in self._joined:
            self._joined[key] = joined_at(self._task.parts[panel], stations, self._task.job)
        return self._joined[key]

    def divided(self, panel: int, stations: tuple[float, ...]) -> Variant | None:
        """Return a panel with joints at these stations, or in one piece without any; None if a piece fits no sheet."""
        key = (panel, stations)
        if key not in self._others:
            self._others[key] = variant_at(self._task.parts[panel], stations, self._task.job)
        return self._others[key]

    def learn(self, variant: Variant) -> None:
        """Take in a variant that was worked out elsewhere, unless there is one like it."""
        known = self._joined if variant.way == "joined" else self._others
        known.setdefault((variant.panel, variant.stations), variant)
