"""A panel laid anywhere on a blank: what the audit says follows from plain arithmetic on one line."""

from hypothesis import assume, given
from hypothesis import strategies as st

from nesting.auditing import audit
from tests.auditing.good_blank_plan import BOTTOM, blank_plan
from tests.auditing.good_plan import lying, with_item, with_job

#: The scarf's lap, and its middle; the room left by an allowance of 1; the bottom's length and zone; the least piece.
LOW, LINE, HIGH, ROOM, LENGTH, ZONE, LEAST = 2376.0, 2398.0, 2420.0, (1.0, 4855.0), 4200.0, (2020.0, 3500.0), 300.0

#: Findings that the place along the blank decides.
ALONG = {"outside-sheet", "scarf-cut-into", "joint-station", "joint-spacing", "joint-outside", "no-joint-zone"}


def only_the_bottom():
    """Return the plan with nothing but the bottom."""
    plan = blank_plan()
    bottom = tuple(panel for panel in plan.job.panels if panel.name == "bottom")
    items = {kind: tuple(i for i in getattr(plan, kind) if i.part == "bottom") for kind in ("pieces", "joints")}
    return with_job(plan.model_copy(update=items), panels=bottom, neighbours=())


PLAN = only_the_bottom()


@given(st.floats(-2500, 5000), st.sampled_from([0, 180]), st.booleans())
def test_a_panel_laid_anywhere_on_a_blank_keeps_its_rules_or_is_found_out(west, angle, slipped):
    """Its joint is told where the scarf is, or slipped by one."""
    east, x = west + LENGTH, west + (LENGTH if angle else 0)
    station = LINE - west if angle == 0 else east - LINE
    edges = (ROOM[0] - west, east - ROOM[1], west - LOW, west - HIGH, east - LOW, east - HIGH)
    rules = (station - LEAST, LENGTH - station - LEAST, station + 22 - ZONE[0], station - 22 - ZONE[1])
    assume(all(abs(figure) > 1.01 for figure in (*edges, *rules, station, LENGTH - station)))
    assume(west < LOW < east or west < HIGH < east)
    plan = with_item(PLAN, "pieces", "bottom-1-1", outline=lying(BOTTOM, x, 611, angle), x=x, angle=angle)
    plan = with_item(plan, "joints", "bottom-1/J1", station=station + slipped)
    expected = set()
    if max(edges[:2]) > 0:
        expected.add("outside-sheet")
    whole = west < LOW and east > HIGH
    expected |= {"joint-station"} if whole and slipped else set() if whole else {"scarf-cut-into"}
    if min(station, LENGTH - station) < LEAST:
        expected.add("joint-spacing")
    if not 0 < station < LENGTH:
        expected.add("joint-outside")
    elif rules[2] > 0 > rules[3]:
        expected.add("no-joint-zone")
    assert {finding.code for finding in audit(plan)} & ALONG == expected
