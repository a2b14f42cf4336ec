"""Which ends of a piece are joined, and on which face those of a scarf are bevelled.

One rule for the whole boat: the piece on the side of the low stations is bevelled on its back, the other on its good
face. As all pieces lie good face up, the first has its bevel underneath and the other on top, and on the good face of
the joined part the glue line shows at the high end of the lap. The ends of a butt are square.

A strip that is scarfed across its width lies wide face up with its stations rising to the right: the first piece is
bevelled on the edge below, the other on the edge above, and on the face the glue line slants through the lap.

In a blank the same holds along its x axis, for the sheets that it is made of.
"""

import math
from dataclasses import dataclass

from nesting.model import BlankScarf, Joint, PanelPiece, Plan, PlankScarf, StripPiece

from .codes import joint_codes
from .remembering import once_for_a_plan


@dataclass(frozen=True, kw_only=True)
class JointEnd:
    """One end of one piece, to be joined to another piece.

    Attributes
    ----------
    code : str
        The joint's code.
    high_end : bool
        Whether it is the piece's end towards the rising stations: so of the piece on the low side.
    """

    code: str
    joint: Joint
    high_end: bool

    @property
    def bevel_face(self) -> str:
        """The face of the part on which the bevel of a scarf is planed: an edge, if it runs through the width."""
        if self.joint.across == "width":
            return "lower edge" if self.high_end else "upper edge"
        return "back" if self.high_end else "good face"

    @property
    def lies(self) -> str:
        """Where the bevel is as the piece lies on its sheet or length."""
        if self.joint.across == "width":
            return f"on the {self.bevel_face}"
        return "underneath" if self.high_end else "on top"

    @property
    def feather(self) -> float:
        """Station where the piece ends: in the thin edge of a scarf, or square at a butt."""
        return self.joint.station + self._outward * self.joint.lap / 2

    @property
    def heel(self) -> float:
        """Station up to which the joint reaches into the piece: where the bevel begins, or where the strap ends."""
        return self.joint.station - self._outward * max(self.joint.lap, self.joint.strap) / 2

    @property
    def _outward(self) -> float:
        return 1.0 if self.high_end else -1.0


@dataclass(frozen=True, kw_only=True)
class Crossing:
    """A scarf of a blank or long plank that runs across a piece cut from it, as one of the part's own joints."""

    code: str
    joint: Joint
    scarf: BlankScarf | PlankScarf


@once_for_a_plan
def joint_ends(plan: Plan) -> dict[str, tuple[JointEnd, ...]]:
    """Return the joined ends of each piece by its id, from the low stations; none for a whole part."""
    codes = joint_codes(plan)
    ends: dict[str, tuple[JointEnd, ...]] = {piece.id: () for piece in plan.pieces}
    for joint in sorted(_divisions(plan), key=lambda joint: joint.station):
        for piece_id, high_end in zip(joint.pieces, (True, False), strict=True):
            ends[piece_id] += (JointEnd(code=codes[joint.id], joint=joint, high_end=high_end),)
    return ends


@once_for_a_plan
def crossings(plan: Plan) -> dict[str, tuple[Crossing, ...]]:
    """Return the scarfs of blanks and long planks across each piece by its id, from the low stations; mostly none."""
    codes = joint_codes(plan)
    scarfs: dict[str, BlankScarf | PlankScarf] = {scarf.id: scarf for blank in plan.blanks for scarf in blank.scarfs}
    scarfs |= {scarf.id: scarf for plank in plan.long_planks for scarf in plank.scarfs}
    across: dict[str, tuple[Crossing, ...]] = {piece.id: () for piece in plan.pieces}
    for joint in sorted(plan.joints, key=lambda joint: joint.station):
        if joint.scarf:
            crossing = Crossing(code=codes[joint.id], joint=joint, scarf=scarfs[joint.scarf])
            across[joint.pieces[0]] += (crossing,)
    return across


def visible_line(joint: Joint, piece: PanelPiece | StripPiece) -> float:
    """Return the station of the glue line on the good face of the joined part.

    Parameters
    ----------
    piece : PanelPiece or StripPiece
        One piece of the joint. Cut from a blank it may lie with its stations falling along the blank, whose scarfs
        show at the high end of their laps.
    """
    falling = joint.scarf and isinstance(piece, PanelPiece) and math.cos(math.radians(piece.angle)) < 0
    return joint.station - joint.lap / 2 if falling else joint.station + joint.lap / 2


def _divisions(plan: Plan) -> list[Joint]:
    """Return the joints between two pieces."""
    return [joint for joint in plan.joints if not joint.scarf]
