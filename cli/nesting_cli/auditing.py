"""The verb ``audit``."""

import sys
from pathlib import Path

import typer

from nesting.auditing import audit
from nesting.files import read_plan

from .failures import AUDIT_FOUND


def audit_plan(file: Path) -> None:
    """Check a plan and say what is wrong with it."""
    plan = read_plan(file)
    findings = audit(plan)
    for finding in findings:
        print(f"nesting: {file}: {finding}", file=sys.stderr)
    if findings:
        raise typer.Exit(AUDIT_FOUND)
    print(f"nothing wrong: {plan.summary()}")
