"""What comes back from a solver, and that a time-out never reads as a proof."""

import random
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from ortools.sat.python import cp_model

from nesting.solving import Answer, Status, minimize


def _knapsack(values: list[int], weights: list[int], room: int) -> cp_model.CpModel:
    """Least value left behind."""
    model = cp_model.CpModel()
    taken = [model.new_bool_var(f"taken{index}") for index in range(len(values))]
    model.add(sum(weight * item for weight, item in zip(weights, taken, strict=True)) <= room)
    model.minimize(sum(value * (1 - item) for value, item in zip(values, taken, strict=True)))
    return model


def _hard() -> cp_model.CpModel:
    """Split thirty items evenly by four measures at once: easy to begin, very hard to prove (market split)."""
    chance = random.Random(1)
    model = cp_model.CpModel()
    items = [model.new_bool_var(f"item{index}") for index in range(30)]
    errors = []
    for measure in range(4):
        sizes = [chance.randint(0, 99) for _ in items]
        error = model.new_int_var(0, 10_000, f"error{measure}")
        off = sum(size * item for size, item in zip(sizes, items, strict=True)) - sum(sizes) // 2
        model.add(off <= error)
        model.add(-off <= error)
        errors.append(error)
    model.minimize(sum(errors))
    return model


def _pigeons(count: int) -> cp_model.CpModel:
    """One pigeon more than holes: impossible, but not seen at once."""
    model = cp_model.CpModel()
    at = [[model.new_bool_var(f"{bird}in{hole}") for hole in range(count - 1)] for bird in range(count)]
    for holes in at:
        model.add_bool_or(holes)
    for hole in range(count - 1):
        for bird in range(count):
            for other in range(bird):
                model.add_bool_or([~at[bird][hole], ~at[other][hole]])
    return model


@settings(max_examples=25)
@given(st.lists(st.tuples(st.integers(0, 20), st.integers(1, 20)), min_size=1, max_size=7), st.integers(0, 60))
def test_an_optimal_answer_is_the_best_of_all(items: list[tuple[int, int]], room: int) -> None:
    """Against trying every subset; values, objective and bound agree with one another."""
    values, weights = [list(column) for column in zip(*items, strict=True)]
    best = min(
        sum(value for value, take in zip(values, takes, strict=True) if not take)
        for takes in product([0, 1], repeat=len(items))
        if sum(weight * take for weight, take in zip(weights, takes, strict=True)) <= room
    )
    answer = minimize(_knapsack(values, weights, room), effort=1)
    takes = [answer.values[f"taken{index}"] for index in range(len(items))]
    assert answer.status is Status.OPTIMAL
    assert answer.objective == answer.bound == best
    assert sum(weight * take for weight, take in zip(weights, takes, strict=True)) <= room
    assert sum(value for value, take in zip(values, takes, strict=True) if not take) == best


def test_values_come_back_by_name_as_whole_numbers() -> None:
    """Named variables are read back, the objective with its constant."""
    model = cp_model.CpModel()
    sheets, spare = model.new_int_var(0, 10, "sheets"), model.new_int_var(-5, 5, "spare")
    model.add(sheets + spare >= 3)
    model.minimize(3 * sheets + 2 * spare + 7)
    answer = minimize(model, effort=1)
    assert answer == Answer(Status.OPTIMAL, {"sheets": 0, "spare": 3}, 13, 13)
    assert answer.found


def test_a_question_without_objective_has_neither_objective_nor_bound() -> None:
    """Nothing is minimised, so nothing is proven but that there are values."""
    model = cp_model.CpModel()
    model.add(model.new_int_var(0, 10, "x") >= 10)
    answer = minimize(model, effort=1)
    assert (answer.found, dict(answer.values), answer.objective, answer.bound) == (True, {"x": 10}, None, None)


def test_the_impossible_is_proven_and_has_no_values() -> None:
    """Eight pigeons don't fit seven holes."""
    answer = minimize(_pigeons(8), effort=20)
    assert answer == Answer(Status.IMPOSSIBLE, {}, None, None)
    assert not answer.found


def test_time_that_runs_out_before_any_value_is_unknown_not_impossible() -> None:
    """Impossible is a proof; running out of time proves nothing."""
    answer = minimize(_pigeons(11), effort=0.0001)
    assert answer.status is Status.UNKNOWN
    assert not answer.found
    assert (dict(answer.values), answer.objective, answer.bound) == ({}, None, None)


@pytest.mark.parametrize("effort", [0.0, 0.001, 0.01, 0.05])
def test_a_time_out_never_reads_as_proven(effort: float) -> None:
    """With values but no proof the status is feasible, and the bound stays below the objective."""
    answer = minimize(_hard(), effort=effort)
    assert answer.status in (Status.FEASIBLE, Status.UNKNOWN)
    assert answer.bound is not None
    assert answer.found is (answer.objective is not None)
    assert answer.objective is None or answer.bound < answer.objective


def test_some_effort_finds_values_without_proof() -> None:
    """The values of an unproven answer satisfy the model and cost what the answer says."""
    answer = minimize(_hard(), effort=0.05)
    assert answer.status is Status.FEASIBLE
    assert answer.objective == sum(answer.values[f"error{measure}"] for measure in range(4))


def test_the_bound_of_less_effort_holds_for_more() -> None:
    """A proven bound is below every objective that anyone finds later."""
    bounds = [minimize(_hard(), effort=effort).bound for effort in (0.0, 0.01)]
    found = minimize(_hard(), effort=0.1).objective
    assert found is not None
    assert all(bound is not None and bound <= found for bound in bounds)


@pytest.mark.parametrize("seed", [0, 7])
def test_the_same_effort_and_seed_give_the_same_answer(seed: int) -> None:
    """The limit counts work, not seconds, so an unfinished search ends at the same place."""
    assert minimize(_hard(), effort=0.03, seed=seed) == minimize(_hard(), effort=0.03, seed=seed)


def test_a_model_that_makes_no_sense_is_the_callers_mistake() -> None:
    """A domain that overflows is refused by CP-SAT and said so, not called impossible."""
    model = cp_model.CpModel()
    huge = model.new_int_var(-(2**62), 2**62, "huge")
    model.minimize(huge * 8)
    with pytest.raises(ValueError, match="CP-SAT refused"):
        minimize(model, effort=1)
