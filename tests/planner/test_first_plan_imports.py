"""What a first plan waits for."""

import subprocess
import sys


def told_by(program: str) -> list[str]:
    """Run a program in a Python of its own and return the words that it printed."""
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, timeout=120, check=False)
    assert done.returncode == 0, done.stderr
    return done.stdout.split()


def test_a_first_plan_needs_neither_solver_nor_compiler() -> None:
    """They take longer to import than a first plan takes to make; both come with the proof and the search after it."""
    program = """
import sys, nesting
scarf = {"scarf": {"slope": 8}}
ply = {"name": "ply", "material": "gaboon", "thickness": 6, "size": [2440, 1220], "price": 84}
side = {"name": "side", "material": "gaboon", "thickness": 6, "outline": {"rectangle": [3000, 300]}, "joint": "scarf"}
spruce = {"name": "spruce", "material": "spruce", "section": [45, 20], "length": 3600, "price": 9.80}
gunwale = {"name": "gunwale", "material": "spruce", "section": [45, 20], "length": 4350, "joint": "scarf"}
def hear(news):
    if news.objective is not None and news.bound is None:
        print(*sys.modules)
job = nesting.Job(joints=scarf, sheets=[ply], panels=[side], lengths=[spruce], strips=[gunwale])
nesting.plan(job, effort=nesting.Effort(nesting.Budget(work=0)), progress=hear)
"""
    loaded = told_by(program)
    assert {"shapely", "nesting.packing.first_fit", "nesting.lengths.quick"} <= set(loaded)
    assert not {"ortools", "highspy", "pandas", "numba", "llvmlite"}.intersection(loaded)
