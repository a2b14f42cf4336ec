"""Cutting plans and plans of spliced strips are checked without what made them."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from benchmarks.data import CuttingInstance, SpliceInstance, SpliceShift, SpliceStock, SpliceStrip
from benchmarks.verifying import CutPiece, Pattern, SplicedLength, cutting_faults, splicing_cost, splicing_faults

THIRTY_FOURS = CuttingInstance("nine 34s", "ours", 100, ((34, 9),), (5, 5), 5)


def test_a_cutting_plan_that_covers_the_demand_is_sound() -> None:
    """Nine 34s from stock of 100 need five lengths: two fit on each; the tenth is more than wanted, and no fault."""
    assert cutting_faults(THIRTY_FOURS, [Pattern(4, {34: 2}), Pattern(1, {34: 1})]) == []
    assert cutting_faults(THIRTY_FOURS, [Pattern(5, {34: 2})]) == []


@pytest.mark.parametrize(
    ("patterns", "told"),
    [
        ([Pattern(3, {34: 3})], "pattern 0: 102 is longer than 100"),
        ([Pattern(4, {34: 2})], "8 of 34 are cut, not 9"),
        ([Pattern(5, {34: 2}), Pattern(0, {34: 1})], "pattern 1 has a count below 1"),
        ([Pattern(5, {34: 2}), Pattern(1, {33: -1})], "pattern 1 has a count below 1"),
        ([], "0 of 34 are cut, not 9"),
    ],
)
def test_each_damage_to_a_cutting_plan_is_told(patterns: list[Pattern], told: str) -> None:
    """Too long, too few, counts that are none."""
    assert told in cutting_faults(THIRTY_FOURS, patterns)


#: Two gunwales of 5000 from lengths of 3000: each is joined once, at laps of 100 that start 600 apart.
GUNWALES = SpliceInstance(
    name="gunwales", family="ours", kerf=3, lap=100, least_piece=400, joint_cost=80,
    stock=(SpliceStock(3000, 500, 3, ()), SpliceStock(2700, 300, None, ((300, 320),))),
    strips=(SpliceStrip(5000, 2, ((2400, 2600),), 1), SpliceStrip(250, 1, (), 0)),
    shift=(SpliceShift((0, 0), (0, 1), 600),),
    study_cost=0, study_bound=0, study_proven=False,
)  # fmt: skip

#: Copy 0 laps from 2300 to 2400, copy 1 from 2900 to 3000; the cleat fills the end of a length to its last kerf.
PLAN = (
    SplicedLength(0, (CutPiece(0, 0, 0, 0, 2400), CutPiece(1, 0, 0, 2403, 2653))),
    SplicedLength(0, (CutPiece(0, 0, 1, 0, 2700),)),
    SplicedLength(0, (CutPiece(0, 1, 0, 0, 3000),)),
    SplicedLength(1, (CutPiece(0, 1, 1, 323, 2423),)),
)


def with_piece(number: int, piece: int, change: Callable[[CutPiece], CutPiece]) -> tuple[SplicedLength, ...]:
    """Return the plan with one piece changed."""
    pieces = tuple(change(old) if index == piece else old for index, old in enumerate(PLAN[number].pieces))
    return (*PLAN[:number], replace(PLAN[number], pieces=pieces), *PLAN[number + 1 :])


def stretched(start: float, end: float) -> Callable[[CutPiece], CutPiece]:
    """Return a change of where a piece is cut."""
    return lambda piece: replace(piece, start=piece.start + start, end=piece.end + end)


def test_a_sound_plan_of_spliced_strips() -> None:
    """A whole strip may be shorter than the least piece; three lengths at 500, one at 300, two joints at 80."""
    assert splicing_faults(GUNWALES, PLAN) == []
    assert splicing_cost(GUNWALES, PLAN) == 3 * 500 + 300 + 2 * 80


@pytest.mark.parametrize(
    ("plan", "told"),
    [
        (with_piece(3, 0, stretched(-10, -10)), "length 3: a piece from 313 to 2413 lies on a fault"),
        (with_piece(0, 1, stretched(-1, -1)), "length 0: pieces are not a kerf apart at 2400"),
        (with_piece(2, 0, stretched(1, 1)), "length 2: a piece from 1 to 3001 is not within it"),
        (with_piece(1, 0, stretched(0, -1)), "strip 0, copy 0: comes out 4999 long, not 5000"),
        (with_piece(1, 0, lambda old: replace(old, order=2)), "strip 0, copy 0: its pieces are not counted one by one"),
        (PLAN[:3], "strip 0, copy 1: comes out 3000 long, not 5000"),
        (PLAN[:2], "copy 1 of strip 0 is missing"),
        (with_piece(0, 1, lambda old: replace(old, strip=2)), "copy 0 of strip 2 is not asked for"),
        ((*PLAN, SplicedLength(0, ())), "4 of stock 0 are used, 3 are there"),
        (
            (*with_piece(0, 0, stretched(0, -1))[:1], *with_piece(1, 0, stretched(0, 1))[1:]),
            "",
        ),
    ],
)
def test_each_damage_to_spliced_strips_is_told(plan: tuple[SplicedLength, ...], told: str) -> None:
    """By name of the length or strip; moving a joint away from its zone is none."""
    found = splicing_faults(GUNWALES, plan)
    assert told in found if told else found == []


@pytest.mark.parametrize(
    ("changes", "told"),
    [
        (
            {"shift": (SpliceShift((0, 0), (0, 1), 601),)},
            "laps of (0, 0) and (0, 1) start 600 apart, not 601",
        ),
        (
            {"strips": (SpliceStrip(5000, 2, ((2399, 2600),), 1), GUNWALES.strips[1])},
            "strip 0, copy 0: the lap that starts at 2300 reaches into a no-joint stretch",
        ),
        (
            {"strips": (SpliceStrip(5000, 2, (), 0), GUNWALES.strips[1])},
            "strip 0, copy 0: has 1 joints, not at most 0",
        ),
        ({"least_piece": 2101}, "strip 0, copy 1: a piece is shorter than 2101"),
        ({"kerf": 4}, "length 0: pieces are not a kerf apart at 2400"),
    ],
)
def test_rules_a_hair_tighter_are_broken(changes: dict[str, object], told: str) -> None:
    """The plan keeps each of them exactly."""
    assert told in splicing_faults(replace(GUNWALES, **changes), PLAN)
