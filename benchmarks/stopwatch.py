"""Wall-clock and processor seconds, side by side."""

import resource
import time
from dataclasses import dataclass, field


def _cpu_seconds() -> float:
    """Seconds of this process, all its threads, and its children that have ended."""
    children = resource.getrusage(resource.RUSAGE_CHILDREN)
    return time.process_time() + children.ru_utime + children.ru_stime


@dataclass(frozen=True)
class Stopwatch:
    """Starts when it is made. Child processes count once they have ended: end the pool before reading it."""

    _wall: float = field(default_factory=time.perf_counter)
    _cpu: float = field(default_factory=_cpu_seconds)

    @property
    def seconds(self) -> float:
        """Wall-clock seconds since the start."""
        return time.perf_counter() - self._wall

    @property
    def cpu_seconds(self) -> float:
        """Processor seconds since the start."""
        return _cpu_seconds() - self._cpu
