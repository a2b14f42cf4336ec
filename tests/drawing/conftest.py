"""Lends the audit's plans, made by hand, to the tests of the drawings."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent / "auditing"))
