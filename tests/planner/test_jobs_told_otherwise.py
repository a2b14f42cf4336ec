"""The same job told otherwise has the same bound, and a changed job a bound changed as it must be."""

import copy
from collections.abc import Callable
from decimal import Decimal
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from nesting.effort import Budget, Effort
from nesting.model import NoPlanError, Plan
from nesting.planner import plan
from tests.planner.random_jobs import GRADES, RACK_OUTLINE, Table, job_of, jobs

#: A bound, or the sorted kinds of problems for which there is no plan.
Outcome = Decimal | tuple[str, ...]

Moved = Callable[[list[float]], list[float]]

#: Each example takes two plans.
A_QUARTER = settings().max_examples // 4

unlimited = jobs(limited=False)
whole_millimetres = st.integers(-500, 500)


def planned(table: Table) -> Plan | tuple[str, ...]:
    """Return an audited plan, or the kinds of problems for which there is none."""
    try:
        return plan(job_of(table), effort=Effort(Budget(work=0)))
    except NoPlanError as error:
        return tuple(sorted(problem.code for problem in error.problems))


def outcome(table: Table) -> Outcome:
    """Return the bound of the plan for a job, or the kinds of problems for which there is none."""
    made = planned(table)
    return made.totals.bound if isinstance(made, Plan) else made


def with_outlines(table: Table, moved: Moved) -> Table:
    """Return the job with every point of every panel's outline moved; bulges go with their points."""
    fresh = copy.deepcopy(table)
    for panel in fresh["panels"]:
        outline = panel["outline"]
        outline["points"] = [moved(point) for point in outline["points"]]
        outline["holes"] = [[moved(list(point)) for point in hole] for hole in outline.get("holes", [])]
    return fresh


def renamed(table: Table, name: Callable[[str], str]) -> Table:
    """Return the job with every part and stock named otherwise."""
    fresh = copy.deepcopy(table)
    for kind in ("sheets", "panels", "lengths", "strips", "frames"):
        for item in fresh[kind]:
            item["name"] = name(item["name"])
    for panel in fresh["panels"]:
        panel["frames"] = [name(frame) for frame in panel["frames"]]
    for pair in fresh["neighbours"]:
        pair["between"] = [name(part) for part in pair["between"]]
    return fresh


#: Keys of figures that are no lengths.
NO_LENGTHS = {"slope", "strap", "cost", "price", "at_least", "available", "quantity", "most_joints"}


def in_units(value: Any, units: str) -> Any:
    """Return a job's table, or a part of it, with every length told in these units, exactly."""
    if isinstance(value, dict):
        return {key: told if key in NO_LENGTHS else in_units(told, units) for key, told in value.items()}
    if isinstance(value, list | tuple):
        is_bulged = len(value) == 3 and not isinstance(value[0], list | tuple | dict | str)
        lengths = value[:2] if is_bulged else value
        return [*(in_units(each, units) for each in lengths), *value[len(lengths) :]]
    if isinstance(value, bool | str | None):
        return value
    return str(Decimal(str(value)) / {"cm": 10, "m": 1000}[units])


def places(made: Plan) -> list[tuple[object, ...]]:
    """Return where every piece lies, without names."""
    return [(piece.on, *piece.model_dump(exclude={"id", "part", "joint"}).values()) for piece in made.pieces]


@settings(max_examples=A_QUARTER)
@given(unlimited)
def test_other_names_change_nothing_but_names(table: Table) -> None:
    """Not one piece lies elsewhere, though the new names sort the other way round."""
    before = planned(table)
    after = planned(renamed(table, lambda name: f"{chr(ord('z') - len(name))} {name[::-1]}"))
    if isinstance(before, Plan) and isinstance(after, Plan):
        assert places(before) == places(after)
        assert before.totals == after.totals
    else:
        assert before == after


@settings(max_examples=A_QUARTER)
@given(unlimited, st.sampled_from(["cm", "m"]))
def test_other_units_change_nothing(table: Table, units: str) -> None:
    """Every length told in centimetres or metres: the same pieces at the same places, to the last digit."""
    before, after = planned(table), planned({**in_units(table, units), "units": units})
    if isinstance(before, Plan) and isinstance(after, Plan):
        assert places(before) == places(after)
        assert before.totals == after.totals
    else:
        assert before == after


