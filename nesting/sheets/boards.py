"""What pieces are cut from: a sheet, a blank, or what is left of a sheet that is not wholly in a blank."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from shapely.geometry import Polygon

from nesting.model import UsedSheet
from nesting.outlines import moved, turned
from nesting.packing import Container, Placement

from .layouts import Layout
from .pieces import PieceKind
from .stock import LEFT


@dataclass(frozen=True)
class Board:
    """One of them: its id, the pieces that lie on it, in its own frame, and from what offcuts may be kept."""

    on: str
    laid: tuple[tuple[PieceKind, Placement], ...]
    room: Container


def boards_of(layout: Layout, sheets: Sequence[UsedSheet], on: str) -> Iterator[Board]:
    """Yield the sheet or blank of a layout, whose id is ``on``, then what is left of the sheets of the blank.

    What is kept is one plain board: it lies on no lap.
    """
    stock, blank = layout.stock, layout.stock.blank
    laps = tuple(lap for mark, lap in stock.container.marked if mark != LEFT and blank is not None)
    beside = [] if blank is None else list(blank.left)
    laid = {cut: tuple(each for each in layout.laid if cut.there.intersects(lying(*each))) for cut in beside}
    apart = {each for several in laid.values() for each in several}
    room = Container(stock.usable, (*stock.faults, *laps))
    yield Board(on, tuple(each for each in layout.laid if each not in apart), room)
    for cut, several in laid.items():
        back = tuple((kind, replace(place, x=place.x - cut.x, y=place.y - cut.y)) for kind, place in several)
        yield Board(sheets[cut.sheet].id, back, Container(cut.shape))


def lying(kind: PieceKind, place: Placement) -> Polygon:
    """Return a piece as it is laid."""
    return moved(turned(kind.item.polygon, place.angle, mirrored=kind.item.mirrored), place.x, place.y)
