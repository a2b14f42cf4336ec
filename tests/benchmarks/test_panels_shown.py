"""What the table of the study jobs tells."""

from benchmarks.panels import shown
from benchmarks.records import Record


def cost(job: str, value: float, *, reference: float, bound: float) -> Record:
    """Return one run of a minute."""
    return Record(
        benchmark="panels",
        family="divided",
        instance=f"{job}:divided",
        measure="cost",
        value=value,
        bound=bound,
        bound_reason="area",
        proven=False,
        reference=reference,
        reference_source="a study",
        budget=60.0,
        seconds=0.5,
        cpu_seconds=100.0,
        seed=1,
        workers=2,
        verified=True,
        faults=(),
    )


def test_the_mean_distances_to_study_and_bound_are_told() -> None:
    """90 for 100 and 104 for 100 are -10 and +4, on the mean -3; 81 below 90 and 104 below 104 are 10 and 0 percent."""
    lines = shown([cost("a", 90, reference=100, bound=81), cost("b", 104, reference=100, bound=104)]).splitlines()
    assert "mean of 2, divided, 60 s: to study -3.00 %, gap 5.0 %" in lines
