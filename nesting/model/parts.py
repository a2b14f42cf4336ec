"""What is asked for: panels, strips, and which of them are neighbours."""

from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from .base import Angle, Count, Gap, Name, Number, Size, Value, _plain_number
from .outline import Outline

#: Two stations: a stretch of a part, or a station of the part and the boat's station beside it.
Stretch = tuple[Number, Number]


#: How many joints one part may have at the most; none at all is one piece.
MostJoints = Annotated[int, BeforeValidator(_plain_number), Field(ge=0, le=100)]

#: Grams of cloth to the square metre.
ClothWeight = Annotated[float, BeforeValidator(_plain_number), Field(ge=0, le=2000)]


class Coating(Value):
    """What each face of a panel is coated with: resin over a cloth of so many grams per square metre, 0 for none.

    A face left out (None) stays bare. It changes no plan: amounts of resin and cloth follow from it.
    """

    good: ClothWeight | None = None
    back: ClothWeight | None = None


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
    most_joints : int or None
        Most joints in one of it, those that run across it from a blank too; None: as many as it takes.
    frames : tuple of str
        Names of frames that its joints keep off.
    forward : {"low", "high"} or None
        Which end, by its stations, looks to the bow when it is built in; None: it lies athwart, or nobody said.
    boat_stations : tuple of (own station, boat station)
        Map from own stations to the boat's, so that neighbours can be compared; linear between the rows.
    coated : Coating or None
        Resin and cloth on its faces; None: nothing is said of them.
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
    most_joints: MostJoints | None = None
    frames: tuple[Name, ...] = Field(default=(), max_length=100)
    forward: Literal["low", "high"] | None = None
    boat_stations: tuple[Stretch, ...] = Field(default=(), max_length=200)
    coated: Coating | None = None


class Strip(Value):
    """A long straight member of constant section (width, thickness): stringer, gunwale, cleat.

    ``most_joints`` and ``least_piece`` hold for this strip; without the second its joint's own holds. The bevel of its
    scarf runs through the thickness, so that the glue line lies on the wide face, or through the width. Copies of one
    that is ``matched`` go in pairs, port and starboard, 1 and 2, 3 and 4, whose joints lie at the same stations.
    ``prefer`` are stretches, bent less than the rest, where joints are better: among plans that cost the same.
    """

    name: Name
    material: Name
    grade: Name | None = None
    section: tuple[Size, Size]
    length: Size
    quantity: Count = 1
    joint: Name | None = None
    no_joint: tuple[Stretch, ...] = ()
    prefer: tuple[Stretch, ...] = ()
    matched: bool = False
    most_joints: MostJoints | None = None
    least_piece: Size | None = None
    scarf_across: Literal["thickness", "width"] = "thickness"

    @property
    def bevelled(self) -> float:
        """The measure of the section that the bevel runs through: a lap is slope x this."""
        return self.section[0] if self.scarf_across == "width" else self.section[1]

    @property
    def joint_width(self) -> float:
        """How wide the bevel is: the other measure of the section."""
        return self.section[1] if self.scarf_across == "width" else self.section[0]


class Frame(Value):
    """A frame, mould or bulkhead at a ``station`` of the boat: laps and straps end ``clear`` of it, on either side.

    That holds for the panels that name it; the distance is measured along each panel.
    """

    name: Name
    station: Number
    clear: Gap = 0.0


class Neighbours(Value):
    """Two panels, or two strips, whose joints keep ``shift`` apart, middle to middle, whichever copies they are in.

    Panels are compared in boat stations, strips in their own, counted from the end from which their zones count. A
    strip may be its own neighbour: then joints in two copies of it keep apart.
    """

    between: tuple[Name, Name]
    shift: Gap
