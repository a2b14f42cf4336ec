"""Whole plans of random small jobs keep every promise, by three judges: the audit, a script, and arithmetic here."""

import re
import tempfile
from collections import Counter
from collections.abc import Sequence
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon

from benchmarks.verification import faults
from nesting.auditing import audit
from nesting.effort import Budget, Effort
from nesting.files import plan_json, read_plan
from nesting.model import (
    Job,
    JobError,
    Length,
    NoPlanError,
    PanelPiece,
    Plan,
    Problem,
    Sheet,
    SheetOffcut,
    StrapPiece,
    StripPiece,
    UsedLength,
    UsedSheet,
)
from nesting.planner import plan, resolved
from tests.planner.random_jobs import Table, job_of, jobs

#: A job for which stock runs out takes a second or two: every way to fill the sheets is tried before it is given up.
HALF = settings().max_examples // 2

Ring = Sequence[tuple[float, ...]]


def shoelace(ring: Ring) -> float:
    """Return the area of a ring of points."""
    following = (*ring[1:], ring[0])
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, following, strict=True))) / 2


def net_area(outline: Ring, holes: Sequence[Ring]) -> float:
    """Return the area of an outline without its holes."""
    return shoelace(outline) - sum(map(shoelace, holes))


def holds_what_it_promises(made: Plan, asked: Job) -> None:
    """Assert all that is promised of any plan."""
    assert audit(made, asked) == ()
    money_adds_up(made)
    sheet_areas_add_up(made)
    timber_adds_up(made)
    no_piece_lies_on_a_fault(made)
    stays_the_same_in_its_file(made)


def money_adds_up(made: Plan) -> None:
    """Assert the shopping list and every sum of money from what is used."""
    totals = made.totals
    stock = {item.name: item for item in (*made.job.sheets, *made.job.lengths)}
    bought = Counter(used.stock for used in made.used if used.source == "buy")
    least = {name: least_paid(stock[name], count) for name, count in bought.items()}
    assert {line.stock: (line.cost, line.count) for line in made.purchases} == least
    assert totals.to_pay == sum((cost for cost, _ in least.values()), Decimal(0))
    on_the_rack = [used for used in made.used if used.source == "rack" and isinstance(used, UsedSheet)]
    assert totals.rack_value == sum((stock[used.stock].price for used in on_the_rack), Decimal(0))
    assert totals.joint_cost == sum((joint.cost for joint in made.joints), Decimal(0))
    assert totals.objective == totals.to_pay + totals.joint_cost + totals.rack_value - totals.offcut_value
    assert totals.bound <= totals.objective
    assert totals.proven == (totals.bound == totals.objective)
    assert totals.joints == len(made.joints)


def least_paid(stock: Sheet | Length, used: int) -> tuple[Decimal, int]:
    """Return the least that so many cost, or more of them, and how many are bought for that; up to ten are tried."""
    breaks = stock.price_breaks if isinstance(stock, Sheet) else ()
    most = max(used, min(10, stock.available or 10))
    each = {n: min([stock.price, *(b.price for b in breaks if b.at_least <= n)]) for n in range(used, most + 1)}
    return min((count * price, count) for count, price in each.items())


def sheet_areas_add_up(made: Plan) -> None:
    """Assert each area from the polygons, and that the six make up the sheets."""
    areas, sheets = made.totals.areas, [used for used in made.used if isinstance(used, UsedSheet)]
    parts = sum(net_area(p.outline.points, p.outline.holes) * p.quantity for p in made.job.panels)
    pieces = sum(net_area(p.outline, p.holes) for p in made.pieces if isinstance(p, PanelPiece))
    assert areas.used == pytest.approx(sum(net_area(s.outline, s.holes) for s in sheets), abs=0.01)
    assert areas.parts == pytest.approx(parts, abs=0.01)
    assert areas.laps == pytest.approx(pieces - parts, abs=0.01)
    straps = sum(shoelace(piece.outline) for piece in made.pieces if isinstance(piece, StrapPiece))
    assert areas.straps == pytest.approx(straps, abs=0.01)
    assert areas.trim == pytest.approx(sum(trimmed_off(sheet) for sheet in sheets), abs=0.01)
    assert areas.offcuts == pytest.approx(
        sum(shoelace(o.outline) for o in made.offcuts if isinstance(o, SheetOffcut) and o.kept), abs=0.01
    )
    told = (areas.parts, areas.laps, areas.straps, areas.trim, areas.offcuts, areas.rest)
    assert areas.used == pytest.approx(sum(told), abs=0.01)
    assert areas.rest >= -0.01
    assert totals_count(made) == (made.totals.sheets, made.totals.lengths)


