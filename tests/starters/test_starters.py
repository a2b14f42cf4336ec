"""The starter jobs read without a problem, and the skiff's panels are those of a boat that closes."""

import csv
import io
import math
import tomllib
from collections.abc import Iterable
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Polygon

from nesting.files import read_job
from nesting.joints import boat_station
from nesting.model import Job
from nesting.outlines import flatten, polygon
from nesting.starters import JOB_FILE, STARTERS, starter_files

#: Edges that are stitched to one another.
SEAMS = [(("bottom", "upper"), ("bilge", "lower")), (("bilge", "upper"), ("sheer", "lower"))]
HULL = ("bottom", "bilge", "sheer")

Nails = list[tuple[float, float]]


def nails(panel: str, edge: str) -> Nails:
    """Return the nails of one edge of a hull panel, as its table lists them."""
    rows = csv.DictReader(io.StringIO(starter_files("skiff")[f"{panel}.csv"]))
    return [(float(row["station"]), float(row["offset"])) for row in rows if row["edge"] == edge]


def bends(points: Nails) -> list[float]:
    """Return the natural cubic's second derivative at each nail; the tridiagonal system solved by elimination.

    An oracle of its own: plain Python, none of the library's code. Source: any text on numerical analysis, from memory.
    """
    spans = [b[0] - a[0] for a, b in pairwise(points)]
    slopes = [(b[1] - a[1]) / (b[0] - a[0]) for a, b in pairwise(points)]
    diagonal = [2 * (h + k) for h, k in pairwise(spans)]
    right = [6 * (t - s) for s, t in pairwise(slopes)]
    for i in range(1, len(diagonal)):
        factor = spans[i] / diagonal[i - 1]
        diagonal[i] -= factor * spans[i]
        right[i] -= factor * right[i - 1]
    inner = [0.0] * (len(diagonal) + 1)
    for i in reversed(range(len(diagonal))):
        inner[i] = (right[i] - spans[i + 1] * inner[i + 1]) / diagonal[i]
    return [0.0, *inner[:-1], 0.0]


def offset_at(points: Nails, bend: list[float], station: float) -> float:
    """Return the offset of the batten through the nails, its second derivatives ``bend`` known."""
    i = max(k for k in range(len(points) - 1) if points[k][0] <= station)
    (left, low), (right, high) = points[i], points[i + 1]
    span = right - left
    a, b = (right - station) / span, (station - left) / span
    sag = (a * a * a - a) * bend[i] + (b * b * b - b) * bend[i + 1]
    return a * low + b * high + sag * span * span / 6


def fine(points: Nails, count: int = 1000) -> Nails:
    """Return many points along the batten."""
    bend, first, last = bends(points), points[0][0], points[-1][0]
    stations = [first + (last - first) * k / count for k in range(count)]
    return [(s, offset_at(points, bend, s)) for s in stations] + [points[-1]]


def length(points: Nails) -> float:
    """Return the length of a line through points."""
    return sum(math.dist(a, b) for a, b in pairwise(points))


def raw(name: str) -> dict[str, Any]:
    """Return the job file as TOML alone understands it."""
    return tomllib.loads(starter_files(name)[JOB_FILE])


def job_of(name: str, folder: Path) -> Job:
    """Write a starter job out and read it."""
    for file, text in starter_files(name).items():
        (folder / file).write_text(text, encoding="utf-8")
    return read_job(folder / JOB_FILE)


def net_area(job: Job, names: Iterable[str] | None = None) -> float:
    """Return the square metres of the asked panels."""
    wanted = set(names or (panel.name for panel in job.panels))
    areas = [float(polygon(panel.outline).area) * panel.quantity for panel in job.panels if panel.name in wanted]
    return sum(areas) / 1e6


def test_the_job_file_comes_first() -> None:
    """Whoever writes a starter job out knows which file to plan."""
    assert [next(iter(starter_files(name))) for name in STARTERS] == [JOB_FILE] * len(STARTERS)


@pytest.mark.parametrize("boats", ["skiff", "fleet"])
def test_a_hull_brings_one_table_of_offsets_a_panel(boats: str) -> None:
    """The job file names each table, and there is no table that it does not name."""
    named = [panel["outline"]["offsets"] for panel in raw(boats)["panels"] if "offsets" in panel["outline"]]
    assert sorted(named) == sorted(set(starter_files(boats)) - {JOB_FILE}) == sorted(f"{name}.csv" for name in HULL)


def test_the_fleet_is_three_skiffs_from_unlimited_stock(tmp_path: Path) -> None:
    """The same lines and parts, three times each; only the offcut on the rack is limited."""
    skiff, fleet = job_of("skiff", tmp_path), job_of("fleet", tmp_path)
    tripled = [part.model_copy(update={"quantity": 3 * part.quantity}) for part in (*skiff.panels, *skiff.strips)]
    assert [*fleet.panels, *fleet.strips] == tripled
    limited = [stock for stock in (*fleet.sheets, *fleet.lengths) if stock.available is not None]
    assert [(stock.source, stock.available) for stock in limited] == [("rack", 1)]
    bought = [stock.model_copy(update={"available": None}) for stock in skiff.sheets if stock.source == "buy"]
    assert [sheet for sheet in fleet.sheets if sheet.source == "buy"] == bought
    assert (fleet.joints, fleet.neighbours, fleet.workshop) == (skiff.joints, skiff.neighbours, skiff.workshop)


