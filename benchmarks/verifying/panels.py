"""Whether a plan of panels with joints is one, by the rules that the study states."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import combinations, pairwise, product
from typing import Any

from shapely import affinity
from shapely.geometry import LineString, Polygon, box

from benchmarks.data import Panel, PanelsInstance, SmallPart

#: Millimetres within which two places are the same.
TOLERANCE = 0.001

#: Millimetres within which two outlines are the same: the study rounds to hundredths, so that the second of two matched
#: panels is the mirror image of the first only so far.
OUTLINE_TOLERANCE = 0.02


@dataclass(frozen=True)
class PanelPiece:
    """A piece, or a whole part, as it lies on the sheet of that index, whose corner is at the origin.

    A point of the part's own frame lies on the sheet mirrored about its x axis if ``mirrored``, then turned by
    ``angle`` degrees anticlockwise about the origin, then moved by (x, y). What is cut from a blank of joined sheets
    is given as the pieces of it that lie on each of these sheets, laps included.
    """

    part: str
    copy: int
    sheet: int
    outline: Polygon
    angle: float
    x: float
    y: float
    mirrored: bool = False

    @property
    def in_own_frame(self) -> Polygon:
        """The piece in the frame of its part."""
        shape = affinity.rotate(affinity.translate(self.outline, -self.x, -self.y), -self.angle, origin=(0, 0))
        return affinity.scale(shape, 1, -1, origin=(0, 0)) if self.mirrored else shape


@dataclass(frozen=True)
class JoinedAt:
    """A joint of one copy of a panel, ``station`` in the middle of its lap; ``scarf`` names the scarf of a blank."""

    part: str
    copy: int
    station: float
    scarf: str | None = None


@dataclass(frozen=True)
class PanelsPlan:
    """What is to be checked: the kind of each sheet, what is cut from them, and where it is joined.

    ``scarf_widths`` are the widths of the scarfs of blanks by name: each is paid for once.
    """

    sheets: tuple[str, ...]
    pieces: tuple[PanelPiece, ...]
    joints: tuple[JoinedAt, ...]
    cost: float
    scarf_widths: Mapping[str, float] = field(default_factory=dict)


def plan_from_file(plan: Mapping[str, Any]) -> PanelsPlan:
    """Return what a ``plan.json`` says, apart from its own figures for rules and prices.

    Raises
    ------
    ValueError
        If it joins sheets to blanks: their widths are not told there.
    """
    if plan["blanks"]:
        raise ValueError("a plan with blanks says nothing of the width of their scarfs")
    sheets = [used for used in plan["used"] if used["kind"] == "sheet"]
    place = {used["id"]: index for index, used in enumerate(sheets)}
    return PanelsPlan(
        sheets=tuple(used["stock"] for used in sheets),
        pieces=tuple(_piece(piece, place[piece["on"]]) for piece in plan["pieces"] if piece["kind"] == "panel"),
        joints=tuple(JoinedAt(j["part"], j["copy"], j["station"], j["scarf"]) for j in plan["joints"]),
        cost=float(plan["totals"]["to_pay"]) + float(plan["totals"]["joint_cost"]),
    )


def panels_faults(instance: PanelsInstance, plan: PanelsPlan) -> list[str]:
    """Return what is wrong with a plan.

    Looked at are stock, trim, kerf, angles, quantities, outlines put together again with full laps, zones, least
    pieces, shift of neighbours (any two copies), matched panels and cost.
    """
    checks = (_stock, _sheets, _parts, _joints, _matched, _neighbours, _cost)
    return [fault for check in checks for fault in check(instance, plan)]


def _piece(piece: Mapping[str, Any], sheet: int) -> PanelPiece:
    return PanelPiece(
        part=piece["part"],
        copy=piece["copy"],
        sheet=sheet,
        outline=Polygon(piece["outline"], piece["holes"]),
        angle=piece["angle"],
        x=piece["x"],
        y=piece["y"],
        mirrored=piece["mirrored"],
    )


def _stock(instance: PanelsInstance, plan: PanelsPlan) -> Iterator[str]:
    there = {stock.name: stock.available for stock in instance.stock}
    for name, used in Counter(plan.sheets).items():
        if name not in there:
            yield f"there is no sheet {name}"
        elif (available := there[name]) is not None and used > available:
            yield f"{used} sheets {name} are used, {available} are there"


def _sheets(instance: PanelsInstance, plan: PanelsPlan) -> Iterator[str]:
    """Everything lies within the trimmed sheet and a kerf apart."""
    stock = {stock.name: stock for stock in instance.stock}
    for index, name in enumerate(plan.sheets):
        sheet, inset = stock[name], instance.trim - TOLERANCE
        usable = box(inset, inset, sheet.length - inset, sheet.width - inset)
        pieces = [piece for piece in plan.pieces if piece.sheet == index]
        for piece in pieces:
            if not usable.covers(piece.outline):
                yield f"sheet {index}: {piece.part} {piece.copy} is not within it"
        for one, other in combinations(pieces, 2):
            if one.outline.distance(other.outline) < instance.kerf - TOLERANCE:
                yield f"sheet {index}: {one.part} {one.copy} and {other.part} {other.copy} are not a kerf apart"


def _parts(instance: PanelsInstance, plan: PanelsPlan) -> Iterator[str]:
    """Every copy of every part is there, at an allowed angle, and its pieces make it up with full laps."""
    parts: list[Panel | SmallPart] = [*instance.panels, *instance.parts]
    named = {part.name: part for part in parts}
    for name in sorted({piece.part for piece in plan.pieces} - named.keys()):
        yield f"{name} is not asked for"
    for part in parts:
        copies = {piece.copy for piece in plan.pieces if piece.part == part.name}
        if copies != set(range(1, part.quantity + 1)):
            yield f"{part.name}: {len(copies)} copies are there, not {part.quantity}"
        for copy in sorted(copies):
            yield from _copy(instance, plan, part, copy)


def _copy(instance: PanelsInstance, plan: PanelsPlan, part: Panel | SmallPart, copy: int) -> Iterator[str]:
    allowed = part.rotations if isinstance(part, SmallPart) else (0, 180)
    pieces = [piece for piece in plan.pieces if (piece.part, piece.copy) == (part.name, copy)]
    if any(piece.mirrored or piece.angle % 360 not in allowed for piece in pieces):
        yield f"{part.name} {copy} lies at an angle or on a face that is not allowed"
    shapes = sorted((piece.in_own_frame for piece in pieces), key=lambda shape: shape.bounds[0])
    wanted = _shares(instance, part, _stations(plan, part.name, copy))
    if len(shapes) != len(wanted) or not all(map(_same, shapes, wanted)):
        yield f"{part.name} {copy}: its pieces are not its outline divided at its joints with full laps"


def _shares(instance: PanelsInstance, part: Panel | SmallPart, stations: Sequence[float]) -> list[Polygon]:
    """Return the pieces into which joints at these stations divide an outline."""
    outline = Polygon(part.outline)
    west, south, east, north = outline.bounds
    half = instance.lap / 2
    ends = [west - half, *stations, east + half]
    return [outline.intersection(box(a - half, south, b + half, north)) for a, b in pairwise(ends)]


def _same(one: Polygon, other: Polygon) -> bool:
    """Whether two shapes differ no deeper than the study rounds."""
    return bool(other.buffer(OUTLINE_TOLERANCE, join_style="mitre").covers(one)) and bool(
        one.buffer(OUTLINE_TOLERANCE, join_style="mitre").covers(other)
    )


def _joints(instance: PanelsInstance, plan: PanelsPlan) -> Iterator[str]:
    """Joints are of panels, off their zones, and leave no piece too short."""
    panels = {panel.name: panel for panel in instance.panels}
    half = instance.lap / 2
    for joint in plan.joints:
        if joint.part not in panels:
            yield f"{joint.part} is joined"
        elif any(
            joint.station - half < to - TOLERANCE and joint.station + half > start + TOLERANCE
            for start, to in panels[joint.part].no_joint
        ):
            yield f"{joint.part} {joint.copy}: the joint at {joint.station:g} reaches into a no-joint zone"
    for panel, copy in product(panels.values(), range(1, max(p.quantity for p in panels.values()) + 1)):
        stations = _stations(plan, panel.name, copy)
        west, _, east, _ = Polygon(panel.outline).bounds
        if stations and min(b - a for a, b in pairwise([west, *stations, east])) < panel.least_piece - TOLERANCE:
            yield f"{panel.name} {copy}: a piece is shorter than {panel.least_piece:g}"


def _matched(instance: PanelsInstance, plan: PanelsPlan) -> Iterator[str]:
    """Matched panels take the same stations, copy by copy."""
    for one, other in combinations((panel for panel in instance.panels if panel.matched), 2):
        if one.matched != other.matched:
            continue
        for copy in range(1, max(one.quantity, other.quantity) + 1):
            first, second = (_stations(plan, panel.name, copy) for panel in (one, other))
            if len(first) != len(second) or any(abs(a - b) > TOLERANCE for a, b in zip(first, second, strict=True)):
                yield f"{one.name} and {other.name}, copy {copy}, are matched but joined at other stations"


def _neighbours(instance: PanelsInstance, plan: PanelsPlan) -> Iterator[str]:
    """Joints of any two copies of neighbours are the shift apart."""
    own = {panel.name: {j.station for j in plan.joints if j.part == panel.name} for panel in instance.panels}
    for panel in instance.panels:
        for other in panel.neighbours:
            for a, b in product(sorted(own[panel.name]), sorted(own[other])):
                if abs(a - b) < instance.shift - TOLERANCE:
                    yield f"{panel.name} and {other} are joined at {a:g} and {b:g}, not {instance.shift:g} apart"


def _cost(instance: PanelsInstance, plan: PanelsPlan) -> Iterator[str]:
    """Sheets are paid whole; a joint as each + per mm x chord, the scarf of a blank once over its width.

    Each joint may be off by half a cent, for amounts of money are rounded.
    """
    price = {stock.name: stock.price for stock in instance.stock}
    panels = {panel.name: panel for panel in instance.panels}
    divided = [joint for joint in plan.joints if joint.scarf is None and joint.part in panels]
    chords = [_chord(panels[joint.part], joint.station) for joint in divided]
    widths = [*chords, *plan.scarf_widths.values()]
    joints = sum(instance.joint_each + instance.joint_per_mm * width for width in widths)
    cost = sum(price[name] for name in plan.sheets) + joints
    if abs(cost - plan.cost) > 0.005 * len(widths) + TOLERANCE:
        yield f"it costs {cost:.2f}, not {plan.cost:.2f}"


def _chord(panel: Panel, station: float) -> float:
    """Return the length of the joint line across a panel."""
    outline = Polygon(panel.outline)
    _, south, _, north = outline.bounds
    return float(outline.intersection(LineString([(station, south), (station, north)])).length)


def _stations(plan: PanelsPlan, part: str, copy: int) -> list[float]:
    return sorted(joint.station for joint in plan.joints if (joint.part, joint.copy) == (part, copy))
