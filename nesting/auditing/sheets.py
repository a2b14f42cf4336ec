"""Whether the pieces on each sheet keep a kerf apart, inside the trim and off holes and faults; and what is kept."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
import shapely
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from nesting.model import TOLERANCE, Blank, PanelPiece, SheetOffcut, StrapPiece, UsedSheet

from .findings import Finding
from .geometry import drawn_in, laid_shape, lies_inside, polygon, reaches_into
from .register import Register
from .stock import trim_of, whole_sheet
from .true_blank import true_blank


@dataclass(frozen=True)
class Room:
    """What of a sheet or blank may be used: its outline less the trim, and holes and faults to keep off."""

    kind: Literal["sheet", "blank"]
    name: str
    usable: BaseGeometry
    allowance: float
    holes: tuple[Polygon, ...]
    faults: tuple[tuple[str, Polygon], ...]


@dataclass(frozen=True)
class Laid:
    """A polygon that lies on a sheet, how it is called, and which of its faces are seen."""

    where: str
    shape: Polygon
    seen: frozenset[str] = frozenset()


def sheets(register: Register) -> Iterator[Finding]:
    """Yield pieces and kept offcuts that lie where they must not."""
    rooms = (
        *(room_of(used, register) for used in register.used_sheets.values()),
        *(_room_of_blank(blank, register) for blank in register.plan.blanks),
    )
    for room in rooms:
        if room is not None:
            yield from _room(room, register)


def room_of(used: UsedSheet, register: Register) -> Room | None:
    """Return what may be used of a sheet, worked out from its stock; None if the stock is unknown or not sound."""
    sheet = register.sheets.get(used.stock)
    whole = whole_sheet(sheet) if sheet else None
    if sheet is None or whole is None:
        return None
    usable = drawn_in(Polygon(whole.exterior), trim_of(sheet, register))
    faults = [(fault.side, polygon(fault.points)) for fault in sheet.faults]
    return Room(
        kind="sheet",
        name=used.id,
        usable=usable,
        allowance=register.job.workshop.allowance,
        holes=tuple(Polygon(hole) for hole in whole.interiors),
        faults=tuple((side, shape) for side, shape in faults if shape is not None),
    )


def _room_of_blank(blank: Blank, register: Register) -> Room | None:
    """Return what may be used of a blank: its sheets joined, trimmed and without faults as they are."""
    true = true_blank(blank, register)
    if true is None:
        return None
    return Room("blank", blank.id, true.outline, register.job.workshop.allowance, holes=(), faults=())


def _room(room: Room, register: Register) -> Iterator[Finding]:
    pieces = [
        Laid(f'piece "{piece.id}"', shape, _seen(piece, register))
        for piece in register.sheet_pieces
        if piece.on == room.name and (shape := laid_shape(piece)) is not None
    ]
    for piece in pieces:
        yield from _place(piece, room)
    yield from _gaps(pieces, register.job.workshop.kerf.sheet + 2 * room.allowance)
    yield from _offcuts(room, pieces, register)


def _seen(piece: PanelPiece | StrapPiece, register: Register) -> frozenset[str]:
    """Return which faces of a piece are seen; both of a strap, and where that can't be told."""
    if isinstance(piece, StrapPiece):
        return frozenset({"good", "back"})
    panel = register.panels.get(piece.part)
    shows = panel.shows if panel else "both"
    return frozenset({"both": ("good", "back"), "good": ("good",), "none": ()}[shows])


def _place(piece: Laid, room: Room) -> Iterator[Finding]:
    if not lies_inside(piece.shape, drawn_in(room.usable, room.allowance)):
        yield Finding("outside-sheet", piece.where, f"it reaches into the trim or beyond the edge of its {room.kind}")
    if any(_nearer(piece.shape, hole, room.allowance) for hole in room.holes):
        yield Finding("in-hole", piece.where, "it reaches into a hole of its sheet")
    harmful = (shape for side, shape in room.faults if side == "both" or side in piece.seen)
    if any(_nearer(piece.shape, fault, room.allowance) for fault in harmful):
        yield Finding("on-fault", piece.where, "it lies on a fault of its sheet")