@given(st.text().filter(lambda name: name not in STARTERS))
def test_an_unknown_starter_is_refused_with_the_known_ones(name: str) -> None:
    """The message lists what there is; names that look like paths are no exception."""
    with pytest.raises(ValueError) as refusal:
        starter_files(name)
    assert all(known in str(refusal.value) for known in STARTERS)


@pytest.mark.parametrize("name", STARTERS)
def test_a_starter_reads_without_a_problem(name: str, tmp_path: Path) -> None:
    """Every key is known, every reference leads somewhere, every outline is a sound polygon."""
    job = job_of(name, tmp_path)
    assert job.title == raw(name)["title"]
    assert [panel.name for panel in job.panels] == [panel["name"] for panel in raw(name)["panels"]]
    assert all(polygon(panel.outline).is_valid for panel in job.panels)


@pytest.mark.parametrize("name", STARTERS)
def test_a_starter_stays_readable(name: str) -> None:
    """Lines stay short enough for a small screen; only the outline with a hole is longer."""
    long = [line for line in starter_files(name)[JOB_FILE].splitlines() if len(line) > 130]
    assert all("holes" in line for line in long)


@pytest.mark.parametrize(("one", "other"), SEAMS)
def test_stitched_edges_are_equally_long(one: tuple[str, str], other: tuple[str, str]) -> None:
    """Measured along the battens, the raked ends left out: else the planks don't meet at the stem and the transom."""
    assert length(fine(nails(*one))) == pytest.approx(length(fine(nails(*other))), abs=3)


@pytest.mark.parametrize("panel", HULL)
def test_a_hull_panel_has_its_upper_edge_above_its_lower(panel: str) -> None:
    """By more than 60 mm, wherever it has both edges."""
    upper, lower = nails(panel, "upper"), nails(panel, "lower")
    start, end = max(upper[0][0], lower[0][0]), min(upper[-1][0], lower[-1][0])
    stations = [start + (end - start) * k / 200 for k in range(200)]
    above, below = bends(upper), bends(lower)
    assert min(offset_at(upper, above, s) - offset_at(lower, below, s) for s in stations) > 60


@pytest.mark.parametrize("edge", ["upper", "lower"])
@pytest.mark.parametrize("panel", HULL)
def test_a_hull_panels_edge_is_fair(panel: str, edge: str) -> None:
    """Its curvature has no jump that the rounding of the offsets can't explain, and changes sign at most twice.

    An offset that is wrong by 0.25 mm bends a batten on nails 150 mm apart by some 6 x 0.25 / 150^2 = 0.00007 per mm;
    curvature less than that is as good as straight.
    """
    curvature = bends(nails(panel, edge))
    assert max(abs(b - a) for a, b in pairwise(curvature)) < 0.0005
    signs = [k > 0 for k in curvature if abs(k) > 0.00007]
    assert sum(a != b for a, b in pairwise(signs)) <= 2


@pytest.mark.parametrize("panel", HULL)
def test_hull_panels_are_longer_than_any_sheet(panel: str, tmp_path: Path) -> None:
    """So they must be joined, and the job says by which joint."""
    job = job_of("skiff", tmp_path)
    longest = max(max(sheet.size) for sheet in job.sheets if sheet.size)
    low, _, high, _ = polygon(job.panel(panel).outline).bounds
    assert high - low > longest
    assert job.panel(panel).joint is not None


def test_every_part_without_a_joint_fits_some_stock(tmp_path: Path) -> None:
    """Along the grain, inside the trimmed sheet."""
    for name in STARTERS:
        job = job_of(name, tmp_path)
        trimmed = [tuple(side - 2 * job.workshop.trim for side in sheet.size) for sheet in job.sheets if sheet.size]
        for panel in (panel for panel in job.panels if panel.joint is None):
            left, low, right, high = polygon(panel.outline).bounds
            size = (high - low, right - left) if panel.grain == "across" else (right - left, high - low)
            assert any(size[0] <= sheet[0] and size[1] <= sheet[1] for sheet in trimmed), panel.name


def stations_with_usual_sheets(job: Job, name: str) -> list[float]:
    """Return where the middle of one lap may lie, every 10 mm, both pieces from trimmed sheets of 2440 mm.

    With usable length U, panel length L and lap l the middle lies from L - U + l/2 to U - l/2: both pieces fit.
    """
    panel = job.panel(name)
    low, _, high, _ = polygon(panel.outline).bounds
    usable, half_lap = 2440 - 2 * job.workshop.trim, job.joints["plywood"].lap(panel.thickness) / 2
    ((start, end),) = panel.no_joint
    first, last = round(high - usable + half_lap), round(low + usable - half_lap)
    return [s for s in range(first, last + 1, 10) if s + half_lap <= start or s - half_lap >= end]


