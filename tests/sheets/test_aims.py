"""What an attempt is to bring about: variants, and sheets that cost less and have room by area."""

from random import Random

import pytest

from nesting.sheets.aims import FILLED, Aim, aim_below
from nesting.sheets.choosing import UNIT
from nesting.sheets.clashing import clashes
from nesting.sheets.costs import cost_of
from nesting.sheets.moving_joints import joint_costs
from nesting.sheets.selecting import wanted
from nesting.sheets.tasks import Task, tasks_of
from tests.jobs import PLY, job, panel

LONG = {**PLY, "name": "long", "size": [3100, 1530], "price": "150.00"}


def task_of(*sheets: dict[str, object]) -> Task:
    """Two pairs of panels whose joints keep 250 apart."""
    asked = job(
        panel("side", 4300, 330, joint="scarf", quantity=2, no_joint=[[2000, 2200]]),
        panel("bilge", 4100, 280, joint="scarf", quantity=2),
        neighbours=[{"between": ["side", "bilge"], "shift": 250}],
        sheets=sheets,
    )
    return tasks_of(asked)[0]


def drawn(task: Task, cost: int, seed: int) -> Aim | None:
    """Return an aim of a task."""
    return aim_below(task, cost, Random(seed))


def aims(task: Task, cost: int, seeds: int = 20) -> list[Aim]:
    """Return those that so many seeds come to."""
    return [aim for seed in range(seeds) if (aim := drawn(task, cost, seed)) is not None]


@pytest.mark.parametrize("cost", [30_000, 40_000, 60_000])
def test_an_aim_costs_less_and_keeps_rules_and_has_room(cost: int) -> None:
    """Joints and sheets together stay below the limit, joints keep apart, and each sheet has room for its pieces."""
    task = task_of(PLY, LONG)
    found = aims(task, cost)
    assert found
    for aim in found:
        assert joint_costs(task, aim.variants) + cost_of(aim.stocks) < cost
        assert not clashes(task.job, [[variant] for variant in aim.variants])
        pieces = wanted(task.parts, aim.variants)
        there = {stock.index for stock in aim.stocks}
        assert all(kind.stocks & there for kind in pieces)
        area = sum(kind.area * count for kind, count in pieces.items())
        room = sum(stock.area for stock in aim.stocks)
        assert area <= FILLED / 100 * room + UNIT * len(pieces)


def test_the_roomiest_sheets_are_taken_for_the_most_part() -> None:
    """Two sheets have area enough; four and the joints cost less than 420, and so these are taken for the most part."""
    task = task_of(PLY)
    counts = [len(aim.stocks) for aim in aims(task, 42_000)]
    assert sum(counts) / len(counts) > 3


def test_unlike_sheets_are_aimed_at() -> None:
    """Some of both kinds, and some of either alone."""
    kinds = {frozenset(stock.index for stock in aim.stocks) for aim in aims(task_of(PLY, LONG), 60_000, 60)}
    assert len(kinds) == 3


def test_there_is_none_below_what_joints_and_area_cost() -> None:
    """One sheet costs 84 and the joints come on top."""
    assert aims(task_of(PLY), 8500) == []


def test_of_each_material_there_are_always_sheets() -> None:
    """Whatever is drawn: of two kinds of sheets that serve other panels each, neither is left out."""
    other = {**PLY, "name": "okoume", "material": "okoume", "price": "60.00"}
    asked = job(
        panel("side", 2300, 330, quantity=2), {**panel("seat", 900, 300), "material": "okoume"}, sheets=(PLY, other)
    )
    found = aims(tasks_of(asked)[0], 20_000)
    assert len(found) == 20
    assert all({stock.index for stock in aim.stocks} == {0, 1} for aim in found)
