"""Sheets that cost less from some number on: what is chosen, what is paid, and that it is audited."""

from collections import Counter
from decimal import Decimal
from pathlib import Path
from random import Random
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from test_more_or_cheaper import job_of, optimum, pooled, sizes, with_sheet

from benchmarks.verification import faults
from nesting.auditing import audit
from nesting.bounds import sheets_bound
from nesting.effort import Budget, Effort
from nesting.model import Job, Plan, PriceBreak, Purchase
from nesting.planner import plan
from nesting.report import report_files
from nesting.sheets.costs import by_the_many, cost_of, prices_at, prices_drawn
from nesting.sheets.stock import stock_of
from nesting.sheets.tasks import tasks_of
from tests.jobs import PLY, job, panel

LARGE = {**PLY, "name": "large", "size": [3100, 1530], "price": "120.00"}


def with_breaks(*breaks: tuple[int, int], **more: Any) -> dict[str, Any]:
    """Return the sheet for 84 with price breaks."""
    return {**PLY, "price_breaks": [{"at_least": count, "price": price} for count, price in breaks], **more}


def planned(asked: Job) -> Plan:
    """Return a plan within a small budget."""
    return plan(asked, effort=Effort(Budget(work=1500)))


def shelves(count: int, *sheets: dict[str, Any]) -> Job:
    """Return a job of shelves of which one fits a sheet of 2440 x 1220, and two fit a large one."""
    return job(panel("shelf", 2300, 740, quantity=count), sheets=sheets)


def bought(made: Plan) -> dict[str, tuple[int, Decimal, Decimal]]:
    """Return what the shopping list says, by stock."""
    return {line.stock: (line.count, line.price, line.cost) for line in made.purchases}


def test_five_sheets_at_the_lower_price_beat_fewer_large_ones() -> None:
    """By hand: five shelves on five sheets at 60 cost 300; at 84 two large ones and one, 324, are cheaper than 420."""
    made = planned(shelves(5, with_breaks((5, 60)), LARGE))
    assert bought(made) == {"ply": (5, Decimal(60), Decimal(300))}
    assert made.totals.to_pay == Decimal(300)
    assert bought(planned(shelves(5, PLY, LARGE))) == {
        "ply": (1, Decimal(84), Decimal(84)),
        "large": (2, Decimal(120), Decimal(240)),
    }


def test_more_are_bought_than_used_where_that_costs_less(tmp_path: Path) -> None:
    """By hand: four shelves, four sheets at 84 are 336, five at 60 only 300; the plan says so, and is verified."""
    made = planned(shelves(4, with_breaks((5, 60))))
    assert made.totals.sheets == 4
    assert bought(made) == {"ply": (5, Decimal(60), Decimal(300))}
    assert made.totals.proven
    (tmp_path / "plan.json").write_text(made.model_dump_json())
    assert not faults(tmp_path / "plan.json")
    page = report_files(made)["index.html"]
    assert '5 of "ply" cost 300.00, the 4 used would cost 336.00' in page.replace("&#34;", '"')


def test_spares_may_bring_the_price_down() -> None:
    """By hand: four used and one spare are five at 75, 375; without the spare 336, so it costs 39 more."""
    made = planned(shelves(4, with_breaks((5, 75), spare=1)))
    assert bought(made) == {"ply": (4, Decimal(84), Decimal(336))}
    shopping = report_files(made)["shopping-list.csv"]
    assert "ply,,sheet,2440 × 1220 × 6,4,1,84.00,336.00" in shopping
    assert "with them it comes to 375.00 EUR" in report_files(made)["index.html"]


@pytest.mark.parametrize(
    "line",
    [
        {"count": 4, "price": "84.00", "cost": "336.00"},
        {"count": 5, "price": "84.00", "cost": "420.00"},
        {"count": 4, "price": "60.00", "cost": "240.00"},
        {"count": 6, "price": "60.00", "cost": "360.00"},
    ],
)
def test_the_audit_works_the_price_out_anew(line: dict[str, Any], tmp_path: Path) -> None:
    """What is not the least that four cost is told, by both checks."""
    made = planned(shelves(4, with_breaks((5, 60))))
    wrong = made.model_copy(update={"purchases": (Purchase.model_validate({"stock": "ply", **line}),)})
    assert [finding.code for finding in audit(wrong, made.job)] == ["wrong-purchase"]
    (tmp_path / "plan.json").write_text(wrong.model_dump_json())
    assert faults(tmp_path / "plan.json") == [f"what is listed costs {line['cost']}"]


def test_sheets_within_blanks_count_for_the_break() -> None:
    """Two sides of one blank each and a shelf: five sheets, all at the lower price."""
    asked = job(
        panel("side", 4400, 1000, quantity=2, joint="scarf"),
        panel("shelf", 2300, 740),
        sheets=(with_breaks((5, 60)),),
        workshop={"way": "joined"},
    )
    made = planned(asked)
    assert len(made.blanks) == 2
    assert bought(made) == {"ply": (5, Decimal(60), Decimal(300))}


def test_a_first_plan_of_no_budget_pays_the_right_price() -> None:
    """Nothing is searched, and the audit has passed."""
    made = plan(shelves(6, with_breaks((5, 60))), effort=Effort(Budget(work=0)))
    assert made.totals.to_pay == Decimal(360)


