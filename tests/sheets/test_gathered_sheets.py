"""In the end the pieces on each sheet are gathered, so that what is left of it is one large piece."""

from shapely.geometry import Polygon

from nesting.effort import Budget, Effort
from nesting.model import Job, Share
from nesting.sheets import sheet_plans
from tests.jobs import job, panel


def last_share(asked: Job, work: int) -> Share:
    """Return the last share of a search that is told after each plan that it is cheap enough."""
    *_, share = sheet_plans(asked, seed=0, effort=Effort(Budget(work=work)), enough=lambda: True)
    return share


def largest(share: Share) -> float:
    """Return the area of the largest offcut."""
    return max(Polygon(offcut.outline).area for offcut in share.offcuts)


def test_frames_that_go_abreast_leave_the_whole_width_of_the_rest() -> None:
    """Of 2420 x 1200 three of 600 x 390 abreast take 600 or a little more: two kerfs and 3 x 390 are 1176."""
    share = last_share(job(panel("frame", 600, 390, quantity=3, grain="any")), work=4000)
    assert largest(share) > 0.95 * (2420 - 603) * 1200


def test_gathering_changes_neither_sheets_nor_joints() -> None:
    """The pieces lie elsewhere, that is all."""
    asked = job(panel("frame", 600, 390, quantity=3), panel("side", 3600, 300, quantity=2, joint="scarf"))
    shares = list(sheet_plans(asked, seed=0, effort=Effort(Budget(work=1500))))
    best, gathered = shares[-2], shares[-1]
    assert (gathered.used, gathered.joints) == (best.used, best.joints)
    assert {piece.id for piece in gathered.pieces} == {piece.id for piece in best.pieces}
    areas = [[Polygon(offcut.outline).area for offcut in share.offcuts] for share in (best, gathered)]
    assert sum(areas[1]) + max(areas[1]) >= sum(areas[0]) + max(areas[0])