def trimmed_off(sheet: UsedSheet) -> float:
    """Return the area of the four trimmed edges; only whole sheets, which are rectangles, are trimmed."""
    length, width = (max(point[axis] for point in sheet.outline) for axis in (0, 1))
    return length * width - (length - 2 * sheet.trim) * (width - 2 * sheet.trim) if sheet.trim else 0.0


def totals_count(made: Plan) -> tuple[int, int]:
    """Return the number of sheets and of lengths used, none of which is empty."""
    busy = {piece.on for piece in made.pieces}
    assert busy == {used.id for used in made.used}
    return sum(isinstance(u, UsedSheet) for u in made.used), sum(isinstance(u, UsedLength) for u in made.used)


def timber_adds_up(made: Plan) -> None:
    """Assert each length, and that the four make up the timber."""
    timber = made.totals.timber
    parts = sum(strip.length * strip.quantity for strip in made.job.strips)
    pieces = sum(piece.end - piece.start for piece in made.pieces if isinstance(piece, StripPiece))
    assert timber.used == pytest.approx(sum(u.length for u in made.used if isinstance(u, UsedLength)))
    assert timber.parts == pytest.approx(parts)
    assert timber.laps == pytest.approx(pieces - parts, abs=1e-6)
    assert timber.used == pytest.approx(timber.parts + timber.laps + timber.offcuts + timber.rest)


def no_piece_lies_on_a_fault(made: Plan) -> None:
    """Assert it of the faults that the job names on faces that the piece shows, whatever the plan says of them."""
    sheets = {sheet.name: sheet for sheet in made.job.sheets}
    shows = {panel.name: panel.shows for panel in made.job.panels}
    for used in made.used:
        for piece in made.on(used.id):
            if isinstance(used, UsedSheet) and isinstance(piece, PanelPiece):
                inner = Polygon(piece.outline, piece.holes).buffer(-0.001, join_style="mitre")
                for fault in sheets[used.stock].faults:
                    hidden = fault.side != "both" and shows[piece.part] not in ("both", fault.side)
                    assert hidden or not inner.intersects(Polygon(fault.points))


def stays_the_same_in_its_file(made: Plan) -> None:
    """Assert that the file holds the whole plan, and that a script can verify it from the file alone."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "plan.json"
        file.write_text(plan_json(made), encoding="utf-8")
        assert read_plan(file) == made
        assert faults(file) == []


def says_what_is_wrong(error: JobError | NoPlanError, asked: Job) -> None:
    """Assert that each problem names a part or stock of the job, a reason and a remedy."""
    stock, parts = [*(s.name for s in asked.sheets), *(t.name for t in asked.lengths)], [p.name for p in asked.panels]
    names = {*stock, *parts, *(strip.name for strip in asked.strips)}
    assert error.problems
    for problem in error.problems:
        assert names.intersection(re.findall(r'"([^"]+)"', f"{problem.where} {problem.reason}"))
        assert problem.reason
        assert problem.remedy.endswith((".", "?"))


@settings(max_examples=HALF)
@given(jobs(), st.integers(0, 300), st.integers(0, 3))
def test_every_job_is_planned_soundly_or_refused_in_words(table: Table, work: int, seed: int) -> None:
    """Whatever is asked: a plan that three judges find sound, or problems that name a part, a reason and a remedy."""
    asked = job_of(table)
    try:
        made = plan(asked, seed=seed, effort=Effort(Budget(work=work)))
    except (JobError, NoPlanError) as error:
        says_what_is_wrong(error, asked)
    else:
        holds_what_it_promises(made, resolved(asked))


@settings(max_examples=HALF)
@given(jobs(limited=False), st.integers(0, 200))
def test_with_as_much_stock_as_needed_only_impossible_parts_are_refused(table: Table, work: int) -> None:
    """Then nothing runs out, so what is refused is refused for its size, its grade or its joints."""
    asked = job_of(table)
    refused = {problem.code for problem in problems_of(asked, work)}
    assert refused <= {"no-stock", "no-grade", "too-large", "no-station", "too-wide", "shift", "too-long", "no-timber"}


def problems_of(asked: Job, work: int) -> tuple[Problem, ...]:
    """Return what is wrong with a job that can't be planned; else hold its plan against all rules."""
    try:
        made = plan(asked, effort=Effort(Budget(work=work)))
    except NoPlanError as error:
        return error.problems
    holds_what_it_promises(made, resolved(asked))
    return ()
