"""A blank, and the joints of what is cut from it, told in the words of the plan."""

from collections.abc import Iterator, Sequence
from decimal import Decimal

from shapely.geometry import Polygon

from nesting.joints import chord
from nesting.model import Blank, BlankScarf, Joint, Member, PanelPiece, UsedSheet
from nesting.outlines import ring_points

from .parts import Part
from .pieces import PieceKind
from .stock import Blank as Make
from .stock import Stock


def blank_of(name: str, stock: Stock, make: Make, sheets: Sequence[UsedSheet]) -> Blank:
    """Return a blank made of these used sheets, from its low end up."""
    return Blank(
        id=name,
        joint=make.joint,
        outline=ring_points(stock.whole.exterior),
        members=tuple(_members(make, sheets)),
        scarfs=tuple(_scarfs(name, stock, make)),
    )


def joints_across(part: Part, kind: PieceKind, piece: PanelPiece, blank: Blank) -> Iterator[Joint]:
    """Yield the joints of a panel at the scarfs of the blank from which it is cut; the blank's are paid for."""
    for number, station in enumerate(kind.item.lines, 1):
        at = piece.x + (station if piece.angle == 0 else -station)
        scarf = min(blank.scarfs, key=lambda scarf: abs(scarf.at - at))
        yield Joint(
            id=f"{piece.part}-{piece.copy_number}/J{number}",
            part=piece.part,
            copy_number=piece.copy_number,
            station=station,
            lap=scarf.lap,
            slope=scarf.slope,
            thickness=scarf.thickness,
            width=chord(part.shape, station),
            pieces=(piece.id,),
            scarf=scarf.id,
            cost=Decimal(0),
        )


def _members(make: Make, sheets: Sequence[UsedSheet]) -> Iterator[Member]:
    begins = 0.0
    for member, used in zip(make.members, sheets, strict=True):
        west, south, *_ = member.usable.bounds
        yield Member(used=used.id, outline=_ring(member.usable), x=begins - west, y=-south)
        begins += member.size_usable[0] - make.lap


def _scarfs(name: str, stock: Stock, make: Make) -> Iterator[BlankScarf]:
    for number, at in enumerate(make.scarfs, 1):
        yield BlankScarf(
            id=f"{name}/F{number}",
            at=at,
            lap=make.lap,
            slope=make.slope,
            thickness=stock.sheet.true_thickness,
            width=stock.size_usable[1],
            cost=Decimal(make.scarf_cost) / 100,
        )


def _ring(shape: Polygon) -> tuple[tuple[float, float], ...]:
    return ring_points(shape.exterior)