@given(st.lists(st.integers(0, 1), max_size=12), st.integers(2, 8))
def test_the_search_reckons_as_the_shopping_list(kinds: list[int], at_least: int) -> None:
    """Whatever sheets are taken."""
    asked = shelves(1, with_breaks((at_least, 60), (at_least + 3, 41)), LARGE)
    stocks = [stock_of(asked)[kind] for kind in kinds]
    count = Counter(kinds)
    paid = sum(n * each for n, each in (asked.sheets[k].bought_for(c) for k, c in count.items()))
    assert cost_of(stocks) == paid * 100


@settings(max_examples=10)
@given(sizes, st.integers(2, 6), st.integers(1, 44))
def test_a_price_break_never_raises_the_cost_over_a_pool(
    parts: list[tuple[int, int, int]], at_least: int, price: int
) -> None:
    """Of the small sheet, of which there are as many as needed."""
    task, layouts = pooled(job_of(parts))
    layouts = with_sheet(layouts, 1, available=None)
    broken = with_sheet(layouts, 1, price_breaks=(PriceBreak(at_least=at_least, price=Decimal(price)),))
    assert optimum(task, broken) <= optimum(task, layouts)


@settings(max_examples=8)
@given(st.integers(1, 7), st.integers(2, 7), st.integers(40, 83))
def test_no_plan_costs_less_than_the_bound(count: int, at_least: int, price: int) -> None:
    """And for shelves that fit one to a sheet the bound is what they cost, by hand."""
    kind = with_breaks((at_least, price))
    asked = shelves(count, kind)
    made = planned(asked)
    assert sheets_bound(asked).amount <= made.totals.objective
    cheapest = min(n * (price if n >= at_least else 84) for n in range(count, count + 8))
    assert made.totals.objective == cheapest


@given(st.integers(1, 12), st.integers(2, 8), st.integers(10, 83), st.integers(1, 9))
@settings(max_examples=10)
def test_a_lower_break_never_raises_the_bound(count: int, at_least: int, price: int, less: int) -> None:
    """Nor does one that begins sooner."""
    bounds = [
        sheets_bound(shelves(count, with_breaks(*breaks), LARGE)).amount
        for breaks in ([], [(at_least + 1, price)], [(at_least, price)], [(at_least, price - less)])
    ]
    assert bounds == sorted(bounds, reverse=True)


def test_the_limit_of_a_stock_holds_for_what_is_bought_too() -> None:
    """Four are there: the break from five on is out of reach."""
    made = planned(shelves(4, with_breaks((5, 60), available=4)))
    assert bought(made) == {"ply": (4, Decimal(84), Decimal(336))}


def test_three_at_the_lower_price_are_found_beside_a_larger_sheet_that_seems_cheaper() -> None:
    """By hand, abreast with a kerf of 3: on 1200 go two of 510, or three of 297, so three sheets, 3 x 94 = 282.

    Two of 1510 do not hold all: three of 510 are too wide for one, and two leave room for one of 297 only. Where each
    sheet is reckoned by itself one of these and two small ones are found, 127 + 2 x 101 = 329.
    """
    small = with_breaks((3, 94), (8, 79), price="101.00")
    large = {**LARGE, "price": "127.00", "price_breaks": [{"at_least": 6, "price": 102}, {"at_least": 8, "price": 74}]}
    made = planned(job(panel("a", 2156, 297, quantity=3), panel("b", 2263, 510, quantity=4), sheets=(small, large)))
    assert bought(made) == {"ply": (3, Decimal(94), Decimal(282))}


def test_eight_of_the_smallest_sheet_are_found_where_one_by_one_a_large_one_is_better() -> None:
    """By hand: on a strip of 600 goes one of the eight, 8 x 25 = 200; on 1510 go four at the most: 126 + 4 x 32 = 254.

    Reckoned one by one a strip at 44 is dearer for its area than a large sheet at 126.
    """
    strip = {**PLY, "name": "strip", "size": [2440, 620], "price": "44.00"}
    strip["price_breaks"] = [{"at_least": 4, "price": 32}, {"at_least": 6, "price": 25}]
    large = {**LARGE, "price": "126.00", "price_breaks": [{"at_least": 3, "price": 110}]}
    parts = [panel("a", 1655, 447, quantity=5), panel("b", 1740, 346), panel("c", 1759, 347, quantity=2)]
    assert bought(planned(job(*parts, sheets=(strip, large)))) == {"strip": (8, Decimal(25), Decimal(200))}


def test_every_price_that_the_merchant_asks_is_drawn() -> None:
    """Of the sheet with two price breaks three, of the other one its own; and both at the most, where many are bought.

    A blank of two such sheets and a scarf of 2 + 6 x 1.2 = 9.20 comes down twice as far.
    """
    asked = job(panel("side", 4700, 600, joint="scarf"), sheets=(with_breaks((3, 60), (9, 41)), LARGE))
    stocks = tasks_of(asked)[-1].stocks
    drawn = [prices_drawn(stocks, Random(seed)) for seed in range(60)]
    assert {prices[0] for prices in drawn} == {8400, 6000, 4100}
    assert {prices[1] for prices in drawn} == {12000}
    assert by_the_many(stocks) == [0]
    (blank,) = [stock for stock in stocks if stock.blank and stock.takes == {0: 2} and stock.size[1] > 1000]
    assert prices_at(stocks, {})[blank.index] == 2 * 8400 + 920
    assert prices_at(stocks, {0: -1})[blank.index] == 2 * 4100 + 920
