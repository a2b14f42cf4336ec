"""A plan in the words of the panels study."""

from shapely.geometry import box

from benchmarks.panels_as_job import _on_sheets
from tests.auditing.good_blank_plan import blank_plan


def shares(start: float, end: float) -> list[tuple[int, float]]:
    """Return the sheets, and the length on each, of a part that lies on the blank from x to x."""
    plan = blank_plan()
    place = {used.id: index for index, used in enumerate(plan.used)}
    part = box(start, 100, end, 350)
    told = _on_sheets(plan, place, plan.blanks[0].id, part)
    return [(index, round(share.bounds[2] - share.bounds[0], 6)) for index, _, _, share in told]


def test_a_part_that_but_touches_the_next_sheet_lies_on_one() -> None:
    """It is over the edge of the second sheet, at 2376, by a rounding."""
    assert shares(2000, 2376 + 2e-9) == [(0, 376)]


def test_a_part_across_the_scarf_lies_on_both_with_the_lap() -> None:
    """Together as long as the part and the lap."""
    at, lap = blank_plan().blanks[0].scarfs[0].at, blank_plan().blanks[0].scarfs[0].lap
    there = shares(at - 300, at + 300)
    assert len(there) == 2
    assert sum(length for _, length in there) == 600 + lap
