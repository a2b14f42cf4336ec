"""What holds of every blank that is looked at, and of every panel on one."""

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from nesting.effort import Budget, Effort
from nesting.model import NoPlanError, PanelPiece
from nesting.planner import plan
from nesting.report import joint_schedule
from nesting.sheets.tasks import tasks_of
from tests.jobs import PLY, SCARF, job, panel


@settings(max_examples=15)
@given(
    lengths=st.lists(st.integers(1200, 3100), min_size=1, max_size=2, unique=True),
    width=st.integers(400, 1530),
    trim=st.integers(0, 15),
    kerf=st.integers(0, 6),
    slope=st.integers(6, 12),
    allowance=st.sampled_from([0, 3]),
    height=st.integers(100, 2200),
)
def test_a_blank_is_as_long_and_wide_as_its_members_less_their_laps(
    lengths: list[int], width: int, trim: int, kerf: int, slope: int, allowance: int, height: int
) -> None:
    """Members next to one another overlap just where the scarf is told, and the blank is what they cover."""
    sheets = tuple({**PLY, "name": str(length), "size": [length, width]} for length in lengths)
    asked = job(
        panel("part", max(lengths) + 500, height, joint="scarf"),
        sheets=sheets,
        joints={"scarf": {**SCARF, "slope": slope, "least_piece": 100}},
        workshop={"way": "joined", "trim": trim, "kerf": kerf, "allowance": allowance},
    )
    try:
        stocks = tasks_of(asked)[0].stocks
    except NoPlanError:
        return
    for stock in (stock for stock in stocks if stock.blank is not None):
        blank, lap = stock.blank, slope * 6
        rows = len(blank.seams) + 1
        columns = [blank.members[k : k + rows] for k in range(0, len(blank.members), rows)]
        along = [column[0].there.bounds for column in columns]
        up = [member.there.bounds for member in columns[0]]
        assert stock.whole.bounds[2] == pytest.approx(sum(b[2] - b[0] for b in along) - (len(along) - 1) * lap)
        assert stock.whole.bounds[3] == pytest.approx(sum(b[3] - b[1] for b in up) - (rows - 1) * lap)
        for at, (one, other) in zip(blank.lines, pairwise(along), strict=True):
            assert (other[0], one[2]) == pytest.approx((at - lap / 2, at + lap / 2))
        for at, (one, other) in zip(blank.seams, pairwise(up), strict=True):
            assert (other[1], one[3]) == pytest.approx((at - lap / 2, at + lap / 2))


@settings(max_examples=6)
@given(
    sizes=st.lists(st.tuples(st.integers(2600, 4700), st.integers(150, 500)), min_size=1, max_size=3),
    handed=st.booleans(),
)
def test_stations_worked_out_from_where_a_panel_lies_are_those_of_the_schedule(
    sizes: list[tuple[int, int]], handed: bool
) -> None:
    """A scarf at x lies at station x - offset, or at offset - x where the panel lies end for end."""
    panels = [
        panel(f"p{k}", length, width, joint="scarf", quantity=2, handed=handed)
        for k, (length, width) in enumerate(sizes)
    ]
    made = plan(job(*panels, workshop={"way": "joined"}), effort=Effort(Budget(work=60)))
    worked_out = []
    for piece in (p for p in made.pieces if isinstance(p, PanelPiece)):
        (blank,) = [blank for blank in made.blanks if blank.id == piece.on]
        length = sizes[int(piece.part[1:])][0]
        across = [scarf.at for scarf in blank.scarfs if scarf.runs == "across"]
        own = [x - piece.x if piece.angle == 0 else piece.x - x for x in across]
        worked_out += [(piece.part, round(Fraction(station), 0)) for station in own if 0 < station < length]
    *rows, _ = [line.split(",") for line in joint_schedule(made).splitlines()[1:]] + [[]]
    head = joint_schedule(made).splitlines()[0].split(",")
    told = [(row[head.index("part")], round(Fraction(row[head.index("station")]), 0)) for row in rows]
    assert sorted(told) == sorted(worked_out)
    assert told
