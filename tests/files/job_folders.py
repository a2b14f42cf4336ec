"""Job files on disk, written out as a builder would write them."""

from pathlib import Path

import pytest

from nesting.files import read_job
from nesting.model import JobError, Problem

SMALL_JOB = """\
title = "Tray"

[workshop]
kerf = 3.0

[[sheets]]
name = "birch"
material = "birch"
thickness = 6
size = [1525, 1525]
price = 84.10

[[panels]]
name = "bottom"
material = "birch"
thickness = 6
outline = { rectangle = [560, 230] }
"""

OFFSETS = """\
edge,station,offset,corner
upper,0,300,
upper,500,340,
upper,1000,310,
lower,0,0,
lower,1000,0,
"""

OFFSETS_JOB = SMALL_JOB.replace("{ rectangle = [560, 230] }", '{ offsets = "side.csv" }')


def written(folder: Path, text: str = SMALL_JOB, name: str = "job.toml") -> Path:
    """Write a job file and return its place."""
    file = folder / name
    file.write_text(text, encoding="utf-8")
    return file


def refused(file: Path) -> tuple[Problem, ...]:
    """Return the problems with which a job file is refused."""
    with pytest.raises(JobError) as refusal:
        read_job(file)
    return refusal.value.problems


def the_problem(file: Path) -> Problem:
    """Return the one problem with which a job file is refused."""
    (problem,) = refused(file)
    return problem
