"""What no timber can be planned for: one clear message each, before anything is searched."""

import itertools
import random

import pytest
from timber_jobs import cheapest, job, length, strip

from nesting.effort import Budget, Effort
from nesting.lengths import plan_lengths
from nesting.lengths.cutting import measured
from nesting.lengths.refusing_shifts import contradictory_shifts
from nesting.model import JobError, NoPlanError
from nesting.planner import check

LAPPED = {"lap": 2, "least": 3}


def refused(a_job):
    """Return the one problem that keeps a job from being planned."""
    (problem,) = check(a_job)
    with pytest.raises(NoPlanError) as refusal:
        plan_lengths(a_job, Effort(Budget(work=0)))
    assert [each.code for each in refusal.value.problems] == [problem.code]
    return problem


def test_a_strip_longer_than_all_stock_without_joints():
    """By how much is told."""
    problem = refused(job([length(10)], [strip(12)]))
    assert problem.code == "too-long"
    assert "200 longer than the longest piece" in problem.reason


def test_zones_that_cover_everything():
    """It is told how many joints would do without them."""
    problem = refused(job([length(10)], [strip(15, 1, "scarf", [(0, 15)])], **LAPPED))
    assert problem.code == "no-station"
    assert "no-joint zones 0 to 1500" in problem.reason
    assert problem.remedy.startswith("Without the zones 1 joint would do")


@pytest.mark.parametrize(
    ("strips", "shift", "most"),
    [
        ([strip(15, 2, "scarf")], ("strip 15", "strip 15", 8), 5),
        ([strip(15, 1, "scarf"), strip(15, 1, "scarf", name="b")], ("strip 15", "b", 14), 5),
        ([strip(15, 4, "scarf")], ("strip 15", "strip 15", 4), 3),
    ],
)
def test_a_shift_that_contradicts_the_stock(strips, shift, most):
    """Of 15 from 10s a joint lies at 9 or below, one at 6 or above, none 8 from the next; they keep 3 from the ends.

    With a shift of 6 the neighbour has but 3 and 12 left, which is too far apart. Four copies have 9 for three shifts.
    """
    problem = refused(job([length(10)], strips, shifts=[shift], **LAPPED))
    assert problem.code == "shift-too-wide"
    assert f"more than {most * 100} can't be kept" in problem.reason


@pytest.mark.parametrize(
    "wrong",
    [
        {"strips": [strip(0)]},
        {"strips": [strip(-5)]},
        {"strips": [strip(5, 0)]},
        {"strips": [strip(5, section=(0, 25))]},
        {"lengths": [length(-10)]},
        {"lengths": [length(10, section=(50, -25))]},
        {"strips": [strip(5, 10**6)]},
    ],
)
def test_sizes_of_nothing_or_less_and_quantities_beyond_all_measure(wrong):
    """Each is a value that a job can't have, and its place is named."""
    with pytest.raises((JobError, ValueError)) as refusal:
        job(**{"lengths": [length(10)], "strips": [strip(5)], **wrong})
    assert "greater than" in str(refusal.value) or "less than" in str(refusal.value)


def test_more_strips_than_a_plan_can_tell():
    """A hundred thousand are a job, but no plan that anybody could read."""
    assert refused(job([length(10)], [strip(5, 100_000)])).code == "too-many-strips"


def test_no_stock_of_that_section_or_material():
    """The nearest is named."""
    problem = refused(job([length(10, section=(60, 25)), length(12, section=(90, 25))], [strip(5)]))
    assert problem.code == "no-timber"
    assert 'The nearest is "spruce 10": spruce 60 x 25' in problem.remedy
    other = refused(job([length(10, material="larch")], [strip(5)]))
    assert 'The nearest is "spruce 10": larch 50 x 25' in other.remedy


def test_a_lap_longer_than_the_least_piece_is_kept_as_the_least():
    """A lap of 4 where 1 was asked: no joint lies nearer to an end, or to another, than a lap."""
    a_job = job([length(10)], [strip(16, 2, "scarf"), strip(21, 1, "scarf")], lap=4, least=1)
    share, _ = plan_lengths(a_job, Effort(Budget(work=2000)))
    for a_strip in a_job.strips:
        for copy in range(1, a_strip.quantity + 1):
            own = [j.station for j in share.joints if (j.part, j.copy_number) == (a_strip.name, copy)]
            places = [0, *sorted(own), a_strip.length]
            assert own
            assert all(after - before >= 400 for before, after in itertools.pairwise(places))


def test_what_is_refused_for_its_shift_has_no_plan_at_all():
    """Against trying everything, on tiny jobs with shifts that are often too wide; both answers are frequent."""
    rng, counted = random.Random(77), {"refused": 0, "possible": 0}
    for _ in range(50):
        one = strip(rng.choice([9, 10, 12]), rng.choice([1, 2]), "scarf", rng.choice([(), ((4, 6),)]), name="a")
        other = strip(rng.choice([9, 11]), 1, "scarf", name="b")
        shift = ("a", rng.choice("ab") if one["quantity"] > 1 else "b", rng.randint(1, 7))
        a_job = job([length(8, 80)], [one, other], lap=2, least=2, shifts=[shift])
        whole, measure = measured(a_job)
        wide = list(contradictory_shifts(a_job, whole, measure))
        counted["refused" if wide else "possible"] += 1
        assert not wide or cheapest(a_job) is None
    assert min(counted.values()) >= 10
