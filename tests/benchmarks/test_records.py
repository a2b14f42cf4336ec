"""What a benchmark is asked for, and how it tells what it measured."""

import json
from dataclasses import replace
from pathlib import Path

import pytest

from benchmarks.options import Options
from benchmarks.records import Record, table, write_records

OPTIONS = Options(data=None, seconds=None, seeds=(0,), workers=1, only="*")
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
    "seconds", "cpu_seconds", "seed", "workers", "verified",
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
    assert replace(OPTIONS, seconds=2.5, workers=4).describe().startswith("2.5 s each, 4 workers, Python 3.")
