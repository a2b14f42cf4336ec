"""A selection told in the words of the plan: used sheets, pieces, joints, offcuts."""

from collections.abc import Iterator, Sequence

from nesting.joints import chord
from nesting.model import Blank, Job, Joint, PanelPiece, Share, SheetOffcut, StrapPiece, UsedSheet
from nesting.outlines import ring_points
from nesting.packing import Placement

from .blank_sharing import blank_of, joints_across
from .boards import Board, boards_of, lying
from .leftover import offcuts
from .naming import Copies, Names, joint_id, piece_id
from .parts import Part
from .pieces import PieceKind
from .selecting import Selection
from .stock import Stock, sheet_rings
from .variants import Variant


def share_of(job: Job, parts: Sequence[Part], selection: Selection) -> Share:
    """Return the share of the plan that a selection makes."""
    copies, names = Copies(), Names()
    layouts = sorted(selection.layouts, key=lambda layout: (layout.stock.index, -layout.area))
    pieces: list[PanelPiece | StrapPiece] = []
    joints: list[Joint] = []
    used: list[UsedSheet] = []
    blanks: list[Blank] = []
    leftovers: list[SheetOffcut] = []
    for layout in layouts:
        sheets = [_used(names.next_sheet(), member) for member in layout.stock.members]
        used += sheets
        if layout.stock.blank is not None:
            blanks.append(blank_of(names.next_blank(), layout.stock, layout.stock.blank, sheets))
        for board in boards_of(layout, sheets, blanks[-1].id if layout.stock.blank else sheets[0].id):
            for kind, place in board.laid:
                if kind.is_strap:
                    pieces.append(_strap(job, board.on, kind, place, copies))
                    continue
                pieces.append(piece := _piece(job, board.on, kind, place, copies))
                if kind.item.lines:
                    joints += joints_across(parts[kind.panel], kind, piece, blanks[-1])
            leftovers += _offcuts(job, board)
    for variant in selection.variants:
        if variant.way == "divided":
            joints += _joints(parts[variant.panel], variant)
    return Share(
        used=tuple(used),
        blanks=tuple(blanks),
        pieces=tuple(pieces),
        joints=_in_order(job, joints),
        offcuts=tuple(leftovers),
    )


def _in_order(job: Job, joints: Sequence[Joint]) -> tuple[Joint, ...]:
    """Return joints in the order of the job's panels, copy by copy from the low stations up."""
    place = {panel.name: index for index, panel in enumerate(job.panels)}
    return tuple(sorted(joints, key=lambda joint: (place[joint.part], joint.copy_number, joint.station)))


def _used(name: str, stock: Stock) -> UsedSheet:
    outline, *holes = sheet_rings(stock)
    return UsedSheet(
        id=name,
        stock=stock.sheet.name,
        source=stock.sheet.source,
        outline=outline,
        holes=tuple(holes),
        faults=tuple(ring_points(fault.exterior) for fault in stock.faults),
        trim=stock.trim,
    )


def _piece(job: Job, on: str, kind: PieceKind, place: Placement, copies: Copies) -> PanelPiece:
    shape = lying(kind, place)
    part, copy = job.panels[kind.panel].name, copies.next_of(kind)
    return PanelPiece(
        id=piece_id(part, copy, kind.index),
        part=part,
        copy_number=copy,
        hand=kind.hand,
        index=kind.index,
        of=kind.of,
        on=on,
        outline=ring_points(shape.exterior),
        holes=tuple(ring_points(hole) for hole in shape.interiors),
        x=place.x,
        y=place.y,
        angle=float(place.angle),
        mirrored=kind.item.mirrored,
    )


def _strap(job: Job, on: str, kind: PieceKind, place: Placement, copies: Copies) -> StrapPiece:
    part, copy = job.panels[kind.panel].name, copies.next_of(kind)
    joint = joint_id(part, copy, kind.index)
    return StrapPiece(
        id=f"{joint}/strap",
        part=part,
        copy_number=copy,
        hand=kind.hand,
        joint=joint,
        on=on,
        outline=ring_points(lying(kind, place).exterior),
        x=place.x,
        y=place.y,
        angle=float(place.angle),
        mirrored=kind.item.mirrored,
    )


def _offcuts(job: Job, board: Board) -> Iterator[SheetOffcut]:
    workshop = job.workshop
    shapes = [lying(kind, place) for kind, place in board.laid]
    for rectangle in offcuts(board.room, shapes, workshop.kerf.sheet, workshop.allowance, workshop.keep_from):
        yield SheetOffcut(on=board.on, outline=ring_points(rectangle.exterior), kept=True)


def _joints(part: Part, variant: Variant) -> Iterator[Joint]:
    if part.rule is None:
        return
    panel = part.panel
    for copy in range(1, panel.quantity + 1):
        for number, station in enumerate(variant.stations, 1):
            width = chord(part.shape, station)
            yield Joint(
                id=joint_id(panel.name, copy, number),
                kind=part.rule.kind,
                part=panel.name,
                copy_number=copy,
                station=station,
                lap=part.reach.lap,
                slope=part.rule.slope if part.rule.kind == "scarf" else None,
                strap=part.reach.strap,
                thickness=part.thickness,
                width=width,
                pieces=(piece_id(panel.name, copy, number), piece_id(panel.name, copy, number + 1)),
                cost=part.rule.cost.of(width),
            )
