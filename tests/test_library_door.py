"""What a program sees that says ``import nesting``."""

import doctest
import subprocess
import sys
from decimal import Decimal

import pytest
from shapely.geometry import Point, Polygon

import nesting

#: Slow to import, and of no use to whoever only asks for the version or for help.
HEAVY = ("pydantic", "shapely", "numpy", "ortools", "jinja2", "tree_sitter", "rich", "typer")


def printed(program: str) -> str:
    """Run a program in a Python of its own and return what it printed."""
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, timeout=120, check=False)
    assert done.returncode == 0, done.stderr
    return done.stdout.strip()


def test_importing_the_library_imports_nothing_else() -> None:
    """Each room is opened when one of its names is first used."""
    loaded = printed("import nesting, sys; print(*sys.modules)").split()
    assert not {name.partition(".")[0] for name in loaded}.intersection(HEAVY)
    assert [name for name in loaded if name.startswith("nesting")] == ["nesting.doors", "nesting"]


def test_a_job_needs_neither_geometry_nor_solver() -> None:
    """Whoever only writes jobs waits for no more than their model."""
    loaded = printed("import nesting, sys; nesting.Job; print(*sys.modules)").split()
    assert "pydantic" in loaded
    assert not {"shapely", "ortools"}.intersection(loaded)


@pytest.mark.parametrize("name", nesting.__all__)
def test_every_public_name_is_there_and_documented(name: str) -> None:
    """With a text of its own."""
    assert len(getattr(nesting, name).__doc__ or "") > 20


def test_public_names_are_listed_in_order_and_once() -> None:
    """As a reader looks for them."""
    assert sorted(set(nesting.__all__)) == sorted(nesting.__all__)
    assert nesting.__all__ == sorted(nesting.__all__, key=lambda name: (name[0].islower(), name))


def test_a_star_import_hands_on_every_name() -> None:
    """And nothing that is not public."""
    names = printed("from nesting import *; print(*(n for n in dir() if not n.startswith('__')))").split()
    assert names == sorted(nesting.__all__)


def test_an_unknown_name_is_an_attribute_error_that_names_it() -> None:
    """As of any module, so that hasattr and the like work."""
    with pytest.raises(AttributeError, match="module 'nesting' has no attribute 'plam'"):
        _ = nesting.plam
    assert not hasattr(nesting, "Plam")


def test_from_shapely_polygons_to_a_plan() -> None:
    """The outlines of another program, ten lines, and objects back."""
    ply = nesting.Sheet(name="ply", material="gaboon", thickness=6, size=(2440, 1220), price=Decimal("84.00"))
    frame = Polygon([(0, 0), (800, 0), (700, 300), (100, 300)]).difference(Point(400, 150).buffer(80))
    side = Polygon([(0, 0), (3100, 60), (3100, 340), (0, 250)])
    scarf = nesting.JointRule(slope=8, least_piece=450)
    panels = (
        nesting.Panel(name="frame", material="gaboon", thickness=6, outline=frame, quantity=3, grain="any"),
        nesting.Panel(
            name="side", material="gaboon", thickness=6, outline=side, quantity=2, handed=True, joint="scarf"
        ),
    )
    job = nesting.Job(sheets=(ply,), panels=panels, joints={"scarf": scarf})
    plan = nesting.plan(job, effort=nesting.Effort(nesting.Budget(work=300)))
    pieces = {p.id: Polygon(p.outline, p.holes) for p in plan.pieces if p.kind == "panel"}

    assert plan.cost == plan.totals.sheets * Decimal("84.00")
    assert len(pieces) == 3 + 2 + plan.totals.joints
    assert pieces["frame-1-1"].area == pytest.approx(frame.area, abs=1e-6)
    made = sum(shape.area for name, shape in pieces.items() if name.startswith("side"))
    laps = sum(joint.lap * joint.width for joint in plan.joints)
    assert made - 2 * side.area == pytest.approx(laps, rel=1e-9)
    assert plan.summary().startswith(f"{plan.totals.sheets} sheets, 0 lengths, {plan.totals.joints} joints: ")


def test_the_example_in_the_library_s_own_words_runs() -> None:
    """In a Python of its own, as a reader would type it."""
    assert printed("import doctest, nesting; print(doctest.testmod(nesting).failed)") == "0"


def test_audit_is_the_function_whatever_was_imported_before() -> None:
    """A room of the same name would stand in its way once it is opened, so none has it."""
    program = "import nesting.planner, nesting.auditing, nesting; print(callable(nesting.audit))"
    assert printed(program) == "True"


def test_the_example_in_the_library_s_own_words_is_there() -> None:
    """A job, a plan, an audit."""
    (found,) = [test for test in doctest.DocTestFinder(recurse=False).find(nesting) if test.examples]
    assert len(found.examples) == 4
