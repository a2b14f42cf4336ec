"""What a benchmark is asked to do."""

import fnmatch
import platform
from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True, kw_only=True)
class Options:
    """The options of the command line; ``data`` is the folder of open instances, if there is one."""

    data: Path | None
    seconds: float | None
    seeds: tuple[int, ...]
    workers: int
    only: str

    def wants(self, instance: str) -> bool:
        """Whether an instance matches the pattern that was asked for."""
        return fnmatch.fnmatch(instance, self.only)

    def describe(self) -> str:
        """Say what was asked for."""
        limit = "usual work" if self.seconds is None else f"{self.seconds:g} s each"
        return f"{limit}, {self.workers} worker{'s' * (self.workers != 1)}, Python {platform.python_version()}"