def _nearer(shape: Polygon, other: Polygon, allowance: float) -> bool:
    """Whether a shape overlaps another, or comes nearer to it than the allowance."""
    return reaches_into(shape, other) or bool(shape.distance(other) < allowance - TOLERANCE)


def _gaps(pieces: Sequence[Laid], kerf: float) -> Iterator[Finding]:
    """Yield pieces that overlap or are less than a kerf apart."""
    for first, second in _close_pairs([piece.shape for piece in pieces], kerf):
        one, other = pieces[first], pieces[second]
        if reaches_into(one.shape, other.shape):
            yield Finding("pieces-overlap", one.where, f"it lies on {other.where}")
        elif (gap := one.shape.distance(other.shape)) < kerf - TOLERANCE:
            yield Finding("kerf-too-small", one.where, f"it is {gap:.3f} from {other.where}, the gap is {kerf:g}")


def _close_pairs(shapes: Sequence[Polygon], within: float) -> Iterator[tuple[int, int]]:
    """Yield the pairs of shapes that may be nearer to one another than ``within``."""
    if len(shapes) < 2:
        return
    firsts, seconds = shapely.STRtree(shapes).query(shapes, predicate="dwithin", distance=within)
    ordered = np.flatnonzero(firsts < seconds)
    yield from sorted((int(firsts[k]), int(seconds[k])) for k in ordered)


def _offcuts(room: Room, pieces: Sequence[Laid], register: Register) -> Iterator[Finding]:
    where = f'offcut of {room.kind} "{room.name}"'
    kept: list[Laid] = []
    for offcut in register.plan.offcuts:
        if not isinstance(offcut, SheetOffcut) or offcut.on != room.name:
            continue
        shape = polygon(offcut.outline)
        if shape is None:
            yield Finding("bad-polygon", where, "its outline is no sound polygon")
        elif offcut.kept:
            kept.append(Laid(where, shape))
    for laid in kept:
        yield from _kept(laid, room, register.job.workshop.keep_from)
    yield from _offcut_gaps(kept, pieces, register.job.workshop.kerf.sheet, room.allowance)


def _kept(offcut: Laid, room: Room, keep_from: tuple[float, float]) -> Iterator[Finding]:
    if not lies_inside(offcut.shape, room.usable):
        yield Finding("offcut-misplaced", offcut.where, "it reaches into the trim or beyond the edge")
    if any(reaches_into(offcut.shape, obstacle) for obstacle in (*room.holes, *(shape for _, shape in room.faults))):
        yield Finding("offcut-misplaced", offcut.where, "it lies on a fault or a hole")
    west, south, east, north = offcut.shape.bounds
    if east - west < keep_from[0] - TOLERANCE or north - south < keep_from[1] - TOLERANCE:
        reason = f"{east - west:g} x {north - south:g} is less than is worth keeping"
        yield Finding("offcut-too-small", offcut.where, reason)


def _offcut_gaps(kept: Sequence[Laid], pieces: Sequence[Laid], kerf: float, allowance: float) -> Iterator[Finding]:
    """Yield offcuts from which a piece or another offcut can't be sawn off.

    The saw takes its kerf there too, and beside a piece it leaves the allowance on.
    """
    everything = [*kept, *pieces]
    for first, second in _close_pairs([laid.shape for laid in everything], kerf + allowance):
        if first >= len(kept):
            continue
        one, other = everything[first], everything[second]
        gap = kerf if second < len(kept) else kerf + allowance
        if reaches_into(one.shape, other.shape) or one.shape.distance(other.shape) < gap - TOLERANCE:
            yield Finding("offcut-overlap", one.where, f"it is not {gap:g} away from {other.where}")
