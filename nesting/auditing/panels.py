"""Whether each panel's pieces, brought back from the sheets, are the stretches between its joints."""

from collections.abc import Iterator, Sequence

import shapely
from shapely.geometry import Polygon

from nesting.model import TOLERANCE, Panel, PanelPiece

from .findings import Finding
from .geometry import between, flattened, has_arcs, own_shape, polygon, same_shape
from .register import Register, in_words

#: Angles from the sheet's grain to the panel's x axis that a panel's grain allows; None: all.
GRAIN_ANGLES: dict[str, tuple[float, ...] | None] = {"along": (0.0, 180.0), "across": (90.0, 270.0), "any": None}

#: Degrees; over a hundred metres such a turn moves nothing by more than the tolerance.
ANGLE_TOLERANCE = 1e-7


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
    for (name, copy), pieces in register.panel_copies.items():
        if name == panel.name:
            yield from _grain(panel, pieces)
            yield from _copy(panel, shape, copy, pieces, register)


def _grain(panel: Panel, pieces: Sequence[PanelPiece]) -> Iterator[Finding]:
    allowed = GRAIN_ANGLES[panel.grain]
    for piece in pieces:
        if allowed is not None and min(abs(_turn(piece.angle - angle)) for angle in allowed) > ANGLE_TOLERANCE:
            reason = f"it lies at {piece.angle:g} degrees, its grain is to run {panel.grain}"
            yield Finding("wrong-grain", f'piece "{piece.id}"', reason)


def _turn(angle: float) -> float:
    """Return the same angle between -180 and 180."""
    return (angle + 180) % 360 - 180


def _copy(
    panel: Panel, shape: Polygon, copy: int, pieces: Sequence[PanelPiece], register: Register
) -> Iterator[Finding]:
    own = [own_shape(piece) for piece in pieces]
    sound = [there for there in own if there is not None]
    if not same_shape(shape, shapely.union_all(sound)):
        yield Finding("not-whole", in_words(panel, copy), "its pieces put together are not the asked outline")
    stations, lap = _stations(panel, shape, copy, register)
    yield from _laps(panel, shape, copy, stations, lap)
    if len(stations) != len(pieces) - 1:
        return  # the audit of the joints tells
    starts = [float("-inf"), *(station - lap / 2 for station in stations)]
    ends = [*(station + lap / 2 for station in stations), float("inf")]
    for piece, there, start, end in zip(pieces, own, starts, ends, strict=True):
        yield from _piece(piece, there, between(shape, start, end))


def _stations(panel: Panel, shape: Polygon, copy: int, register: Register) -> tuple[list[float], float]:
    """Return the stations of a copy's joints that lie on it, and the lap that its rule gives."""
    rule = register.rule(panel)
    lap = rule.slope * register.thickness(panel) if rule else 0.0
    west, _, east, _ = shape.bounds
    joints = register.joints.get((panel.name, copy), [])
    return [joint.station for joint in joints if west < joint.station < east], lap


def _laps(panel: Panel, shape: Polygon, copy: int, stations: Sequence[float], lap: float) -> Iterator[Finding]:
    for station in stations:
        regions = between(shape, station - lap / 2, station + lap / 2)
        if lap and (len(regions) != 1 or regions[0].interiors):
            reason = f"the lap at station {station:g} is not one region without holes"
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
