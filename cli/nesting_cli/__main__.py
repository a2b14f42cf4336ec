"""Runs the command as ``python -m nesting_cli``."""

from . import main

main()
