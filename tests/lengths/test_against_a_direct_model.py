"""Random small jobs beside one direct model of all pieces on all lengths, solved by HiGHS."""

from hypothesis import given, settings
from hypothesis import strategies as st
from test_lengths_oracle import WORK, joined_jobs, plain_jobs

from benchmarks.direct_timber import parts_of_a_cent, splicing_model
from nesting.effort import Budget, Effort
from nesting.lengths import cheapest_cutting
from nesting.lengths.cutting import hanging_together, measured
from nesting.solving import Status

#: Seconds for one direct model; where they do not do, its bound and its plan still have to agree.
SECONDS = 0.3

#: Share of the jobs at least that both prove within their limits, and the costs of which are then held to be alike.
ALIKE = 0.8


def agrees_with_the_direct_model(cutting):
    """Assert that neither beats the bound of the other; return whether both say that they have proven the same."""
    if any(member.least_joints is None for member in cutting.members):
        return True  # refused before anything is planned
    outcome = cheapest_cutting(cutting, Effort(Budget(work=WORK)))
    cents = None if outcome.layout is None else outcome.layout.price(cutting)[0]
    model = splicing_model(cutting, 10**6 if cents is None else cents)
    direct = model.by_highs(SECONDS)
    if cents is None:
        assert direct.status in (Status.IMPOSSIBLE, Status.UNKNOWN)
        return outcome.proven.impossible and direct.status is Status.IMPOSSIBLE
    assert direct.status is not Status.IMPOSSIBLE
    parts, rounded = parts_of_a_cent(cutting), most_offcuts(cutting)
    assert direct.bound is None or direct.bound <= cents * parts
    assert direct.objective is None or outcome.proven.cents <= direct.objective / parts + rounded
    if direct.status is not Status.OPTIMAL or outcome.proven.cents != cents:
        return False
    assert cents - rounded <= direct.objective / parts <= cents
    return True


def most_offcuts(cutting):
    """Return how many offcuts there can be, each worth up to a cent less than its length is; 0 if none is."""
    pieces = sum(member.quantity * (1 + member.most_joints) for member in cutting.members)
    return pieces * max(len(stock.stretches) for stock in cutting.stocks.values()) if cutting.keeps else 0


def test_a_plan_costs_what_a_direct_model_says():
    """Faults, grades, zones, limits, kerf and shifts are in both; they share no search. Most are proven by both."""
    alike = []

    @settings(max_examples=200, deadline=None)
    @given(st.one_of(plain_jobs(), joined_jobs()))
    def compared(a_job):
        alike.append(all(agrees_with_the_direct_model(c) for c in hanging_together(measured(a_job)[0])))

    compared()
    assert len(alike) >= 200
    assert sum(alike) >= len(alike) * ALIKE
