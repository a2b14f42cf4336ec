"""The benchmark of reports and their pages."""

from pathlib import Path

import pytest

from benchmarks import slow_browser
from benchmarks.page import BATCHES, Batch, batch_job, shown
from benchmarks.records import Record


def test_a_batch_asks_for_every_part_so_many_times(tmp_path: Path) -> None:
    """The stock is what it was."""
    once, thrice = (batch_job(Batch(name="b", starter="skiff", times=times), tmp_path) for times in (1, 3))
    assert [part.quantity for part in (*thrice.panels, *thrice.strips)] == [
        3 * part.quantity for part in (*once.panels, *once.strips)
    ]
    assert thrice.sheets == once.sheets


def test_a_row_is_told_for_each_batch() -> None:
    """What was not measured is said to be none."""
    one = Record(
        benchmark="page", family="pages", instance="skiff", measure="megabytes", value=1.25, seconds=1.0,
        cpu_seconds=1.0, seed=0, workers=1, verified=True,
    )  # fmt: skip
    *_, row = shown([one]).splitlines()
    assert row.split() == ["skiff", "none", "none", "none", "1.25", "none", "none", "none", "none", "yes"]


def test_there_is_a_batch_of_sixty_sheets() -> None:
    """Six fleets of three skiffs."""
    assert max(batch.times for batch in BATCHES if batch.starter == "fleet") == 6


def test_without_a_browser_it_says_what_it_needs(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """Rather than that some file was not found."""
    monkeypatch.setattr(slow_browser.shutil, "which", lambda _: None)
    with pytest.raises(RuntimeError, match="needs Chromium and its driver"):
        slow_browser.looks(tmp_path / "index.html", 1)
