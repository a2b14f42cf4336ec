"""Whatever a plan holds, the audit answers."""

from functools import partial
from typing import get_args

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from nesting.auditing import Code, Finding, audit
from nesting.auditing.geometry import flattened
from nesting.model import Outline
from tests.auditing.good_blank_plan import blank_plan, with_blank, with_member, with_scarf
from tests.auditing.good_butt_plan import butt_plan
from tests.auditing.good_plan import good_plan, moved

FIELDS = {
    "pieces": ("id", "part", "copy_number", "index", "of", "on", "outline", "x", "y", "angle", "start", "end"),
    "joints": (
        "id",
        "part",
        "copy_number",
        "station",
        "lap",
        "slope",
        "strap",
        "thickness",
        "width",
        "pieces",
        "scarf",
    ),
    "used": ("id", "stock", "outline", "holes", "faults", "trim", "length"),
    "offcuts": ("on", "outline", "start", "end"),
}
BLANK = {
    with_blank: ("id", "joint", "outline", "members", "scarfs"),
    with_scarf: ("id", "at", "lap", "slope", "thickness", "width"),
    partial(with_member, index=1): ("used", "outline", "x", "y", "angle"),
}
PLANS = (good_plan, blank_plan, butt_plan)
TEXTS = {"id", "part", "on", "stock", "joint", "scarf", "used"}
COUNTS = {"copy_number", "index", "of"}
RINGS = {"holes", "faults"}

figures = st.floats(allow_nan=False, allow_infinity=False) | st.floats(-3000, 3000)
polygons = st.lists(st.tuples(figures, figures), max_size=6).map(tuple)


@st.composite
def spoilt_plans(draw):
    """Return a plan in which one field of one thing is anything at all."""
    plan, kind = draw(st.sampled_from(PLANS))(), draw(st.sampled_from(sorted(FIELDS)))
    things = list(getattr(plan, kind))
    assume(things)
    index = draw(st.integers(0, len(things) - 1))
    field = draw(st.sampled_from([name for name in FIELDS[kind] if hasattr(things[index], name)]))
    things[index] = things[index].model_copy(update={field: draw(_anything(field))})
    return plan.model_copy(update={kind: tuple(things)})


@st.composite
def spoilt_blanks(draw):
    """Return a plan from a blank in which one field of the blank is anything at all."""
    change = draw(st.sampled_from(list(BLANK)))
    field = draw(st.sampled_from(BLANK[change]))
    return change(blank_plan(), **{field: draw(_anything(field))})


def _anything(field):
    if field in ("members", "scarfs"):
        return st.sampled_from([(), getattr(blank_plan().blanks[0], field) * 3])
    if field in TEXTS:
        return st.text(max_size=8)
    if field in COUNTS:
        return st.integers(-3, 10**9)
    if field == "pieces":
        return st.tuples(st.text(max_size=5), st.text(max_size=5))
    if field == "outline":
        return polygons
    return st.lists(polygons, max_size=2).map(tuple) if field in RINGS else figures


@given(spoilt_plans() | spoilt_blanks())
def test_no_damage_makes_the_audit_fail(plan):
    """It returns findings, each of a known kind, and never raises."""
    findings = audit(plan)
    assert all(isinstance(finding, Finding) and finding.code in get_args(Code) for finding in findings)


@given(st.sampled_from(range(5)), st.floats(-3000, 3000), st.floats(-3000, 3000))
def test_a_piece_moved_anywhere_is_either_apart_or_found_out(which, by_x, by_y):
    """On a sheet of rectangles and trapezia the gaps can be told from the boxes alone, if the boxes are apart."""
    name = ("side-1-1", "side-1-2", "side-2-1", "floor-1-1", "transom-1-1")[which]
    plan = moved(good_plan(), name, by_x, by_y)
    piece = next(piece for piece in plan.pieces if piece.id == name)
    left, right = min(x for x, _ in piece.outline), max(x for x, _ in piece.outline)
    low, high = min(y for _, y in piece.outline), max(y for _, y in piece.outline)
    sheet = next(used for used in plan.used if used.id == piece.on)
    width, height = max(x for x, _ in sheet.outline) - sheet.trim, max(y for _, y in sheet.outline) - sheet.trim
    beyond = max(sheet.trim - left, sheet.trim - low, right - width, high - height)
    assume(abs(beyond) > 0.01)
    codes = {finding.code for finding in audit(plan)}
    if beyond > 0:
        assert "outside-sheet" in codes
    assert codes <= {"outside-sheet", "in-hole", "on-fault", "pieces-overlap", "kerf-too-small", "offcut-overlap"}


@given(st.floats(0.1, 5000), st.booleans())
def test_a_circle_of_two_arcs_has_the_area_of_a_circle(radius, turned_round):
    """Pi r squared, less at most the sag of a thousandth along the edge."""
    bulge = -1.0 if turned_round else 1.0
    shape = flattened(Outline(points=((0.0, 0.0, bulge), (2 * radius, 0.0, bulge))))
    assert shape is not None
    assert 0 <= 3.141592653589794 * radius**2 - shape.area <= 0.001 * 6.2832 * radius


@pytest.mark.parametrize("bulge", [1e-300, 1e300, -1e-13])
def test_absurd_arcs_do_no_harm(bulge):
    """They are straight, or no sound outline."""
    outline = Outline.model_construct(points=((0.0, 0.0, bulge), (10.0, 0.0), (0.0, 10.0)), holes=(), marks=())
    shape = flattened(outline)
    assert shape is None or shape.area == pytest.approx(50)
