"""The order in which a sheet can be sawn."""

from hypothesis import given
from hypothesis import strategies as st
from one_sheet_plan import one_sheet_plan
from shapely.geometry import LineString, Polygon, box

from nesting.drawing import piece_codes, used_sheet
from nesting.model import SheetOffcut
from nesting.report import cut_order_table
from nesting.report.cut_order import CutOut, StraightCut, cut_order

SIZE = (2440, 1220)
KNEE = Polygon([(0, 0), (300, 0), (60, 200), (0, 200)])


def steps_of(plan, name="S1"):
    """Return the steps for one sheet."""
    return cut_order(plan, used_sheet(plan, name))


def test_rips_come_first_then_cuts_across_each_strip_then_the_pieces():
    """Two rows of two: the long rip parts the rows, each row is cut across, and the pieces follow their cuts."""
    parts = {
        "a": box(10, 10, 510, 310),
        "b": box(513, 10, 900, 310),
        "c": box(10, 313, 400, 600),
        "d": box(403, 313, 800, 600),
    }
    kinds = [
        step.name if isinstance(step, CutOut) else ("rip" if step.along else "across", step.blade)
        for step in steps_of(one_sheet_plan(parts, SIZE))
    ]
    assert kinds == [("rip", (310, 313)), ("across", (510, 513)), "A1", "C1", ("across", (400, 403)), "D1", "E1"]


def test_a_blade_that_is_thicker_than_the_gap_does_not_pass():
    """The kerf is 3; at a gap of 2 both are sawn out along their lines, from the datum end."""
    parts = {"a": box(400, 10, 700, 300), "b": box(10, 10, 398, 300)}
    assert steps_of(one_sheet_plan(parts, SIZE)) == (CutOut("C1"), CutOut("A1"))


def test_an_offcut_to_keep_is_not_cut_through_and_not_sawn_out():
    """The straight cut goes between the piece and what is kept, and the offcut needs no step of its own."""
    plan = one_sheet_plan({"a": box(10, 10, 510, 310)}, SIZE)
    kept = SheetOffcut(on="S1", kept=True, outline=((513, 10), (2430, 10), (2430, 1210), (513, 1210)))
    scrap = kept.model_copy(update={"kept": False, "outline": ((10, 313), (510, 313), (510, 1210), (10, 1210))})
    (across, out) = steps_of(plan.model_copy(update={"offcuts": (kept, scrap)}))
    assert (across.blade, across.below, across.above) == ((510, 513), ("A1",), ("keep 1917 × 1200",))
    assert out == CutOut("A1")


rows = st.lists(st.lists(st.tuples(st.integers(60, 700), st.integers(40, 300)), min_size=1, max_size=4), max_size=4)


@given(rows, st.booleans())
def test_every_piece_comes_out_once_and_no_straight_cut_touches_one(laid, upright):
    """The middle of each cut, over its whole run, passes clear of all pieces by half a kerf."""
    parts, y = {}, 10
    for row in laid:
        x = 10
        for length, width in row:
            parts[f"p{len(parts)}"] = box(x, y, x + length, y + width)
            x += length + 3
        y += max(width for _, width in row) + 3
    if upright:
        parts = {name: Polygon([(y, x) for x, y in shape.exterior.coords]) for name, shape in parts.items()}
    plan = one_sheet_plan(parts or {"p": KNEE}, (3000, 3000))
    steps = steps_of(plan)
    assert sorted(step.name for step in steps if isinstance(step, CutOut)) == sorted(piece_codes(plan).values())
    for cut in (step for step in steps if isinstance(step, StraightCut)):
        middle, (start, end) = sum(cut.blade) / 2, cut.run
        line = LineString([(start, middle), (end, middle)] if cut.along else [(middle, start), (middle, end)])
        assert all(line.distance(Polygon(piece.outline)) >= 1.5 - 0.001 for piece in plan.pieces)


def test_the_table_tells_blade_run_and_parts():
    """In the tape's units, with what lies on either side of each cut."""
    plan = one_sheet_plan({"a": box(10, 10, 510, 310), "b": box(10, 313, 400, 600)}, SIZE)
    table = cut_order_table(plan, "S1")
    assert table.rows[0] == (1, "rip, straight along", "310 and 313", "0 to 2440", "A1 | C1")
    assert table.rows[1] == (2, "out, along its line", None, None, "A1")
