"""A long part as it is when finished: its joints, where none may be, and the joints of its neighbours beside them."""

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from shapely.geometry import Polygon, box

from nesting.model import Joint, Panel, PanelPiece, Plan, StrapPiece, Strip, StripPiece
from nesting.outlines import boat_station, no_joint_zones, polygon

from .codes import joint_codes
from .joint_ends import visible_line
from .register_marks import marks_of
from .tape import Tape, tape_in

#: Station, kind, band, line and marks of a joint.
_Key = tuple[float, str, float, float | None, tuple[float, float] | tuple[()]]

#: More codes of joints than these at one place are told by the first and the last.
MOST_CODES = 4


@dataclass(frozen=True, kw_only=True)
class JointPlace:
    """A joint in one or several copies of a part.

    Attributes
    ----------
    station : float
        Its middle, in the part's own stations.
    boat : float
        The same in the boat's stations; of a strip its own.
    band : float
        Length of the lap or of the strap along the part.
    line : float or None
        Station at which the glue line of a scarf shows on the good face; None for a butt, and for a line that slants.
    marks : (float, float), or nothing
        Stations of the register marks on both sides; none where a blank was scarfed before the part was cut from it.
    codes : tuple of str
        Of the joints of all copies that have theirs here.
    """

    station: float
    boat: float
    kind: str
    band: float
    line: float | None
    marks: tuple[float, float] | tuple[()]
    codes: tuple[str, ...]

    @property
    def named(self) -> str:
        """Its codes in few words."""
        return " ".join(self.codes) if len(self.codes) <= MOST_CODES else f"{self.codes[0]} … {self.codes[-1]}"


@dataclass(frozen=True, kw_only=True)
class Beside:
    """A neighbour, seen along the stations of the part: from where to where it runs there, and its joints."""

    name: str
    shift: float
    reach: tuple[float, float]
    joints: tuple[tuple[float, JointPlace], ...]


@dataclass(frozen=True, kw_only=True)
class WholePart:
    """A finished part in its own frame: of a strip the ``shape`` is as wide as it is to be drawn."""

    name: str
    shape: Polygon
    boat_stations: tuple[tuple[float, float], ...]
    zones: tuple[tuple[float, float], ...]
    joints: tuple[JointPlace, ...]
    beside: tuple[Beside, ...]


def jointed_parts(plan: Plan) -> tuple[str, ...]:
    """Return the names of the parts that have joints, panels before strips, each in the order of the job."""
    jointed = {joint.part for joint in plan.joints}
    return tuple(part.name for part in _parts(plan) if part.name in jointed)


def whole_part(plan: Plan, name: str, *, strip_width: float) -> WholePart:
    """Return a part by its name, a strip as wide as given.

    Raises
    ------
    ValueError
        If the job asks for no such part.
    """
    part = _part(plan, name)
    shape = polygon(part.outline) if isinstance(part, Panel) else box(0.0, 0.0, part.length, strip_width)
    return WholePart(
        name=name,
        shape=shape,
        boat_stations=_map(part),
        zones=no_joint_zones(plan.job, part) if isinstance(part, Panel) else part.no_joint,
        joints=joint_places(plan, name),
        beside=tuple(_beside(plan, part)),
    )


def joint_places(plan: Plan, name: str, copy: int | None = None) -> tuple[JointPlace, ...]:
    """Return where a part has joints in any of its copies, or in one of them, rising."""
    rows, codes = _map(_part(plan, name)), joint_codes(plan)
    pieces = {piece.id: piece for piece in plan.pieces if not isinstance(piece, StrapPiece)}
    found: dict[_Key, list[str]] = defaultdict(list)
    for joint in plan.joints:
        if joint.part == name and copy in (None, joint.copy_number):
            found[_key(joint, pieces[joint.pieces[0]], tape_in(plan))].append(codes[joint.id])
    return tuple(
        JointPlace(
            station=station,
            boat=boat_station(station, rows),
            kind=kind,
            band=band,
            line=line,
            marks=marks,
            codes=tuple(there),
        )
        for (station, kind, band, line, marks), there in sorted(found.items(), key=lambda item: item[0][0])
    )


def nearest_pair(part: WholePart, beside: Beside) -> tuple[JointPlace, JointPlace] | None:
    """Return the joint of a part and that of its neighbour that are nearest along the boat; None without either.

    A joint is not held against itself, of a strip whose copies are each other's neighbours.
    """
    pairs = (
        (own, other) for own in part.joints for _, other in beside.joints if not set(own.codes) <= set(other.codes)
    )
    return min(pairs, key=lambda pair: abs(pair[0].boat - pair[1].boat), default=None)


def _key(joint: Joint, piece: PanelPiece | StripPiece, tape: Tape) -> _Key:
    """Return what tells joints of several copies apart, to a tenth of a millimetre."""
    shows = joint.kind == "scarf" and joint.across == "thickness"
    line = round(visible_line(joint, piece), 1) if shows else None
    middle = round(joint.station, 1)
    marks = () if joint.scarf else marks_of(joint, middle, tape)
    return middle, joint.kind, max(joint.lap, joint.strap), line, marks


def _parts(plan: Plan) -> tuple[Panel | Strip, ...]:
    return (*plan.job.panels, *plan.job.strips)


def _part(plan: Plan, name: str) -> Panel | Strip:
    for part in _parts(plan):
        if part.name == name:
            return part
    raise ValueError(f"the job asks for no part {name}")


def _map(part: Panel | Strip) -> tuple[tuple[float, float], ...]:
    return part.boat_stations if isinstance(part, Panel) else ()


def _beside(plan: Plan, part: Panel | Strip) -> Iterator[Beside]:
    """Yield a part's neighbours; of a strip that is its own, each of its copies."""
    back = tuple((boat, own) for own, boat in _map(part))
    for pair in plan.job.neighbours:
        if part.name in pair.between:
            other = _part(plan, pair.between[pair.between[0] == part.name])
            for name, joints in _joints_of(plan, part, other):
                places = tuple((boat_station(joint.boat, back), joint) for joint in joints)
                start, end = (boat_station(place, back) for place in _boat_reach(other))
                yield Beside(name=name, shift=pair.shift, reach=(start, end), joints=places)


def _joints_of(plan: Plan, part: Panel | Strip, other: Panel | Strip) -> Iterator[tuple[str, tuple[JointPlace, ...]]]:
    if part.name != other.name:
        yield other.name, joint_places(plan, other.name)
        return
    for copy in range(1, other.quantity + 1):
        yield f"{other.name}, copy {copy}", joint_places(plan, other.name, copy)


def _boat_reach(part: Panel | Strip) -> tuple[float, float]:
    """Return from where to where along the boat a part runs."""
    left, _, right, _ = polygon(part.outline).bounds if isinstance(part, Panel) else (0.0, 0.0, part.length, 0.0)
    rows = _map(part)
    return boat_station(left, rows), boat_station(right, rows)
