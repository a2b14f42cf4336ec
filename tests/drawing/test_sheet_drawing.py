"""The drawing of one sheet."""

import pytest
from sample_plan import BILGE, MARINE, sample_plan
from svg_reading import NAMESPACE, group_of, lines_of, named, points_of, root_of, words_of

from nesting.drawing import draw_sheet, piece_codes
from nesting.model import PanelPiece, SheetOffcut

PLAN = sample_plan()
S1, S2 = (root_of(draw_sheet(PLAN, used_id)) for used_id in ("S1", "S2"))


def on_sheet(used_id):
    """Return the pieces of the sample that lie on a sheet."""
    return [piece for piece in PLAN.pieces if piece.on == used_id and isinstance(piece, PanelPiece)]


@pytest.mark.parametrize(("used_id", "root"), [("S1", S1), ("S2", S2)])
def test_every_placed_outline_is_drawn_where_it_lies(used_id, root):
    """Outlines and holes read back from the drawing agree with the plan within a hundredth of a millimetre."""
    for piece in on_sheet(used_id):
        drawn = points_of(named(root, piece.id))
        assert len(drawn) == 1 + len(piece.holes)
        for ring, asked in zip(drawn, (piece.outline, *piece.holes), strict=True):
            assert [value for point in ring for value in point] == pytest.approx(
                [value for point in asked for value in point], abs=0.01
            )


def test_every_piece_bears_its_code_and_its_name():
    """Codes stand in the piece and in the list below; hand and share stand beside them."""
    codes = piece_codes(PLAN)
    words = words_of(S1)
    for piece in on_sheet("S1"):
        assert words.count(codes[piece.id]) == 2
    assert "port, piece 1 of 2" in words
    assert "starboard, piece 2 of 2" in words


def test_the_same_plan_gives_the_same_bytes():
    """Two drawings of two equal plans are equal."""
    assert draw_sheet(sample_plan(), "S1") == draw_sheet(sample_plan(), "S1")


def test_names_are_shown_as_written_and_never_become_markup():
    """Signs that mean something to XML come back from the parsed drawing as they were given."""
    svg = draw_sheet(PLAN, "S1")
    assert BILGE in words_of(root_of(svg))
    assert "</g> &" not in svg
    assert root_of(svg).find(f"{NAMESPACE}title").text == f"Sheet S1: {MARINE}"


def test_the_sheet_states_its_size_scale_and_unit():
    """A sheet of 2440 x 1220 goes at 1:10 on a drawing of so many millimetres, one viewBox unit a millimetre."""
    words = words_of(S1)
    assert {"2440", "1220", "200 mm; 1:10 at 100 %", "dimensions in mm from ringed corner"} <= {*words}
    width, height = (float(S1.get(side).removesuffix("mm")) for side in ("width", "height"))
    view = [float(value) for value in S1.get("viewBox").split()]
    assert view[2:] == pytest.approx([10 * width, 10 * height])
    assert S1.get("role") == "img"


def test_running_distances_are_those_of_the_lower_left_extents():
    """The figures along both edges are the least x and y of the pieces from the datum corner."""
    group = group_of_dimensions(S1)
    shown = {text.text for text in group.iter(f"{NAMESPACE}text")}
    for piece in on_sheet("S1"):
        left, bottom = min(x for x, _ in piece.outline), min(y for _, y in piece.outline)
        assert f"{round(left, 1):g}" in shown
        assert f"{round(bottom, 1):g}" in shown


def group_of_dimensions(root):
    """Return the group that holds the dimensions."""
    return next(group for group in root.iter(f"{NAMESPACE}g") if group.get("class") == "dimensions")


@pytest.mark.parametrize(
    ("code", "feather", "heel", "kind", "other_kind"),
    [("A1", 1934, 1886, "hidden", "bevel"), ("A2", 10, 58, "bevel", "hidden"), ("A3", 10, 58, "hidden", "bevel")],
)
def test_bevels_lie_on_the_right_face_and_end(code, feather, heel, kind, other_kind):
    """The low piece is bevelled underneath with its thin edge at s + lap/2, the other on top with it at s - lap/2.

    A1 lies at x = 10 as drawn: 10 + 1924. A2 lies at x = -1866: -1866 + 1876. A3 is mirrored and turned by half a
    turn at x = 1934: 1934 - 1924.
    """
    piece = group_of(S1, "piece", code)
    for line, station in (("feather", feather), (kind, heel)):
        (run,) = lines_of(piece, line)
        assert [x for x, _ in run] == pytest.approx([station, station], abs=0.02)
    assert lines_of(piece, other_kind) == []


