"""The made-up timber jobs, ten times as many strips of them, and what is told of both."""

import pytest

from benchmarks.beside import OURS
from benchmarks.multiples import TEN_TIMES, multiples_tables, multiplied
from benchmarks.options import Options
from benchmarks.records import Record
from benchmarks.splices import planned
from benchmarks.stocks import bought
from benchmarks.timber_jobs import STOCKS, STRIPS, several_stocks, ten_times


def test_jobs_are_the_same_each_time_and_as_large_as_said():
    """Up to two hundred strips and ten stocks, with names of their own; the longest stock holds every strip."""
    jobs = several_stocks()
    assert jobs == several_stocks()
    assert len({job.name for job in jobs}) == len(jobs)
    for job in jobs:
        assert STRIPS[0] <= sum(strip.quantity for strip in job.strips) <= STRIPS[1]
        assert STOCKS[0] <= len(job.stock) <= STOCKS[1]
        assert job.stock[-1].available is None
        assert max(strip.length for strip in job.strips) <= job.stock[-1].length


def test_ten_times_a_job_has_ten_times_its_strips_and_limited_stock():
    """And nothing else changes."""
    job = several_stocks()[3]
    larger = ten_times(job)
    assert [s.quantity for s in larger.strips] == [10 * s.quantity for s in job.strips]
    assert [s.available for s in larger.stock] == [s.available and 10 * s.available for s in job.stock]
    assert [(s.length, s.price) for s in larger.stock] == [(s.length, s.price) for s in job.stock]


def test_a_plan_of_a_job_is_verified():
    """Its cost is counted by the check, not by the planner."""
    record = planned(several_stocks()[2], 0, 5.0)
    assert record.verified
    assert record.bound <= record.value < float("inf")


def test_a_job_is_planned_beside_direct_models():
    """All three are verified, and none claims what another refutes."""
    records = bought(several_stocks()[2], 0, Options(data=None, budgets=(2.0,)))
    assert [record.measure for record in records] == [OURS, "direct CP-SAT", "direct HiGHS"]
    assert all(record.verified for record in records)


def test_a_job_and_ten_times_as_much_are_told_side_by_side():
    """Ten times the strips cost no more than ten times the money."""
    once, more = multiplied(several_stocks()[2], 0, Options(data=None, budgets=(5.0,)))
    assert (once.measure, more.measure) == (OURS, TEN_TIMES)
    assert more.bound <= 10 * once.value
    assert more.verified


@pytest.mark.parametrize(("cpu", "within"), [(1.9, "1"), (2.1, "0")])
def test_how_much_longer_it_took_is_told(cpu, within):
    """By processor seconds, which other work on the machine changes least."""
    records = [_record(OURS, 1.0), _record(TEN_TIMES, cpu)]
    row = multiples_tables(records).splitlines()[-1].split()
    assert row == ["whole", "mm", "1", f"{cpu:.2f}", within, f"{cpu:.2f}"]


def _record(measure, cpu):
    return Record(
        benchmark="multiples",
        family="whole mm",
        instance="one",
        measure=measure,
        value=1,
        bound=1,
        proven=True,
        seconds=9,
        cpu_seconds=cpu,
        seed=0,
        workers=1,
        verified=True,
    )
