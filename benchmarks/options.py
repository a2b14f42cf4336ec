"""What a benchmark is asked to do."""

import fnmatch
import platform
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TypeVar

from .data import data_folder

Instance = TypeVar("Instance")


@dataclass(frozen=True, kw_only=True)
class Options:
    """The options of the command line.

    Attributes
    ----------
    data : Path or None
        Folder of open instances, if one was named.
    budgets : tuple of float
        Seconds for each instance, rising; what is best at each is read from one run. Empty means the usual work.
    seeds : tuple of int
    workers : int
    only : str
        Pattern of the shell's kind for the names of instances.
    everything : bool
        All instances instead of the fixed spread.
    json : Path or None
        File of records, to which is added and from which is resumed.
    """

    data: Path | None
    budgets: tuple[float, ...] = ()
    seeds: tuple[int, ...] = (0,)
    workers: int = 1
    only: str = "*"
    everything: bool = False
    json: Path | None = None

    @property
    def seconds(self) -> float | None:
        """Seconds for one run, or None for the usual work: the longest of the budgets."""
        return max(self.budgets, default=None)

    @property
    def folder(self) -> Path:
        """The folder of open instances.

        Raises
        ------
        MissingDataError
            If none was named, or it is not there.
        """
        return data_folder(self.data)

    def wants(self, instance: str) -> bool:
        """Whether an instance matches the pattern that was asked for."""
        return fnmatch.fnmatch(instance, self.only)

    def spread_or_all(
        self, instances: Sequence[Instance], chosen: Callable[[Sequence[Instance]], Sequence[Instance]]
    ) -> Sequence[Instance]:
        """Return the fixed spread of instances; all of them if so asked, or if a pattern says which."""
        return instances if self.everything or self.only != "*" else chosen(instances)

    def describe(self) -> str:
        """Say what was asked for."""
        limit = " and ".join(f"{budget:g}" for budget in self.budgets)
        told = f"{limit} s each" if limit else "usual work"
        return f"{told}, {self.workers} worker{'s' * (self.workers != 1)}, Python {platform.python_version()}"
