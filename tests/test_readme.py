"""What the README tells a new user to type works, in an empty folder and an empty environment."""

import os
import re
import shutil
import subprocess
from pathlib import Path

import pytest

from nesting.effort import Budget, Effort
from nesting.files import read_job
from nesting.planner import plan

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text()

#: Runs the whole test suite again, so it is left out here; whoever runs these tests has typed it.
NOT_HERE = ["make test"]


def command_blocks() -> list[list[str]]:
    """Return the README's indented blocks of commands, each as its lines."""
    prose = re.sub(r"```.*?```", "", README, flags=re.DOTALL)
    blocks = re.findall(r"(?:^    \S.*\n)+", prose, flags=re.MULTILINE)
    return [[line.strip() for line in block.splitlines()] for block in blocks]


BLOCKS = [block for block in command_blocks() if block != NOT_HERE]


def fresh_copy(folder: Path) -> Path:
    """Return a copy of the files that belong to the project, as a clone would hold them."""
    listed = subprocess.run(
        ["git", "ls-files", "--cached", "--others", "--exclude-standard"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    )
    for name in listed.stdout.splitlines():
        if (ROOT / name).is_file():
            (folder / name).parent.mkdir(parents=True, exist_ok=True)
            shutil.copy2(ROOT / name, folder / name)
    return folder


def test_the_readme_has_both_ways_to_start() -> None:
    """With make, and with pip alone."""
    assert ["make demo"] in BLOCKS
    assert ["make test"] in command_blocks()
    assert any("pip install ." in line for block in BLOCKS for line in block)


@pytest.mark.parametrize("block", BLOCKS, ids=lambda block: block[0].replace(" ", "-"))
def test_every_command_of_the_readme_runs(block: list[str], tmp_path: Path) -> None:
    """In a fresh copy, one after the other; the page that it names is there afterwards."""
    copy = fresh_copy(tmp_path / "nesting")
    environment = {key: value for key, value in os.environ.items() if not key.startswith(("VIRTUAL_ENV", "MAKE"))}
    for command in block:
        done = subprocess.run(
            command, shell=True, cwd=copy, env=environment, capture_output=True, text=True, timeout=900, check=False
        )
        assert done.returncode == 0, f"{command}\n{done.stdout}\n{done.stderr}"
    page = re.search(r"Open (\S+/index\.html)", done.stdout)
    assert page is not None
    assert "<html" in (copy / page[1]).read_text()


def test_the_job_file_of_the_readme_can_be_planned(tmp_path: Path) -> None:
    """The example is a whole job, not a picture of one."""
    found = re.search(r"```toml\n(.*?)```", README, flags=re.DOTALL)
    assert found is not None
    (tmp_path / "job.toml").write_text(found[1])
    made = plan(read_job(tmp_path / "job.toml"), effort=Effort(Budget(work=0)))
    assert made.totals.joints >= 4
