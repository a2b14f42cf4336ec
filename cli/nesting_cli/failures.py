"""The one place where errors become messages and exit statuses."""

import functools
import os
import sys
from collections.abc import Callable
from typing import ParamSpec

import typer

Parameters = ParamSpec("Parameters")

OWN_FAILURE = 1
UNUSABLE = 2
AUDIT_FOUND = 4
INTERRUPTED = 130


def translated(verb: Callable[Parameters, None]) -> Callable[Parameters, None]:
    """Make a verb end with one clear message on standard error and the right exit status."""

    @functools.wraps(verb)
    def told(*given: Parameters.args, **named: Parameters.kwargs) -> None:
        try:
            verb(*given, **named)
            sys.stdout.flush()
        except typer.Exit:
            raise
        except BrokenPipeError:
            # Whoever read our output has gone; what it cannot read must not fail at exit either.
            os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
            raise typer.Exit(OWN_FAILURE) from None
        except KeyboardInterrupt:
            say("interrupted; nothing was written")
            raise typer.Exit(INTERRUPTED) from None
        except Exception as error:
            raise typer.Exit(_told(error)) from None

    return told


def _told(error: Exception) -> int:
    """Print what an error says and return its exit status."""
    from nesting.model import AuditError, JobError, NestingError, NoPlanError

    if isinstance(error, JobError | NoPlanError):
        for problem in error.problems:
            say(str(problem))
        return error.exit_status
    kind = "a plan failed its audit" if isinstance(error, AuditError) else type(error).__name__
    say(f"our own failure ({kind}). Please report it with the job file and these lines:")
    for line in str(error).splitlines():
        say(line)
    if not isinstance(error, NestingError):
        say(_where(error))
    return OWN_FAILURE


def _where(error: Exception) -> str:
    """Return file and line where an unforeseen error arose, for the report."""
    import traceback

    last = traceback.extract_tb(error.__traceback__)[-1]
    return f"it arose in {last.name}, line {last.lineno} of {last.filename}"


def say(message: str) -> None:
    """Print one line; what a name or a value of the input may hold can't break it or steer the terminal."""
    line = "".join(letter if letter.isprintable() else " " for letter in message)
    print(f"nesting: {line}", file=sys.stderr)
