"""The frame of all benchmarks: what is run, what is written, what is told."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

import pytest

from benchmarks.options import Options
from benchmarks.records import Record, read_records
from benchmarks.running import Benchmark, run
from benchmarks.telling import tables


@dataclass(frozen=True)
class Number:
    """The plainest instance."""

    name: str
    family: str = "numbers"


def record(instance: Number, seed: int, budget: float | None = None, **changes: object) -> Record:
    """Return a record of one run."""
    made = Record(
        benchmark="counting", family=instance.family, instance=instance.name, measure="letters",
        value=len(instance.name) + seed, budget=budget, seconds=0, cpu_seconds=0, seed=seed, workers=1, verified=True,
    )  # fmt: skip
    return replace(made, **changes)


class Counting:
    """A benchmark that remembers what it was asked to run."""

    def __init__(self, measure: Callable[[Number, int, Options], list[Record]]) -> None:
        self.runs: list[tuple[str, int]] = []
        self._measure = measure

    def benchmark(self, *names: str) -> Benchmark[Number]:
        """Return it with these instances."""
        return Benchmark(name="counting", instances=lambda _: [Number(name) for name in names], measure=self.measure)

    def measure(self, instance: Number, seed: int, options: Options) -> list[Record]:
        """Note the run."""
        self.runs.append((instance.name, seed))
        return self._measure(instance, seed, options)


def plain(instance: Number, seed: int, options: Options) -> list[Record]:
    """Return one record for each budget."""
    return [record(instance, seed, budget) for budget in options.budgets or (None,)]


def test_every_instance_is_run_with_every_seed_if_its_name_matches() -> None:
    """In the order of the instances."""
    counting = Counting(plain)
    records = run(counting.benchmark("one", "two", "three"), Options(data=None, seeds=(1, 2), only="t*"))
    assert counting.runs == [("two", 1), ("two", 2), ("three", 1), ("three", 2)]
    assert [found.value for found in records] == [4, 5, 6, 7]


def test_a_benchmark_that_was_broken_off_goes_on(tmp_path: Path) -> None:
    """What is in the file is returned, not run; what is missing is run and added."""
    options = Options(data=None, json=tmp_path / "records.json")
    first, second = Counting(plain), Counting(plain)
    run(first.benchmark("one"), options)
    records = run(second.benchmark("one", "two"), options)
    assert second.runs == [("two", 0)]
    assert [found.instance for found in records] == ["one", "two"]
    assert read_records(tmp_path / "records.json") == records


@pytest.mark.parametrize("change", [{"budgets": (5.0,)}, {"seeds": (1,)}, {"workers": 2}])
def test_other_options_are_another_run(change: dict[str, object], tmp_path: Path) -> None:
    """And the records of the first stay in the file."""
    options = Options(data=None, json=tmp_path / "records.json")
    first, second = Counting(plain), Counting(plain)
    kept = run(first.benchmark("one"), options)
    run(second.benchmark("one"), replace(options, **change))
    assert len(second.runs) == 1
    assert kept[0] in read_records(tmp_path / "records.json")


def test_a_budget_that_is_missing_is_run_with_all_others(tmp_path: Path) -> None:
    """For all budgets are read from one run; their records replace those that were there."""
    options = Options(data=None, budgets=(1.0,), json=tmp_path / "records.json")
    first, second = Counting(plain), Counting(plain)
    run(first.benchmark("one"), options)
    run(second.benchmark("one"), replace(options, budgets=(1.0, 5.0)))
    assert second.runs == [("one", 0)]
    assert [found.budget for found in read_records(tmp_path / "records.json")] == [1.0, 5.0]


def test_an_error_is_recorded_and_the_next_instance_is_run(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The record is not verified, so the status is 1; the same command runs it again."""

    def fails(instance: Number, seed: int, options: Options) -> list[Record]:
        if instance.name == "two":
            raise RuntimeError("no plan")
        return plain(instance, seed, options)

    options = Options(data=None, json=tmp_path / "records.json")
    records = run(Counting(fails).benchmark("one", "two", "three"), options)
    assert [(found.measure, found.verified) for found in records] == [
        ("letters", True), ("failed", False), ("letters", True),
    ]  # fmt: skip
    assert records[1].faults == ("RuntimeError('no plan')",)
    assert "no plan" in capsys.readouterr().err
    again = Counting(plain)
    assert all(found.verified for found in run(again.benchmark("one", "two", "three"), options))
    assert again.runs == [("two", 0)]
    assert all(found.verified for found in read_records(tmp_path / "records.json"))


def test_a_fault_is_told_at_once_and_in_the_table(capsys: pytest.CaptureFixture[str]) -> None:
    """On standard error while running, and in the row."""
    wrong = Counting(lambda one, seed, _: [record(one, seed, verified=False, faults=("item 3 is mirrored",))])
    run(wrong.benchmark("one"), Options(data=None))
    told = capsys.readouterr()
    assert "one, seed 0: NOT VERIFIED: item 3 is mirrored" in told.err
    assert next(line for line in told.out.splitlines() if line.startswith("one")).endswith("item 3 is mirrored")


def test_the_tables_show_means_of_seeds_and_the_source_of_references() -> None:
    """And processor seconds beside wall-clock seconds."""
    runs = [record(Number("one"), seed, reference=4.0, reference_source="worked out by hand") for seed in (0, 1)]
    rows, summary, source = tables(runs).split("\n\n")
    assert rows.splitlines()[0].split()[-4:] == ["s", "CPU", "s", "verified"]
    assert rows.splitlines()[-1].split()[:4] == ["one", "mean", "letters", "3.5"]
    assert summary.splitlines()[1].split()[:4] == ["numbers", "letters", "1", "3.5"]
    assert source == "reference: worked out by hand"
