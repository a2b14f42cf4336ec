"""The ways to make the panels of a task that are known so far: each is worked out once, and one object."""

from .tasks import Task
from .variants import Variant, variant_at


class Known:
    """Those first thought of, and others with joints elsewhere as they are asked for."""

    def __init__(self, task: Task) -> None:
        self._task = task
        variants = [variant for several in task.variants for variant in several]
        self._joined = {(v.panel, v.stations): v for v in variants if v.way == "joined"}
        self._others: dict[tuple[int, tuple[float, ...]], Variant | None] = {
            (v.panel, v.stations): v for v in variants if v.way != "joined"
        }

    def joined(self, panel: int, stations: tuple[float, ...]) -> Variant:
        """Return a panel cut from a blank with its scarfs at these stations, one of those first thought of."""
        return self._joined[panel, stations]

    def divided(self, panel: int, stations: tuple[float, ...]) -> Variant | None:
        """Return a panel with joints at these stations, or in one piece without any; None if a piece fits no sheet."""
        key = (panel, stations)
        if key not in self._others:
            self._others[key] = variant_at(self._task.parts[panel], stations, self._task.job)
        return self._others[key]

    def learn(self, variant: Variant) -> None:
        """Take in a variant that was worked out elsewhere, unless there is one like it."""
        if variant.way != "joined":
            self._others.setdefault((variant.panel, variant.stations), variant)
