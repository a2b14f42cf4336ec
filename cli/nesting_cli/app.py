"""The command's verbs. Everything heavy is imported inside them, so that help comes at once."""

from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

from .failures import translated
from .leaving import left_after

app = typer.Typer(
    name="nesting",
    help="Plan the material of a small plywood boat: what to buy, where every part and joint goes, what is left.",
    no_args_is_help=True,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    add_completion=False,
)

JOB = typer.Argument(help="The job file (TOML, or JSON of the same structure).")


class Kind(StrEnum):
    """The kinds of file that have a schema."""

    job = "job"
    plan = "plan"


def main() -> None:
    """Run the command."""
    left_after(app)


@app.command("new")
@translated
def new(
    file: Annotated[Path, typer.Argument(help="The job file to write, such as skiff/job.toml.")],
    starter: Annotated[str, typer.Option(help="Which starter job to write.")] = "skiff",
) -> None:
    """Write a starter job, with the files that it names beside it."""
    from .starting import write_starter

    write_starter(file, starter)


@app.command("check")
@translated
def check(
    job: Annotated[Path, JOB],
    as_json: Annotated[bool, typer.Option("--json", help="Print problems and hints as a JSON list.")] = False,
) -> None:
    """Tell all that is wrong with a job, and what looks like a slip; nothing is written."""
    from .checking import check_job, tell_as_json, tell_as_lines

    check_job(job, tell_as_json if as_json else tell_as_lines)


@app.command("plan")
@translated
def plan(
    job: Annotated[Path, JOB],
    out: Annotated[Path, typer.Option(help="The folder for the plan, its drawings and lists.")],
    work: Annotated[
        int | None, typer.Option(min=0, help="Work units to spend; the same work and seed give the same plan.")
    ] = None,
    seconds: Annotated[float | None, typer.Option(min=0, help="Seconds to spend.")] = None,
    seed: Annotated[int, typer.Option(min=0, help="Fixes every choice made by chance.")] = 0,
    workers: Annotated[
        int, typer.Option(min=1, help="Processes for the chains: beside --chains they change only the time it takes.")
    ] = 1,
    chains: Annotated[
        int | None,
        typer.Option(
            min=1,
            show_default="as many as workers",
            help="Searches for sheets that share the work and what they find: the plan depends on their number.",
        ),
    ] = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print the outcome as one JSON object.")] = False,
) -> None:
    """Make a plan, audit it, and write drawings, lists and plan.json."""
    from .planning import Asked, make_plan
    from .telling import tell_as_json, tell_as_table

    asked = Asked(work=work, seconds=seconds, seed=seed, chains=chains or workers, workers=workers)
    make_plan(job, out, asked, tell_as_json if as_json else tell_as_table)


@app.command("audit")
@translated
def audit(plan: Annotated[Path, typer.Argument(help="A plan.json.")]) -> None:
    """Check a plan against its job, sharing no code with the planner."""
    from .auditing import audit_plan

    audit_plan(plan)


@app.command("schema")
@translated
def schema(kind: Annotated[Kind, typer.Argument(help="Of which file.")]) -> None:
    """Print the JSON Schema of the job file or of plan.json."""
    from .schemas import print_schema

    print_schema(kind)
