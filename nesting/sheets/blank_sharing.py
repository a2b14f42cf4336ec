"""A blank, and the joints of what is cut from it, told in the words of the plan."""

from collections.abc import Iterator, Sequence
from decimal import Decimal

from shapely.geometry import Polygon

from nesting.joints import chord
from nesting.model import Blank, BlankScarf, Joint, Member, PanelPiece, UsedSheet
from nesting.outlines import ring_points

from .blank import Blank as Make
from .naming import joint_id
from .parts import Part
from .pieces import PieceKind
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
        scarf = min((s for s in blank.scarfs if s.runs == "across"), key=lambda scarf: abs(scarf.at - at))
        yield Joint(
            id=joint_id(piece.part, piece.copy_number, number),
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
    for member in make.members:
        yield Member(used=sheets[member.sheet].id, outline=_ring(member.shape), x=member.x, y=member.y)


def _scarfs(name: str, stock: Stock, make: Make) -> Iterator[BlankScarf]:
    for number, scarf in enumerate(make.scarfs, 1):
        yield BlankScarf(
            id=f"{name}/F{number}",
            runs=scarf.runs,
            at=scarf.at,
            begins=scarf.begins,
            lap=make.lap,
            slope=make.slope,
            thickness=stock.sheet.true_thickness,
            width=scarf.width,
            cost=Decimal(scarf.cost) / 100,
        )


def _ring(shape: Polygon) -> tuple[tuple[float, float], ...]:
    return ring_points(shape.exterior)
