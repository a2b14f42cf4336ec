"""Planks that are ripped into sticks, in cases that can be worked by hand. Sections are 50 x 25 unless said."""

import pytest
from timber_jobs import length, strip

from nesting.auditing import audit
from nesting.effort import Budget, Effort
from nesting.model import Job, NoPlanError
from nesting.planner import plan

INCH = 25.4


def job(lengths, strips, rip=3, **more):
    """A job that is sawn across without loss, and ripped."""
    joints = {"scarf": {"slope": 8, "least_piece": 300}}
    kerf = {"crosscut": 0} if rip is None else {"crosscut": 0, "rip": rip}
    return Job(workshop={"kerf": kerf}, joints=joints, lengths=lengths, strips=strips, **more)


def plank(width, units=10, price=100, **more):
    """A plank 25 thick."""
    return length(units, price, name=f"plank {width}", section=(width, 25), **more)


def planned(a_job):
    """Return a plan that the audit finds nothing wrong with."""
    made = plan(a_job, effort=Effort(Budget(work=300)))
    assert audit(made, a_job) == ()
    return made


def bought(made):
    """Return what is bought, how many of each."""
    return {purchase.stock: purchase.count for purchase in made.purchases}


@pytest.mark.parametrize(("strips", "planks"), [(15, 1), (16, 2), (30, 2), (31, 3)])
def test_fifteen_quarter_inch_strips_come_from_a_plank_of_five_and_a_half_inches(strips, planks):
    """Kerf 1/8 in: (5.5 + 0.125) / 0.375 = 15, the last strip needs no cut (asked in a kayak forum in 2000)."""
    section = (INCH / 4, 0.75 * INCH)
    board = {"name": "1x6", "material": "cedar", "section": (5.5 * INCH, 0.75 * INCH), "length": 2438.4, "price": 20}
    asked = {"name": "strip", "material": "cedar", "section": section, "length": 2400, "quantity": strips}
    made = planned(job([board], [asked], rip=INCH / 8))
    assert bought(made) == {"1x6": planks}
    assert made.totals.to_pay == made.totals.bound == 20 * planks
    assert {used.sticks for used in made.used} == {15}
    assert made.totals.lengths == planks


def test_a_plank_of_exactly_two_strips_and_a_cut_gives_two():
    """50 + 3 + 50 = 103; a plank of 102 gives one."""
    assert bought(planned(job([plank(103)], [strip(10, 2)]))) == {"plank 103": 1}
    assert bought(planned(job([plank(102)], [strip(10, 2)]))) == {"plank 102": 2}


def test_a_plank_is_taken_only_where_it_is_cheaper_than_lengths_of_the_section():
    """Two strips from a plank at 150, or from two lengths at 100; one strip from a length."""
    stock = [plank(103, price=150), length(10, 100)]
    assert bought(planned(job(stock, [strip(10, 2)]))) == {"plank 103": 1}
    assert bought(planned(job(stock, [strip(10, 1)]))) == {"spruce 10": 1}
    assert bought(planned(job(stock, [strip(10, 3)]))) == {"plank 103": 1, "spruce 10": 1}


def test_strips_are_scarfed_from_the_sticks_of_one_plank():
    """18 = 10 + 10 - 2: both sticks, and one joint."""
    made = planned(job([plank(103)], [strip(18, joint="scarf")]))
    assert bought(made) == {"plank 103": 1}
    assert sorted(piece.on for piece in made.pieces) == ["L1-1", "L1-2"]
    assert len(made.joints) == 1


def test_a_fault_of_a_plank_goes_through_all_its_sticks():
    """Clear are 4 and 5 of each stick: four strips of 4 fit on two sticks, a strip of 6 on none."""
    spoilt = plank(103, faults=[[400, 500]])
    assert bought(planned(job([spoilt], [strip(4, 4)]))) == {"plank 103": 1}
    with pytest.raises(NoPlanError):
        planned(job([spoilt], [strip(6)]))


