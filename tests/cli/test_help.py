"""Help comes at once, and says what there is."""

import subprocess
import sys

import pytest
from command_runs import PATIENCE, here

VERBS = ["new", "plan", "audit"]

#: What takes long to import, and so must wait for the verb that needs it.
HEAVY = ["shapely", "ortools", "numpy", "jinja2", "tree_sitter"]

LIGHT = f"""
import sys
import nesting_cli.app
import typer
command = typer.main.get_command(nesting_cli.app.app)
for verb in [[], *([verb] for verb in {VERBS})]:
    command.main([*verb, "--help"], standalone_mode=False)
heavy = [name for name in {HEAVY} if name in sys.modules]
assert not heavy, heavy
"""


@pytest.mark.parametrize("verb", VERBS)
def test_each_verb_says_what_it_does_and_takes(verb: str) -> None:
    """On standard output, with status 0; the overview lists the verb."""
    done = here(verb, "--help")
    assert (done.exit_code, done.stderr) == (0, "")
    assert f"{verb} [OPTIONS]" in done.stdout
    assert f"\n  {verb} " in here("--help").stdout


def test_the_options_of_plan_are_told() -> None:
    """Those by which the search is bounded and fixed."""
    text = here("plan", "--help").stdout
    assert all(option in text for option in ("--out", "--work", "--seconds", "--seed", "--workers", "--chains"))


def test_help_imports_nothing_heavy() -> None:
    """In a process of its own, where no other test has imported anything."""
    done = subprocess.run([sys.executable, "-c", LIGHT], capture_output=True, text=True, timeout=PATIENCE, check=False)
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.count("Usage:") == 1 + len(VERBS)


@pytest.mark.parametrize(
    "arguments",
    [
        ["plan"],
        ["plan", "job.toml"],
        ["plan", "job.toml", "--out"],
        ["plan", "job.toml", "--out", "x", "--colour"],
        ["plan", "job.toml", "--out", "x", "--work", "much"],
        ["plan", "job.toml", "--out", "x", "--work", "-1"],
        ["plan", "job.toml", "--out", "x", "--seconds", "-0.5"],
        ["plan", "job.toml", "--out", "x", "--seconds", "nan"],
        ["plan", "job.toml", "--out", "x", "--seed", "-1"],
        ["plan", "job.toml", "--out", "x", "--workers", "0"],
        ["plan", "job.toml", "--out", "x", "--workers", "two"],
        ["plan", "job.toml", "--out", "x", "--chains", "0"],
        ["plan", "job.toml", "other.toml", "--out", "x"],
        ["saw"],
        ["new"],
        ["audit"],
        ["--loud"],
    ],
    ids=" ".join,
)
def test_usage_that_makes_no_sense_ends_with_status_2(arguments: list[str]) -> None:
    """And a word on standard error, not a trace."""
    done = here(*arguments)
    assert (done.exit_code, done.stdout) == (2, "")
    assert "Usage:" in done.stderr or "Error: Option" in done.stderr
    assert "Traceback" not in done.stderr
