"""What is read from a table of offsets, and what is said of one that can't be used."""

from pathlib import Path

import pytest
from job_folders import OFFSETS, OFFSETS_JOB, written

from nesting.effort import Budget, Effort
from nesting.files import located, read_job, read_offsets
from nesting.model import JobError, Problem
from nesting.planner import plan


def table(folder: Path, text: str) -> Path:
    """Write a table of offsets."""
    return written(folder, text, "side.csv")


def the_problem(folder: Path, text: str) -> Problem:
    """Return the one problem with which a table is refused."""
    with pytest.raises(JobError) as refusal:
        read_offsets(table(folder, text))
    (problem,) = refusal.value.problems
    assert problem.file == folder / "side.csv"
    return problem


def test_the_edges_run_through_their_nails(tmp_path: Path) -> None:
    """The lower edge from its first nail to its last, then the upper one back."""
    points = read_offsets(table(tmp_path, OFFSETS)).points
    assert points[0] == (0, 0)
    assert points[-1] == (0, 300)
    assert (1000, 0) in points
    assert (1000, 310) in points
    assert any(abs(x - 500) < 1e-9 and abs(y - 340) < 1e-9 for x, y, *_ in points)


@pytest.mark.parametrize(
    "otherwise",
    [
        OFFSETS.replace(",", ";"),
        "\ufeff" + OFFSETS,
        OFFSETS.replace("\n", "\r\n"),
        OFFSETS.replace("\n", "\n\n"),
        OFFSETS.replace("\n", "\n,,,\n  , ,,\n"),
        OFFSETS.replace("edge,station,offset,corner", " Edge , STATION, Offset , Corner"),
        OFFSETS.replace("upper", " Upper "),
        OFFSETS.replace("500,340,", '"500","340",no'),
        "".join(line.rpartition(",")[0] + "\n" for line in OFFSETS.splitlines()),
        OFFSETS.removesuffix("\n"),
    ],
    ids=["semicolons", "mark", "windows", "blank", "empty-rows", "header", "edges", "quotes", "no-corners", "no-end"],
)
def test_the_same_table_saved_otherwise_gives_the_same_outline(tmp_path: Path, otherwise: str) -> None:
    """As the spreadsheets of several countries and systems write it."""
    expected = read_offsets(table(tmp_path, OFFSETS))
    assert read_offsets(table(tmp_path, otherwise)) == expected


def test_semicolons_go_with_decimal_commas(tmp_path: Path) -> None:
    """340,5 between semicolons is 340.5."""
    with_points = read_offsets(table(tmp_path, OFFSETS.replace("340", "340.5")))
    assert read_offsets(table(tmp_path, OFFSETS.replace(",", ";").replace("340", "340,5"))) == with_points


def test_a_corner_changes_the_edge_between_its_neighbours(tmp_path: Path) -> None:
    """One batten each side of a knuckle gives straight runs here, where one batten through all gives a curve."""
    faired = read_offsets(table(tmp_path, OFFSETS))
    knuckled = read_offsets(table(tmp_path, OFFSETS.replace("500,340,", "500,340,yes")))
    assert len(faired.points) > len(knuckled.points) == 5
    assert knuckled.points == ((0, 0), (1000, 0), (1000, 310), (500, 340), (0, 300))


@pytest.mark.parametrize("column", ["edge", "station", "offset"])
def test_a_missing_column_is_named(tmp_path: Path, column: str) -> None:
    """With the header as it should be."""
    found = the_problem(tmp_path, OFFSETS.replace(column, "other", 1))
    assert (found.line, found.reason) == (1, f"the column {column} is missing")


@pytest.mark.parametrize("text", ["", "\n", "\x00", "upper,0,300,\n", "a" * 200_000])
def test_a_file_without_the_header_is_refused(tmp_path: Path, text: str) -> None:
    """Empty, nonsense, or rows alone."""
    assert the_problem(tmp_path, text).code == "offsets"


@pytest.mark.parametrize(
    ("right", "wrong", "reason"),
    [
        ("upper,500", "uper,500", 'edge "uper" is neither upper nor lower'),
        ("500,340,", "500,340,maybe", 'corner "maybe" is not understood'),
        ("500,340,", "500,340,,,", "the row has more fields than the header"),
        ("500,340,", "500,,", 'offset "" is not a length'),
        ("500,340,", "500", 'offset "" is not a length'),
        *(
            (",500,", f",{figure},", f'station "{figure}" is not a length')
            for figure in ("nan", "inf", "-inf", "1e9", "1e400", "half", "0x10")
        ),
    ],
)
def test_a_row_that_makes_no_sense_is_refused_in_its_line(tmp_path: Path, right: str, wrong: str, reason: str) -> None:
    """The third line of the table, counted with the header."""
    found = the_problem(tmp_path, OFFSETS.replace(right, wrong))
    assert (found.line, found.reason) == (3, reason)


def test_decimal_commas_between_commas_are_refused_with_the_remedy(tmp_path: Path) -> None:
    """340,5 between commas is two fields."""
    found = the_problem(tmp_path, OFFSETS.replace("500,340,", "500,340,5,"))
    assert found.line == 3
    assert found.remedy == "Use decimal points with commas."


@pytest.mark.parametrize("stations", [("500", "1200"), ("500", "0"), ("500", "1000")])
def test_stations_that_don_t_rise_are_refused(tmp_path: Path, stations: tuple[str, str]) -> None:
    """Reversed, or the same station twice; the edge is named."""
    found = the_problem(tmp_path, OFFSETS.replace(f"upper,{stations[0]}", f"upper,{stations[1]}"))
    assert found.code == "stations-order"
    assert found.reason.startswith("the upper edge's station")


@pytest.mark.parametrize(("edge", "rows"), [("lower", 1), ("upper", 1), ("lower", 0)])
def test_an_edge_needs_two_rows(tmp_path: Path, edge: str, rows: int) -> None:
    """With none or one there is no edge; it is named."""
    lines = OFFSETS.splitlines(keepends=True)
    those = [line for line in lines if line.startswith(edge)]
    found = the_problem(tmp_path, "".join([line for line in lines if line not in those] + those[:rows]))
    assert (found.code, found.reason) == ("few-offsets", f"the {edge} edge has {rows} rows")


def test_edges_that_cross_are_refused_when_planned(tmp_path: Path) -> None:
    """Each edge by itself is well; the outline between them crosses itself, which the planner tells with its line."""
    table(tmp_path, OFFSETS.replace("lower,1000,0", "lower,1000,500"))
    file = written(tmp_path, OFFSETS_JOB)
    with pytest.raises(JobError) as refusal:
        plan(read_job(file), effort=Effort(Budget(work=0)))
    (found,) = located(refusal.value.problems, file)
    assert found.where == 'panel "bottom", outline'
    assert (found.file, found.line) == (file, 17)
    assert "cross" in found.reason
