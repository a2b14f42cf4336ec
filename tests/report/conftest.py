"""Lends the drawings' sample plan, and the audit's plans, to the tests of the report."""

import sys
from pathlib import Path

for room in ("drawing", "auditing"):
    sys.path.insert(0, str(Path(__file__).parent.parent / room))