def test_a_lap_is_hatched_within_its_band():
    """Hatching covers the lap from end to end and nothing else."""
    piece = group_of(S1, "piece", "A1")
    xs = [x for run in lines_of(piece, "hatch") for x, _ in run]
    assert min(xs) == pytest.approx(1886, abs=0.02)
    assert max(xs) == pytest.approx(1934, abs=0.02)


@pytest.mark.parametrize(("code", "towards"), [("A1", (1, 0)), ("A3", (-1, 0)), ("C1", (0, 1))])
def test_the_arrow_points_to_rising_stations(code, towards):
    """A piece turned by half a turn has its stations rise to the left, by a quarter turn upwards."""
    tail, tip = lines_of(group_of(S1, "piece", code), "arrow")[0]
    run = tip[0] - tail[0], tip[1] - tail[1]
    length = max(abs(run[0]), abs(run[1]))
    assert (run[0] / length, run[1] / length) == pytest.approx(towards, abs=0.01)


@pytest.mark.parametrize(("forward", "towards"), [("low", -1), ("high", 1)])
def test_the_arrow_points_forward_where_the_bow_is_known(forward, towards):
    """A1 lies with its stations rising to the right; the bow is at its low end or at its high one."""
    panels = tuple(
        panel.model_copy(update={"forward": forward} if panel.name == BILGE else {}) for panel in PLAN.job.panels
    )
    root = root_of(draw_sheet(PLAN.model_copy(update={"job": PLAN.job.model_copy(update={"panels": panels})}), "S1"))
    piece = group_of(root, "piece", "A1")
    tail, tip = lines_of(piece, "arrow")[0]
    assert (tip[0] - tail[0]) * towards > 0
    assert "fwd" in words_of(piece)
    assert "fwd" not in words_of(group_of(root, "piece", "C1"))
    assert any("point to rising stations, or forward (fwd)" in words for words in words_of(root))


def test_trim_is_drawn_on_a_whole_sheet_only():
    """The trim line lies 10 inside the edges; an offcut without trim shows none."""
    (line,) = lines_of(S1, "trim")[:1]
    assert {x for x, _ in line} == {10, 2430}
    assert {y for _, y in line} == {10, 1210}
    assert "trim to here" not in words_of(S2)


def test_faults_and_kept_offcuts_are_named():
    """The rack's sheet shows its fault and the offcut that goes back, with its size."""
    assert "fault" in words_of(S2)
    assert "keep 890 × 310" in words_of(S2)
    assert lines_of(S2, "fault-hatch")
    assert "fault, kept off if it would show" in words_of(S2)


def test_the_size_of_a_narrow_offcut_is_written_along_it():
    """One of 200 x 900 at 1:10 has no room for its size across, but has it upright."""
    narrow = SheetOffcut(on="S1", outline=((2230, 20), (2430, 20), (2430, 920), (2230, 920)), kept=True)
    root = root_of(draw_sheet(PLAN.model_copy(update={"offcuts": (narrow,)}), "S1"))
    (text,) = [text for text in root.iter(f"{NAMESPACE}text") if text.text == "keep 200 × 900"]
    assert text.get("transform").startswith("rotate(-90 ")


def test_scrap_is_not_called_an_offcut_to_keep():
    """An offcut that is not kept is not outlined."""
    assert lines_of(S1, "keep") == []


def test_two_drawings_share_no_id():
    """Both can stand in one page."""
    ids = [{element.get("id") for element in root.iter()} - {None} for root in (S1, S2)]
    assert ids[0]
    assert not ids[0] & ids[1]


def test_a_sheet_that_is_not_used_is_refused_by_name():
    """Asking for a sheet that the plan lacks says which."""
    with pytest.raises(ValueError, match="S9"):
        draw_sheet(PLAN, "S9")


def test_a_figure_that_is_no_number_is_refused():
    """A plan with NaN in an outline never becomes a drawing."""
    piece = PLAN.pieces[0].model_copy(update={"outline": ((0.0, 0.0), (float("nan"), 0.0), (10.0, 10.0))})
    broken = PLAN.model_copy(update={"pieces": (piece,), "joints": ()})
    with pytest.raises(ValueError, match="nan"):
        draw_sheet(broken, "S1")
