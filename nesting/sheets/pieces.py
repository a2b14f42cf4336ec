"""The shapes that have to be cut."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from shapely.geometry import Polygon

from nesting.joints import chord
from nesting.model import Hand, Panel
from nesting.outlines import moved, turned
from nesting.packing import Item

from .leaning import useful_leans
from .parts import Part
from .stock import LAP, LEFT, SEAM, Stock

#: Angles at which a panel's x axis may lie to the face grain of the sheet.
ANGLES = {"along": (0, 180), "across": (90, 270), "any": (0, 90, 180, 270)}

#: Faces whose faults matter, by which faces of a panel are seen. Pieces lie good face up, as the sheet does.
AVOIDED = {"both": frozenset({"good", "back"}), "good": frozenset({"good"}), "none": frozenset[str]()}

#: A strap lies turned over, and is glued on one face and seen on the other: it takes no fault at all.
AVOIDED_BY_STRAPS = frozenset({"good", "back", LAP, SEAM})

#: Stations at which the width of a piece is read.
STATIONS = 32

#: Angles at which a panel may lie across the scarfs of a blank: its grain runs along it.
ALONG_A_BLANK = (0, 180)


@dataclass(frozen=True, eq=False)
class PieceKind:
    """One shape, cut once for each copy of its hand; compared by identity.

    ``item`` holds the piece in the panel's own frame, to be mirrored about the x axis for the starboard hand;
    ``stocks`` are the indices of the kinds of sheet, and of blank, on which it may lie and whose box it fits. Of a
    strap ``index`` and ``of`` count the panel's joints; its good face looks away from the panel, so it is mirrored
    where the panel's pieces are not.
    """

    panel: int
    hand: Hand
    index: int
    of: int
    rank: int
    item: Item
    stocks: frozenset[int]
    is_strap: bool = False

    @property
    def area(self) -> float:
        """Area in square millimetres."""
        return float(self.item.polygon.area)

    @cached_property
    def widths(self) -> tuple[float, ...]:
        """How wide it is at stations evenly spread from end to end, square to its x axis."""
        west, _, east, _ = self.item.polygon.bounds
        stations = (west + (east - west) * (k + 0.5) / STATIONS for k in range(STATIONS))
        return tuple(chord(self.item.polygon, station) for station in stations)

    def angles_on(self, stock: Stock) -> tuple[float, ...]:
        """Return the angles at which it may lie there: on a blank it lies true."""
        return self.item.angles if stock.blank is None else tuple(a for a in self.item.angles if a % 90 == 0)


def pieces_of(part: Part, shapes: Sequence[Polygon], rank: int) -> tuple[PieceKind, ...]:
    """Return the piece kinds of a panel cut into ``shapes``, for each hand in turn."""
    return tuple(
        _piece(part, hand, index, len(shapes), shape, rank)
        for hand in part.hands
        for index, shape in enumerate(shapes, 1)
    )


def straps_of(part: Part, shapes: Sequence[Polygon], rank: int) -> tuple[PieceKind, ...]:
    """Return the kinds of the straps behind a panel's butts, for each hand in turn; they come from no blank."""
    return tuple(
        _strap(part, hand, index, len(shapes), shape, rank)
        for hand in part.hands
        for index, shape in enumerate(shapes, 1)
    )


def across_scarfs(part: Part, stations: tuple[float, ...], blanks: frozenset[int], rank: int) -> tuple[PieceKind, ...]:
    """Return the piece kinds of a whole panel that lies on one of these blanks with its joints at ``stations``.

    Without any the panel lies between the scarfs across the blank, over those along it.
    """
    avoids = AVOIDED[part.panel.shows] | {LEFT} | (frozenset() if part.is_wide else {SEAM})
    avoids |= frozenset() if stations else {LAP}
    return tuple(
        PieceKind(
            panel=part.index,
            hand=hand,
            index=1,
            of=1,
            rank=rank,
            item=Item(part.shape, ALONG_A_BLANK, hand == "starboard", avoids, stations),
            stocks=blanks,
        )
        for hand in part.hands
    )


def _piece(part: Part, hand: Hand, index: int, of: int, shape: Polygon, rank: int) -> PieceKind:
    mirrored = hand == "starboard"
    straight = {angle: turned(shape, angle, mirrored=mirrored) for angle in ANGLES[part.panel.grain]}
    angles = _leaning(straight, part.panel, part.stocks)
    lying = [turned(shape, angle, mirrored=mirrored) for angle in angles]
    sheets = [s.index for s in part.stocks if any(map(s.holds_box, lying))]
    # A panel is cut from a blank whole or not at all: there is no telling its own joints from the blank's otherwise.
    whole_from = part.blanks if of == 1 else ()
    blanks = [s.index for s in whole_from if any(map(s.holds_box, straight.values()))]
    if blanks:
        angles = tuple(dict.fromkeys([*angles, *_distinct(straight)]))
    item = Item(shape, angles, mirrored, AVOIDED[part.panel.shows] | {LAP, SEAM})
    return PieceKind(part.index, hand, index, of, rank, item, frozenset([*sheets, *blanks]))


def _strap(part: Part, hand: Hand, index: int, of: int, shape: Polygon, rank: int) -> PieceKind:
    mirrored = hand != "starboard"
    straight = {angle: turned(shape, angle, mirrored=mirrored) for angle in ANGLES[part.panel.grain]}
    angles = _leaning(straight, part.panel, part.stocks)
    lying = [turned(shape, angle, mirrored=mirrored) for angle in angles]
    sheets = frozenset(s.index for s in part.stocks if any(map(s.holds_box, lying)))
    item = Item(shape, angles, mirrored, AVOIDED_BY_STRAPS)
    return PieceKind(part.index, hand, index, of, rank, item, sheets, is_strap=True)


def _leaning(straight: Mapping[int, Polygon], panel: Panel, stocks: Sequence[Stock]) -> tuple[float, ...]:
    """Return the angles at which a piece is tried: those that run true to its grain, and useful ones near them."""
    directions = _distinct(straight)
    tolerance = 0.0 if panel.grain == "any" else panel.grain_tolerance
    if tolerance == 0:
        return directions
    leans = useful_leans(straight[directions[0]], tolerance, stocks)
    return tuple(round((direction + lean) % 360, 3) for lean in leans for direction in directions)


def _distinct(lying: Mapping[int, Polygon]) -> tuple[int, ...]:
    """Drop angles at which the shape looks the same as at an earlier one."""
    seen: dict[int, Polygon] = {}
    for angle, shape in lying.items():
        looks = _at_origin(shape)
        if not any(looks.equals_exact(other, 1e-6) for other in seen.values()):
            seen[angle] = looks
    return tuple(seen)


def _at_origin(shape: Polygon) -> Polygon:
    west, south, *_ = shape.bounds
    return moved(shape, -west, -south).normalize()
