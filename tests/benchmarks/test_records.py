"""What a benchmark is asked for, and how it tells what it measured."""

import json
from dataclasses import replace
from pathlib import Path

import pytest

from benchmarks.options import Options
from benchmarks.records import (
    NoRecordsError,
    Record,
    means_of_seeds,
    off_reference,
    read_records,
    table,
    write_records,
)

OPTIONS = Options(data=None)
RECORD = Record(
    benchmark="jobs",
    family="starters",
    instance="locker",
    measure="cost",
    value=84.0,
    seconds=1.5,
    cpu_seconds=1.25,
    seed=0,
    workers=1,
    verified=True,
)

#: Keys that every record has, whoever reads them.
KEYS = {
    "benchmark", "family", "instance", "measure", "value", "bound", "proven", "reference", "reference_source",
    "budget", "seconds", "cpu_seconds", "seed", "workers", "verified", "faults",
    "bound_reason",
}  # fmt: skip


def test_a_table_keeps_the_first_column_left_and_figures_right() -> None:
    """Columns are as wide as their widest cell, and no line ends in blanks."""
    assert table(("job", "cost"), [("skiff", "84"), ("locker", "1084")]) == "\n".join(
        ["job     cost", "skiff     84", "locker  1084"]
    )


def test_a_table_without_rows_is_its_header() -> None:
    """Nothing matched: the header still says what would have been told."""
    assert table(("job", "cost"), []) == "job  cost"


def test_a_row_with_a_cell_too_few_is_refused() -> None:
    """A shifted column would be misread."""
    with pytest.raises(ValueError, match="zip"):
        table(("job", "cost"), [("skiff",)])


def test_records_are_written_whole_with_every_key(tmp_path: Path) -> None:
    """As a list; nothing unfinished is left beside it."""
    file = tmp_path / "records.json"
    file.write_text("old")
    write_records(file, [RECORD, replace(RECORD, bound=80.0, reference=81.5, reference_source="worked out by hand")])
    first, second = json.loads(file.read_text())
    assert set(first) == KEYS
    assert (first["value"], first["bound"], first["proven"], first["reference"]) == (84.0, None, False, None)
    assert (second["bound"], second["reference_source"]) == (80.0, "worked out by hand")
    assert [item.name for item in tmp_path.iterdir()] == ["records.json"]


@pytest.mark.parametrize(
    ("pattern", "instance", "wanted"),
    [("*", "skiff", True), ("lock*", "locker", True), ("lock*", "skiff", False), ("skiff", "skiff-2", False)],
)
def test_only_instances_that_match_the_pattern_are_run(pattern: str, instance: str, wanted: bool) -> None:
    """The pattern is of the shell's kind and covers the whole name."""
    assert replace(OPTIONS, only=pattern).wants(instance) == wanted


def test_options_say_what_was_asked_for() -> None:
    """Work or seconds, and how many workers."""
    assert OPTIONS.describe().startswith("usual work, 1 worker, Python 3.")
    assert replace(OPTIONS, budgets=(2.5,), workers=4).describe().startswith("2.5 s each, 4 workers, Python 3.")


def test_of_several_budgets_the_longest_is_the_run() -> None:
    """What is best at the shorter ones is read from it."""
    asked = replace(OPTIONS, budgets=(5.0, 60.0))
    assert asked.seconds == 60
    assert asked.describe().startswith("5 and 60 s each")


def test_a_spread_is_taken_unless_all_or_a_pattern_is_asked_for() -> None:
    """A pattern looks among all instances."""
    names = ["one", "two", "three"]
    taken = [
        replace(OPTIONS, **asked).spread_or_all(names, lambda all_of: all_of[:1]) for asked in ({}, {"only": "t*"})
    ]
    assert taken == [["one"], names]
    assert replace(OPTIONS, everything=True).spread_or_all(names, lambda all_of: all_of[:1]) == names


def test_records_come_back_as_they_were_written(tmp_path: Path) -> None:
    """Faults and missing figures included."""
    file = tmp_path / "records.json"
    written = [RECORD, replace(RECORD, verified=False, faults=("placements 0 and 1 overlap",), budget=2.5)]
    write_records(file, written)
    assert read_records(file) == written


@pytest.mark.parametrize("text", ["", "{", '{"a": 1}', '[{"benchmark": "jobs"}]', "[1]", "3"])
def test_a_file_of_something_else_is_refused_by_name(text: str, tmp_path: Path) -> None:
    """So that nothing is overwritten that is not ours."""
    file = tmp_path / "notes.json"
    file.write_text(text)
    with pytest.raises(NoRecordsError, match=r"notes\.json is no file of records"):
        read_records(file)


def test_a_mean_of_seeds_has_no_bound_and_is_verified_only_if_all_are() -> None:
    """One record for each instance, measure and budget."""
    runs = [RECORD, replace(RECORD, seed=1, value=88.0, verified=False), replace(RECORD, instance="skiff")]
    locker, skiff = means_of_seeds(runs)
    assert (locker.value, locker.verified, locker.bound, locker.seed) == (86.0, False, None, -1)
    assert skiff.value == 84.0


def test_the_distance_to_a_reference_is_in_percent_of_it() -> None:
    """Above is positive; without a reference there is none."""
    assert off_reference(replace(RECORD, reference=80.0)) == pytest.approx(5.0)
    assert off_reference(RECORD) is None
