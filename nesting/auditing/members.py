"""One copy of a panel or strip seen along its length: what the rules of joints speak of."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import accumulate

from shapely.geometry import Polygon

from nesting.model import TOLERANCE, Joint, JointRule, Panel, Sheet, Strip, StripPiece

from .crossings import Crossing, crossings
from .geometry import drawn_in, flattened, own_shape, width_at
from .neighbours import boat_station
from .parts import Copies
from .register import Register, in_words
from .rules import band_of, lap_of, strap_of
from .stock import trim_of, whole_sheet
from .true_blank import TrueBlank, blank_under, is_from_blank


@dataclass(frozen=True)
class Member:
    """One copy of a part.

    Attributes
    ----------
    start, end : float
        Stations of its ends.
    pieces : tuple of str
        Ids of its pieces from the low stations up.
    extents : tuple of (low, high)
        Stations between which each of these pieces reaches; empty if that can't be told.
    joints : tuple of Joint
        From the low stations up.
    width_at : callable
        Width of the part at a station.
    thickness : float
        What a bevel runs through, ``across`` says which measure of the section.
    least_piece, most_joints : float or None, int or None
        What holds for this part instead of or beside its rule.
    from_blank : bool
        Whether it is cut whole from a blank, or from a long plank.
    blank : TrueBlank or None
        What that blank must be; None also if that can't be told.
    crossings : tuple of Crossing
        Scarfs of that blank whose laps reach into it.
    too_wide : bool
        Whether it is a panel that is higher than every sheet is wide from which it may be cut.
    """

    where: str
    rule: JointRule | None
    thickness: float
    start: float
    end: float
    zones: tuple[tuple[float, float], ...]
    pieces: tuple[str, ...]
    extents: tuple[tuple[float, float], ...]
    joints: tuple[Joint, ...]
    width_at: Callable[[float], float]
    least_piece: float | None = None
    most_joints: int | None = None
    across: str = "thickness"
    from_blank: bool = False
    blank: TrueBlank | None = None
    crossings: tuple[Crossing, ...] = ()
    too_wide: bool = False

    @property
    def lap(self) -> float:
        """What the rule gives; 0 without one, or for a butt."""
        return lap_of(self.rule, self.thickness)

    @property
    def strap(self) -> float:
        """Length of the strap that the rule gives; 0 for a scarf."""
        return strap_of(self.rule, self.thickness)

    @property
    def band(self) -> float:
        """What a joint takes up of the part, lap or strap."""
        return band_of(self.rule, self.thickness)


def members(register: Register) -> Iterator[Member]:
    """Yield every copy that has pieces and whose outline can be used."""
    for panel in register.job.panels:
        yield from _panel_members(panel, register)
    for strip in register.job.strips:
        yield from _strip_members(strip, register)


def _panel_members(panel: Panel, register: Register) -> Iterator[Member]:
    shape = flattened(panel.outline)
    if shape is None:
        return
    west, _, east, _ = shape.bounds
    for copy in _copies(panel, register.panel_copies):
        pieces = register.panel_copies[panel.name, copy]
        own, blank = [own_shape(piece) for piece in pieces], blank_under(pieces, register)
        extents = tuple((there.bounds[0], there.bounds[2]) for there in own if there is not None)
        yield Member(
            where=in_words(panel, copy),
            rule=register.rule(panel),
            thickness=blank.thickness if blank else register.thickness(panel),
            start=west,
            end=east,
            zones=(*panel.no_joint, *_frames(panel, register)),
            pieces=tuple(piece.id for piece in pieces),
            extents=extents if len(extents) == len(pieces) else (),
            joints=tuple(register.joints.get((panel.name, copy), ())),
            most_joints=panel.most_joints,
            width_at=partial(width_at, shape),
            from_blank=is_from_blank(pieces, register),
            blank=blank,
            crossings=tuple(crossings(pieces[0], blank)) if blank else (),
            too_wide=_too_wide(panel, shape, register),
        )


def _frames(panel: Panel, register: Register) -> Iterator[tuple[float, float]]:
    """Yield the stretches of a panel that its joints keep off as a frame is there."""
    back = tuple((boat, own) for own, boat in panel.boat_stations)
    for frame in register.job.frames:
        if frame.name in panel.frames:
            at = boat_station(frame.station, back)
            yield at - frame.clear, at + frame.clear


def _too_wide(panel: Panel, shape: Polygon, register: Register) -> bool:
    """Whether a panel is higher than every sheet is wide that may serve it, trim and allowance off."""
    _, south, _, north = shape.bounds
    rooms = [drawn_in(whole, _edge(s, register)).bounds for s in register.serving(panel) if (whole := whole_sheet(s))]
    widest = max((room[3] - room[1] for room in rooms), default=0.0)
    return bool(north - south > widest + TOLERANCE)


def _edge(sheet: Sheet, register: Register) -> float:
    return trim_of(sheet, register) + register.job.workshop.allowance


def _strip_members(strip: Strip, register: Register) -> Iterator[Member]:
    rule, (width, thickness) = register.rule(strip), strip.section
    if strip.scarf_across == "width":
        width, thickness = thickness, width
    for copy in _copies(strip, register.strip_copies):
        pieces = register.strip_copies[strip.name, copy]
        yield Member(
            where=in_words(strip, copy),
            rule=rule,
            thickness=thickness,
            start=0.0,
            end=strip.length,
            zones=strip.no_joint,
            pieces=tuple(piece.id for piece in pieces),
            extents=_strip_extents(pieces, lap_of(rule, thickness)),
            joints=tuple(register.joints.get((strip.name, copy), ())),
            width_at=partial(_same_everywhere, width),
            least_piece=strip.least_piece,
            most_joints=strip.most_joints,
            across=strip.scarf_across,
            from_blank=any(piece.on in register.long_sticks for piece in pieces),
        )


def _copies(part: Panel | Strip, copies: Copies) -> list[int]:
    return sorted(copy for name, copy in copies if name == part.name)


def _strip_extents(pieces: Sequence[StripPiece], lap: float) -> tuple[tuple[float, float], ...]:
    """Return where a strip's pieces lie along it: each begins one lap before the end of the last."""
    lengths = [piece.end - piece.start for piece in pieces]
    ends = accumulate(lengths, lambda end, length: end + length - lap)
    return tuple((end - length, end) for end, length in zip(ends, lengths, strict=True))


def _same_everywhere(width: float, _station: float) -> float:
    return width
