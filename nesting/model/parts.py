"""What is asked for: panels, strips, and which of them are neighbours."""

from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from .base import Angle, Count, Gap, Name, Number, Size, Value, _plain_number
from .outline import Outline

#: Two stations: a stretch of a part, or a station of the part and the boat's station beside it.
Stretch = tuple[Number, Number]


class Panel(Value):
    """A part cut from sheet material.

    Attributes
    ----------
    outline : Outline
        In the panel's own frame: stations along x, offsets along y, seen on the good face.
    quantity : int
        Finished parts. If ``handed``, half of them are mirrored, and the outline shows the port one.
    grain : {"along", "across", "any"}
        How the face grain runs to the panel's x axis.
    grain_tolerance : float
        Degrees by which a piece may be turned off that direction, either way; without effect if grain is "any".
    shows : {"both", "good", "none"}
        Which faces are seen in the boat: a fault on the face that is not seen does no harm.
    joint : str or None
        Name of the joint rule by which it may be divided; None: in one piece.
    no_joint : tuple of (from, to)
        Stretches, in stations, where no part of a lap may lie.
    boat_stations : tuple of (own station, boat station)
        Map from own stations to the boat's, so that neighbours can be compared; linear between the rows.
    """

    name: Name
    material: Name
    grade: Name | None = None
    thickness: Size
    outline: Outline
    quantity: Count = 1
    handed: bool = False
    grain: Literal["along", "across", "any"] = "along"
    grain_tolerance: Angle = 0.0
    shows: Literal["both", "good", "none"] = "both"
    joint: Name | None = None
    no_joint: tuple[Stretch, ...] = ()
    boat_stations: tuple[Stretch, ...] = Field(default=(), max_length=200)


class Strip(Value):
    """A long straight member of constant section (width, thickness): stringer, gunwale, cleat.

    ``most_joints`` and ``least_piece`` hold for this strip; without the second its joint's own holds.
    """

    name: Name
    material: Name
    grade: Name | None = None
    section: tuple[Size, Size]
    length: Size
    quantity: Count = 1
    joint: Name | None = None
    no_joint: tuple[Stretch, ...] = ()
    most_joints: Annotated[int, BeforeValidator(_plain_number), Field(ge=0, le=100)] | None = None
    least_piece: Size | None = None


class Neighbours(Value):
    """Two panels whose joints must keep ``shift`` apart in boat stations, middle to middle."""

    between: tuple[Name, Name]
    shift: Gap
