"""Which ends of a piece are bevelled for a scarf, and on which face.

One rule for the whole boat: the piece on the side of the low stations is bevelled on its back, the other on its good
face. As all pieces lie good face up, the first has its bevel underneath and the other on top, and on the good face of
the joined part the glue line shows at the high end of the lap.
"""

from dataclasses import dataclass

from nesting.model import Joint, Plan

from .codes import joint_codes


@dataclass(frozen=True, kw_only=True)
class JointEnd:
    """One end of one piece, to be bevelled.

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
        """The face of the panel on which the bevel is planed."""
        return "back" if self.high_end else "good face"

    @property
    def lies(self) -> str:
        """Where the bevel is as the piece lies on its sheet."""
        return "underneath" if self.high_end else "on top"

    @property
    def feather(self) -> float:
        """Station of the thin edge, where the piece ends."""
        return self.joint.station + self._outward * self.joint.lap / 2

    @property
    def heel(self) -> float:
        """Station at which the bevel begins, at full thickness."""
        return self.joint.station - self._outward * self.joint.lap / 2

    @property
    def _outward(self) -> float:
        return 1.0 if self.high_end else -1.0


def visible_line(joint: Joint) -> float:
    """Return the station of the glue line on the good face of the joined part."""
    return joint.station + joint.lap / 2


def joint_ends(plan: Plan) -> dict[str, tuple[JointEnd, ...]]:
    """Return the bevelled ends of each piece by its id, from the low stations; none for a whole part."""
    codes = joint_codes(plan)
    ends: dict[str, tuple[JointEnd, ...]] = {piece.id: () for piece in plan.pieces}
    for joint in sorted(plan.joints, key=lambda joint: joint.station):
        for piece_id, high_end in zip(joint.pieces, (True, False), strict=True):
            ends[piece_id] += (JointEnd(code=codes[joint.id], joint=joint, high_end=high_end),)
    return ends
