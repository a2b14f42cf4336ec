"""Whether each panel's pieces, brought back from the sheets, are the stretches between its joints."""

from collections.abc import Iterator, Sequence

import shapely
from shapely.geometry import Polygon

from nesting.model import TOLERANCE, Panel, PanelPiece, StrapPiece

from .crossings import ANGLE_TOLERANCE
from .findings import Finding
from .geometry import between, flattened, has_arcs, own_shape, polygon, same_shape, turn
from .register import Register, in_words
from .rules import band_of, lap_of
from .true_blank import blank_under, is_from_blank

#: Angles from the sheet's grain to the panel's x axis that a panel's grain allows; None: all.
GRAIN_ANGLES: dict[str, tuple[float, ...] | None] = {"along": (0.0, 180.0), "across": (90.0, 270.0), "any": None}


def panels(register: Register) -> Iterator[Finding]:
    """Yield pieces that are no sound polygons, not congruent to their stretch of the panel, or across the grain."""
    for piece in register.panel_pieces:
        if polygon(piece.outline, piece.holes) is None:
            yield Finding("bad-polygon", f'piece "{piece.id}"', "its outline is no sound polygon")
    for panel in register.job.panels:
        yield from _panel(panel, register)


def _panel(panel: Panel, register: Register) -> Iterator[Finding]:
    shape = flattened(panel.outline)
    if shape is None:
        yield Finding("bad-polygon", in_words(panel), "its outline is no sound polygon")
        return
    if has_arcs(panel.outline):
        yield Finding("arc-in-plan", in_words(panel), "its outline holds arcs, a plan holds polygons")
    yield from _grain(panel, [piece for piece in register.sheet_pieces if piece.part == panel.name], register)
    for (name, copy), pieces in register.panel_copies.items():
        if name == panel.name:
            yield from _whole_on_blank(panel, copy, pieces, register)
            yield from _copy(panel, shape, copy, pieces, register)


def _grain(panel: Panel, pieces: Sequence[PanelPiece | StrapPiece], register: Register) -> Iterator[Finding]:
    """Check that pieces and straps lie along or across, within what is tolerated; on a blank nothing is."""
    allowed = GRAIN_ANGLES[panel.grain]
    for piece in pieces if allowed is not None else ():
        tolerated = 0.0 if piece.on in register.blanks else panel.grain_tolerance
        if min(abs(turn(piece.angle - angle)) for angle in allowed or ()) > tolerated + ANGLE_TOLERANCE:
            reason = f"it lies at {piece.angle:g} degrees, its grain is to run {panel.grain} within {tolerated:g}"
            yield Finding("wrong-grain", f'piece "{piece.id}"', reason)


def _whole_on_blank(panel: Panel, copy: int, pieces: Sequence[PanelPiece], register: Register) -> Iterator[Finding]:
    if len(pieces) > 1 and any(piece.on in register.blanks for piece in pieces):
        yield Finding("divided-on-blank", in_words(panel, copy), "it is divided, and comes from a blank all the same")


def _copy(
    panel: Panel, shape: Polygon, copy: int, pieces: Sequence[PanelPiece], register: Register
) -> Iterator[Finding]:
    own = [own_shape(piece) for piece in pieces]
    sound = [there for there in own if there is not None]
    if not same_shape(shape, shapely.union_all(sound)):
        yield Finding("not-whole", in_words(panel, copy), "its pieces put together are not the asked outline")
    blank = blank_under(pieces, register)
    thickness = blank.thickness if blank else register.thickness(panel)
    stations, lap = _stations(panel, shape, copy, register), lap_of(register.rule(panel), thickness)
    yield from _bands(panel, shape, copy, stations, band_of(register.rule(panel), thickness))
    if is_from_blank(pieces, register):
        stations = []  # the scarfs are the blank's: the piece is the whole panel
    if len(stations) != len(pieces) - 1:
        return  # the audit of the joints tells
    starts = [float("-inf"), *(station - lap / 2 for station in stations)]
    ends = [*(station + lap / 2 for station in stations), float("inf")]
    for piece, there, start, end in zip(pieces, own, starts, ends, strict=True):
        yield from _piece(piece, there, between(shape, start, end))


def _stations(panel: Panel, shape: Polygon, copy: int, register: Register) -> list[float]:
    """Return the stations of a copy's joints that lie on it."""
    west, _, east, _ = shape.bounds
    joints = register.joints.get((panel.name, copy), [])
    return [joint.station for joint in joints if west < joint.station < east]


def _bands(panel: Panel, shape: Polygon, copy: int, stations: Sequence[float], band: float) -> Iterator[Finding]:
    for station in stations:
        regions = between(shape, station - band / 2, station + band / 2)
        if band and (len(regions) != 1 or regions[0].interiors):
            reason = f"the lap or strap at station {station:g} is not one region without holes"
            yield Finding("lap-not-plain", in_words(panel, copy), reason)


def _piece(piece: PanelPiece, there: Polygon | None, expected: Sequence[Polygon]) -> Iterator[Finding]:
    if there is None:
        if polygon(piece.outline, piece.holes) is not None:
            yield Finding("not-congruent", f'piece "{piece.id}"', "it is said to lie absurdly far from its panel")
        return
    if len(expected) != 1:
        reason = f"that stretch of the panel is in {len(expected)} parts, not one"
        yield Finding("not-congruent", f'piece "{piece.id}"', reason)
    elif not same_shape(expected[0], there):
        apart = expected[0].symmetric_difference(there).area
        reason = f"it is not its stretch of the panel within {TOLERANCE:g} mm: {apart:.3f} mm2 differ"
        yield Finding("not-congruent", f'piece "{piece.id}"', reason)