def test_the_smaller_sheets_alone_leave_joints_that_keep_their_shift(tmp_path: Path) -> None:
    """One joint a panel is enough with 2440 mm sheets, though zones and both shifts narrow the choice."""
    job = job_of("skiff", tmp_path)
    bottom, bilge, sheer = (
        [boat_station(s, job.panel(name).boat_stations) for s in stations_with_usual_sheets(job, name)] for name in HULL
    )
    shifts = {pair.between: pair.shift for pair in job.neighbours}
    assert shifts == {("bottom", "bilge"): 250, ("bilge", "sheer"): 250}
    assert any(
        any(abs(middle - low) >= 250 for low in bottom) and any(abs(middle - high) >= 250 for high in sheer)
        for middle in bilge
    )
    assert not all(abs(middle - high) >= 250 for middle in bilge for high in sheer), "the shift rules something out"


def test_no_joint_zones_lie_side_by_side_in_the_boat(tmp_path: Path) -> None:
    """Each panel's zone is the same stretch amidships once it is turned into the boat's stations."""
    job = job_of("skiff", tmp_path)
    for name in HULL:
        panel = job.panel(name)
        zone = [boat_station(station, panel.boat_stations) for station in panel.no_joint[0]]
        assert zone == pytest.approx([2050, 2310], abs=5), name


def test_the_skiff_needs_a_plausible_area(tmp_path: Path) -> None:
    """Some 8.6 square metres; the planking is about the boat's length times its beam (from memory)."""
    job = job_of("skiff", tmp_path)
    assert net_area(job) == pytest.approx(8.59, abs=0.05)
    assert 0.6 < net_area(job, HULL) / net_area(job) < 0.75
    assert 0.9 < net_area(job, HULL) / (4.2 * 1.33) < 1.2


def test_the_offcut_serves_for_several_parts(tmp_path: Path) -> None:
    """It is free, single, not a rectangle, and its knot lies within it."""
    job = job_of("skiff", tmp_path)
    (offcut,) = (sheet for sheet in job.sheets if sheet.source == "rack")
    assert offcut.outline is not None
    shape = polygon(offcut.outline)
    assert offcut.price == 0
    assert offcut.available == 1
    assert shape.area < 0.98 * shape.envelope.area
    assert all(shape.contains(Polygon(fault.points)) for fault in offcut.faults)
    assert shape.area > 5 * polygon(job.panel("breasthook").outline).area


@pytest.mark.parametrize("name", ["gunwale", "keel batten", "rubbing strake"])
def test_long_strips_are_longer_than_any_length_of_their_section(name: str, tmp_path: Path) -> None:
    """So they are spliced, and the job says by which joint."""
    job = job_of("skiff", tmp_path)
    strip = job.strip(name)
    assert strip.joint is not None
    assert strip.length > max(stock.length for stock in job.lengths if stock.section == strip.section)


def test_gunwales_and_keel_batten_reach_along_their_seams(tmp_path: Path) -> None:
    """The gunwale is a little longer than the sheer, the keel batten reaches along the bottom's inner edge."""
    job = job_of("skiff", tmp_path)
    long = {strip.name: strip.length for strip in job.strips}
    assert 50 < long["gunwale"] - length(fine(nails("sheer", "upper"))) < 200
    assert 0 <= long["keel batten"] - length(fine(nails("bottom", "lower"))) < 20


def test_the_transom_closes_the_boat(tmp_path: Path) -> None:
    """Each straight side of the transom is as long as the aft end of the panel that is stitched to it."""
    points = [vertex[:2] for vertex in job_of("skiff", tmp_path).panel("transom").outline.points]
    sides = [length([a, b]) for a, b in pairwise(points[:4])]
    ends = [length([nails(panel, "lower")[-1], nails(panel, "upper")[-1]]) for panel in HULL]
    assert sides == pytest.approx(ends, abs=2)


def test_the_locker_is_rectangles_and_does_not_fit_one_sheet(tmp_path: Path) -> None:
    """Some 3.6 square metres: more than one sheet of 2.98, less than both kinds together."""
    job = job_of("locker", tmp_path)
    assert all(len(panel.outline.points) == 4 for panel in job.panels)
    assert not job.joints
    assert 2.44 * 1.22 < net_area(job) < 2.42 * 1.20 + 1.505**2


def test_the_hatch_is_a_full_circle(tmp_path: Path) -> None:
    """Two half circles of 90 mm radius leave a round hole of pi x 90^2."""
    hole = job_of("skiff", tmp_path).panel("forward bulkhead").outline.holes[0]
    assert Polygon(flatten(hole)).area == pytest.approx(math.pi * 90**2, rel=0.005)