def test_sections_are_ripped_from_planks_of_their_own():
    """A plank is ripped into sticks of one width: two of 50 from one, and three of 30 from another."""
    asked = [strip(10, 2), strip(10, 3, name="narrow", section=(30, 25))]
    assert bought(planned(job([plank(103)], asked))) == {"plank 103": 2}


def test_without_a_rip_saw_a_wider_length_serves_no_strip():
    """The nearest section is named, as ever."""
    with pytest.raises(NoPlanError) as refusal:
        planned(job([plank(103)], [strip(10)], rip=None))
    assert [problem.code for problem in refusal.value.problems] == ["no-timber"]


def test_a_thicker_plank_is_not_ripped():
    """It would have to be made thinner too, which is not planned."""
    with pytest.raises(NoPlanError):
        planned(job([length(10, section=(103, 30))], [strip(10)]))


NARROW = strip(10, 3, name="narrow", section=(30, 25))


def test_limited_planks_are_shared_between_sections():
    """Of two planks of 103 one gives two broad strips, the other three narrow ones; nothing is left to choose."""
    made = planned(job([plank(103, available=2)], [strip(10, 2), NARROW]))
    assert bought(made) == {"plank 103": 2}
    assert made.totals.proven


def test_limited_planks_go_to_the_section_whose_other_stock_is_dearer():
    """Each section would like the one plank at 100: the narrow strips else cost 3 x 60, the broad ones 2 x 100."""
    stock = [plank(103, available=1), length(10, 100), length(10, 60, name="narrow stock", section=(30, 25))]
    made = planned(job(stock, [strip(10, 2), NARROW]))
    assert bought(made) == {"plank 103": 1, "narrow stock": 3}
    assert made.totals.objective == made.totals.bound == 280


def test_limited_planks_that_are_too_few_for_all_sections_are_refused():
    """One plank gives the broad strips or the narrow ones, not both: that is proven."""
    with pytest.raises(NoPlanError) as refusal:
        planned(job([plank(103, available=1)], [strip(10, 2), NARROW]))
    assert {problem.code for problem in refusal.value.problems} == {"no-plan"}
    assert all("that is proven" in problem.reason for problem in refusal.value.problems)


def test_limited_planks_of_one_section_run_out():
    """Three strips need two planks of two sticks each."""
    assert bought(planned(job([plank(103, available=2)], [strip(10, 3)]))) == {"plank 103": 2}
    with pytest.raises(NoPlanError):
        planned(job([plank(103, available=1)], [strip(10, 3)]))


def with_used(made, index, **changes):
    """Return the plan with one used length changed."""
    used = [each.model_copy(update=changes) if k == index else each for k, each in enumerate(made.used)]
    return made.model_copy(update={"used": tuple(used)})


@pytest.mark.parametrize(
    ("change", "code"),
    [
        (lambda made: with_used(made, 1, plank=None), "wrong-plank"),
        (lambda made: with_used(made, 1, plank="L2"), "wrong-plank"),
        (lambda made: with_used(made, 0, sticks=3), "wrong-plank"),
        (lambda made: with_used(made, 1, stick=1), "wrong-plank"),
        (lambda made: with_used(made, 1, plank="L2"), "wrong-purchase"),
        (lambda made: with_job(made, section=(110, 30)), "wrong-section"),
        (lambda made: with_job(made, section=(102, 25)), "wrong-plank"),
    ],
)
def test_the_audit_finds_a_plank_that_can_not_be(change, code):
    """Sticks that are of no plank, miscounted, too many for its width, or of another thickness."""
    made = planned(job([plank(103)], [strip(10, 2)]))
    assert code in {finding.code for finding in audit(change(made))}


def with_job(made, **changes):
    """Return the plan with its plank changed in the job."""
    only = made.job.lengths[0].model_copy(update=changes)
    return made.model_copy(update={"job": made.job.model_copy(update={"lengths": (only,)})})
