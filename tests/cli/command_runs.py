"""Runs the command, in this process or in one of its own, on small jobs."""

import json
import os
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from click.testing import Result
from typer.testing import CliRunner

import nesting_cli.app

#: Seconds after which a run is taken for hung.
PATIENCE = 120

TRAY = """\
[[sheets]]
name = "birch"
material = "birch"
thickness = 6
size = [1525, 1525]
price = 64.10

[[panels]]
name = "bottom"
material = "birch"
thickness = 6
outline = { rectangle = [560, 230] }
quantity = 2
"""

#: Scarfed panels and strips of several kinds: there is much to choose, and the search goes on till it is stopped.
DINGHY = """\
[joints.scarf]
cost = { each = 2.00, per_m = 6.00 }

[[sheets]]
name = "large"
material = "gaboon"
thickness = 6
size = [2440, 1220]
price = 84.10

[[sheets]]
name = "small"
material = "gaboon"
thickness = 6
size = [2100, 900]
price = 53.35

[[panels]]
name = "side"
material = "gaboon"
thickness = 6
outline = { points = [[0, 0], [3100, 120], [3300, 480], [1500, 420], [-80, 460]] }
quantity = 2
handed = true
joint = "scarf"

[[panels]]
name = "bottom"
material = "gaboon"
thickness = 6
outline = { points = [[0, 100], [1200, 0], [2800, 240], [2800, 300], [1200, 640], [0, 500]] }
joint = "scarf"

[[panels]]
name = "frame"
material = "gaboon"
thickness = 6
outline = { points = [[0, 0], [700, 0], [830, 330], [-130, 330]] }
quantity = 5
grain = "any"

[[neighbours]]
between = ["side", "bottom"]
shift = 200

[[lengths]]
name = "spruce"
material = "spruce"
section = [45, 20]
length = 2400
price = 7.85

[[strips]]
name = "gunwale"
material = "spruce"
section = [45, 20]
length = 3300
quantity = 4
joint = "scarf"
"""


def table(kind: str, *rows: str) -> str:
    """Return a table of a job file, one of several of its kind."""
    return "\n".join(["", f"[[{kind}]]", *rows, ""])


def panel(name: str, length: float, width: float, *more: str) -> str:
    """Return the table of a rectangular panel of 6 mm gaboon."""
    outline = f"outline = {{ rectangle = [{length}, {width}] }}"
    return table("panels", f'name = "{name}"', 'material = "gaboon"', "thickness = 6", outline, *more)


#: The table of a sheet of 6 mm gaboon.
PLY = table("sheets", 'name = "ply"', 'material = "gaboon"', "thickness = 6", "size = [2440, 1220]", "price = 84")


def written(folder: Path, text: str = TRAY) -> Path:
    """Write a job file and return its place."""
    file = folder / "job.toml"
    file.write_text(text, encoding="utf-8")
    return file


def here(*arguments: object) -> Result:
    """Run the command in this process."""
    return CliRunner().invoke(nesting_cli.app.app, [str(argument) for argument in arguments])


def command(*arguments: object) -> list[str]:
    """Return the words by which the command is started in a process of its own."""
    return [sys.executable, "-m", "nesting_cli", *(str(argument) for argument in arguments)]


def apart(*arguments: object, environment: Mapping[str, str] | None = None) -> subprocess.CompletedProcess[str]:
    """Run the command in a process of its own."""
    return subprocess.run(
        command(*arguments),
        env={**os.environ, **(environment or {})},
        capture_output=True,
        text=True,
        timeout=PATIENCE,
        check=False,
    )


def contents(folder: Path) -> dict[str, bytes]:
    """Return every file below a folder with its bytes."""
    return {str(file.relative_to(folder)): file.read_bytes() for file in folder.rglob("*") if file.is_file()}


def names(folder: Path) -> list[str]:
    """Return the names of what lies in a folder, hidden or not."""
    return sorted(item.name for item in folder.iterdir())


def plan_of(folder: Path) -> Any:
    """Return the plan in an output folder as plain JSON."""
    return json.loads((folder / "plan.json").read_text(encoding="utf-8"))