@settings(max_examples=A_QUARTER)
@given(unlimited)
def test_the_order_of_panels_does_not_change_the_bound(table: Table) -> None:
    """Listed the other way round; the plan may differ, but there is one and it is audited."""
    assert outcome(table) == outcome({**table, "panels": table["panels"][::-1], "sheets": table["sheets"][::-1]})


@settings(max_examples=A_QUARTER)
@given(unlimited, whole_millimetres)
def test_the_baseline_may_lie_anywhere_across_a_part(table: Table, by: int) -> None:
    """Offsets measured from another baseline."""
    assert outcome(table) == outcome(with_outlines(table, lambda point: [point[0], point[1] + by, *point[2:]]))


@settings(max_examples=A_QUARTER)
@given(unlimited, whole_millimetres)
def test_stations_may_be_counted_from_anywhere(table: Table, by: int) -> None:
    """Outlines, no-joint zones and boat stations are moved together."""
    moved = with_outlines(table, lambda point: [point[0] + by, *point[1:]])
    for panel in moved["panels"]:
        panel["no_joint"] = [[start + by, end + by] for start, end in panel["no_joint"]]
        rows = panel["boat_stations"] or [[0, 0], [3000, 3000]]  # left out means that both are the same
        panel["boat_stations"] = [[own + by, boat] for own, boat in rows]
    assert outcome(table) == outcome(moved)


@settings(max_examples=A_QUARTER)
@given(unlimited)
def test_a_mirrored_boat_has_the_same_bound(table: Table) -> None:
    """All outlines mirrored about their baselines, arcs too; the rings then run clockwise, which is allowed."""
    mirrored = with_outlines(table, lambda point: [point[0], -point[1], *(-bulge for bulge in point[2:])])
    assert outcome(table) == outcome(mirrored)


@settings(max_examples=A_QUARTER)
@given(unlimited)
def test_a_boat_told_from_the_other_end_has_the_same_bound(table: Table) -> None:
    """Stations run the other way, of panels, zones, boat and frames; a bound's own rounding may differ by a hair."""
    turned = with_outlines(table, lambda point: [-point[0], point[1], *(-bulge for bulge in point[2:])])
    for panel in turned["panels"]:
        panel["no_joint"] = [[-end, -start] for start, end in panel["no_joint"]]
        panel["boat_stations"] = [[-own, -boat] for own, boat in reversed(panel["boat_stations"])]
    turned["frames"] = [{**frame, "station": -frame["station"]} for frame in table["frames"]]
    before, after = outcome(table), outcome(turned)
    if not isinstance(before, Decimal):
        assert after == before
        return
    assert isinstance(after, Decimal)
    assert abs(after - before) <= Decimal("0.005") * before


@settings(max_examples=A_QUARTER)
@given(unlimited, st.sampled_from(GRADES), st.integers(1, 3))
def test_a_free_offcut_never_raises_the_bound(table: Table, grade: str, available: int) -> None:
    """One more way to make things, at no cost."""
    offcut = {"name": "gift", "material": "gaboon", "thickness": 6, "outline": {"points": RACK_OUTLINE}}
    more = {**table, "sheets": [*table["sheets"], {**offcut, "grade": grade, "available": available}]}
    before, after = outcome(table), outcome(more)
    if isinstance(before, Decimal):
        assert isinstance(after, Decimal)
        assert after <= before


@settings(max_examples=A_QUARTER)
@given(unlimited)
def test_double_prices_double_the_bound(table: Table) -> None:
    """Of sheets, lengths and joints; joints by the piece only, since those by the metre are rounded to the cent.

    The bound is raised until a step gains less than half a cent, so it may stop a little sooner or later.
    """
    for rule in table["joints"].values():
        rule["cost"]["per_m"] = 0
    dearer = copy.deepcopy(table)
    for rule in dearer["joints"].values():
        rule["cost"]["each"] = str(2 * Decimal(rule["cost"]["each"]))
    for stock in (*dearer["sheets"], *dearer["lengths"]):
        for paid in (stock, *stock.get("price_breaks", ())):
            paid["price"] = str(2 * Decimal(str(paid.get("price", "0"))))
    before, after = outcome(table), outcome(dearer)
    if not isinstance(before, Decimal):
        assert after == before
        return
    assert isinstance(after, Decimal)
    assert abs(after - 2 * before) <= Decimal("0.005") * before
