"""What the audit says of a plan of a panel wider than any sheet in which one thing was spoilt."""

import pytest

from nesting.auditing import audit
from nesting.model import Plan
from tests.auditing.good_blank_plan import rectangle, with_blank, with_member
from tests.auditing.good_plan import moved, with_panel
from tests.auditing.good_wide_plan import wide_plan


def codes(made: Plan) -> set[str]:
    """Return the codes of all findings."""
    return {finding.code for finding in audit(made, made.job)}


def with_scarfs(made: Plan, place: int, **changes: object) -> Plan:
    """Return the plan with one scarf of its blank changed."""
    scarfs = list(made.blanks[0].scarfs)
    scarfs[place] = scarfs[place].model_copy(update=changes)
    return with_blank(made, scarfs=tuple(scarfs))


DAMAGES = {
    "an upper sheet a lap too high": (lambda p: with_member(p, 1, y=p.blanks[0].members[1].y + 48), {"blank-lap"}),
    "a scarf along that is told to run across": (lambda p: with_scarfs(p, 1, runs="across"), {"blank-scarf"}),
    "a scarf along that begins elsewhere": (lambda p: with_scarfs(p, 2, begins=2420.0), {"blank-scarf"}),
    "a scarf along for nothing": (
        lambda p: with_scarfs(p, 1, cost=p.blanks[0].scarfs[1].cost - 1),
        {"blank-scarf-cost", "wrong-total"},
    ),
    "a strip that is no equal part": (
        lambda p: with_member(p, 1, outline=rectangle(10, 10, 2430, 400)),
        {"blank-member"},
    ),
    "two strips from one place": (
        lambda p: with_member(p, 3, outline=p.blanks[0].members[1].outline, y=p.blanks[0].members[1].y),
        {"member-twice"},
    ),
    "a floor that must be in one piece": (
        lambda p: with_panel(p, "floor", joint=None),
        {"wrong-hash", "joint-not-allowed"},
    ),
}


def test_nothing_is_wrong_with_it() -> None:
    """Two members of one sheet and a cleat from the rest of it keep a kerf apart."""
    made = wide_plan()
    assert codes(made) == set()
    assert {scarf.runs for scarf in made.blanks[0].scarfs} == {"across", "along"}


@pytest.mark.parametrize("name", DAMAGES)
def test_a_spoilt_wide_blank_is_found_out(name: str) -> None:
    """Each damage gives the findings that it deserves and no others."""
    damage, expected = DAMAGES[name]
    assert codes(damage(wide_plan())) - {"wrong-hash"} == expected - {"wrong-hash"}


def test_what_is_cut_beside_a_member_leaves_room_for_the_saw() -> None:
    """Moved down by a kerf the cleat touches the strip for the blank."""
    made = wide_plan()
    ripped = made.blanks[0].members[-1].used
    (cleat,) = (piece for piece in made.pieces if piece.part == "cleat")
    assert cleat.on == ripped
    low = min(y for _, y in cleat.outline) - max(
        y for m in made.blanks[0].members for _, y in m.outline if m.used == ripped
    )
    assert "on-member" in codes(moved(made, cleat.id, 0, -low))
