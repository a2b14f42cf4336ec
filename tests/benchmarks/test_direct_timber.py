"""Direct models of timber say what can be worked by hand, and what is beside them is held against them."""

import pytest

from benchmarks.beside import beside
from benchmarks.data import CuttingInstance, SpliceInstance, SpliceStock, SpliceStrip
from benchmarks.direct_timber import packing_model, splicing_model
from benchmarks.lengths import cutting_of, first_fit, patterns
from benchmarks.records import Record
from benchmarks.splices import cutting_of as spliced_cutting_of
from benchmarks.splices import lengths_of
from benchmarks.verifying import cutting_faults, splicing_cost, splicing_faults
from nesting.effort import Budget, Effort
from nesting.lengths import cheapest_cutting

#: Longest first: 60 + 30, 50 + 30, and 30 in a third; 60 + 30 and 50 + 30 leave 10 and 20, so it takes three.
SMALL = CuttingInstance("small", "hand", 100, ((60, 1), (50, 1), (30, 3)), (3, 3), 3)

#: Two strips of 16 from lengths of 10: with a lap of 2 and no kerf each needs two lengths (10 + 8 = 16 + 2).
JOINED = SpliceInstance(
    name="hand",
    family="s",
    kerf=0,
    lap=2,
    least_piece=3,
    joint_cost=7,
    stock=(SpliceStock(10, 100, None, ()),),
    strips=(SpliceStrip(16, 2, (), 1),),
    shift=(),
    study_cost=414,
    study_bound=414,
    study_proven=True,
)


def test_first_fit_takes_three() -> None:
    """As worked above."""
    assert first_fit(SMALL) == 3


@pytest.mark.parametrize("solver", ["by_cp_sat", "by_highs"])
def test_a_direct_model_of_lengths_takes_as_many_as_by_hand(solver: str) -> None:
    """Proven by either solver."""
    answer = getattr(packing_model(SMALL, 4), solver)(10.0)
    assert (answer.objective, answer.bound) == (3, 3)


@pytest.mark.parametrize("solver", ["by_cp_sat", "by_highs"])
def test_a_direct_model_of_splices_costs_as_much_as_by_hand(solver: str) -> None:
    """Four lengths and two joints: 4 x 100 + 2 x 7."""
    answer = getattr(splicing_model(spliced_cutting_of(JOINED), 900), solver)(10.0)
    assert (answer.objective, answer.bound) == (414, 414)


def test_a_job_of_the_study_is_read_back_in_its_own_words() -> None:
    """The plan keeps the study's rules and costs what it should."""
    outcome = cheapest_cutting(spliced_cutting_of(JOINED), Effort(Budget()))
    assert outcome.layout is not None
    made = lengths_of(JOINED, outcome.layout)
    assert splicing_faults(JOINED, made) == []
    assert splicing_cost(JOINED, made) == outcome.proven.cents == 414


def _ours(value: float, bound: float) -> Record:
    return Record(
        benchmark="lengths", family="hand", instance="small", measure="ours", value=value, bound=bound, seconds=0.0,
        cpu_seconds=0.0, seed=0, workers=1, verified=True,
    )  # fmt: skip


def test_what_contradicts_a_direct_model_is_told() -> None:
    """A bound above what a direct model reaches, or a plan below what it proves, is somebody's mistake."""
    model = packing_model(SMALL, 4)
    assert all(record.verified for record in beside(_ours(3, 3), model, 10.0))
    assert not any(record.verified for record in beside(_ours(4, 4), model, 10.0))
    assert not any(record.verified for record in beside(_ours(2, 2), model, 10.0))


def test_our_plan_of_lengths_is_put_into_patterns() -> None:
    """Three lengths that make all pieces, by the verifier's arithmetic."""
    outcome = cheapest_cutting(cutting_of(SMALL), Effort(Budget()))
    assert outcome.layout is not None
    made = patterns(outcome.layout)
    assert cutting_faults(SMALL, made) == []
    assert sum(pattern.count for pattern in made) == outcome.proven.cents == 3
