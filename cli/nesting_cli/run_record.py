"""What is told of a run beside its plan: times and machine, which would make equal plans unequal."""

import json
import os
import platform
from collections.abc import Iterable
from datetime import UTC, datetime
from importlib.metadata import version
from pathlib import Path

from nesting.model import Plan


def run_record(
    job_file: Path, plan: Plan, files: Iterable[str], *, chains: int = 1, workers: int = 1, stopped: bool
) -> str:
    """Return ``run.json``; its ``files`` list all that was written into the folder."""
    record = {
        "format": "nesting-run",
        "version": 1,
        "nesting": version("nesting"),
        "job_file": job_file.name,
        "made": datetime.now(UTC).isoformat(timespec="seconds"),
        "cpu_seconds": round(_cpu_seconds(), 2),
        "machine": platform.machine(),
        "python": platform.python_version(),
        "processors": os.cpu_count(),
        "workers": workers,
        "chains": chains,
        "seed": plan.seed,
        "work": plan.work,
        "stopped_early": stopped,
        "files": sorted([*files, "run.json"]),
    }
    return json.dumps(record, indent=1) + "\n"


def _cpu_seconds() -> float:
    """Return the processor seconds of this process and of those that it began and that have ended."""
    times = os.times()
    return times.user + times.system + times.children_user + times.children_system
