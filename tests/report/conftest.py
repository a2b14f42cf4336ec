"""Lends the drawings' sample plan to the tests of the report."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent / "drawing"))
