"""Runs the installed command as a user would, and measures it from outside."""

import os
import re
import subprocess
import sys
import time
from dataclasses import dataclass


@dataclass(frozen=True)
class Run:
    """What one run of the command took; ``first_plan`` is None if no plan was shown."""

    status: int
    seconds: float
    cpu_seconds: float
    peak_megabytes: float
    first_plan: float | None
    errors: str


def run(*arguments: str) -> Run:
    """Run the command and wait for it.

    Times are wall-clock seconds from the start of the process; ``first_plan`` until it printed a first audited plan.
    """
    started = time.perf_counter()
    process = subprocess.Popen(
        [sys.executable, "-m", "nesting_cli", *arguments],
        stdout=subprocess.DEVNULL,
        stderr=subprocess.PIPE,
        text=True,
        bufsize=1,
    )
    assert process.stderr is not None
    first, lines = None, []
    for line in process.stderr:
        lines.append(line)
        if first is None and re.search(r"best plan \d", line):
            first = time.perf_counter() - started
    _, status, usage = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    seconds = time.perf_counter() - started
    return Run(
        status=process.returncode,
        seconds=seconds,
        cpu_seconds=usage.ru_utime + usage.ru_stime,
        peak_megabytes=usage.ru_maxrss / 1024,
        first_plan=first,
        errors="".join(lines),
    )
