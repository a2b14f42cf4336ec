"""An instance of the panels study as a job of ours, and a plan of it in the words of the study.

Matched panels become one handed panel, the second of them its starboard half: so they take the same stations mirrored.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from shapely import affinity
from shapely.geometry import Polygon

from benchmarks.data import Panel, PanelsInstance, SmallPart
from benchmarks.verifying.panels import JoinedAt, PanelPiece, PanelsPlan
from nesting import Job, Plan
from nesting.model import TOLERANCE, Joint
from nesting.model import PanelPiece as OurPiece

#: Goods of all sheets and parts: the study tells but the thickness.
MATERIAL = "plywood"

#: Millimetres within which two outlines are mirror images.
SAME = 0.011


@dataclass(frozen=True)
class Hands:
    """One panel of a job of ours: a panel of the study, or a matched pair.

    Of a pair the second lies ``rise`` above the mirror image of the first.
    """

    first: Panel
    second: Panel | None = None
    rise: float = 0.0

    @property
    def name(self) -> str:
        """Name in the job."""
        return self.first.name


class StudyError(Exception):
    """An instance of the study that can't be told as a job."""


def hands_of(instance: PanelsInstance) -> list[Hands]:
    """Return the panels of an instance, matched ones as pairs."""
    found: list[Hands] = []
    for panel in instance.panels:
        partner = next((h for h in found if panel.matched and h.first.matched == panel.matched), None)
        if partner is None:
            found.append(Hands(panel))
        else:
            found[found.index(partner)] = Hands(partner.first, panel, _rise(partner.first, panel))
    return found


def job_of(instance: PanelsInstance, way: str) -> Job:
    """Return the job that an instance states."""
    pairs = hands_of(instance)
    return Job.model_validate(
        {
            "title": instance.name,
            "workshop": {"kerf": instance.kerf, "trim": instance.trim, "way": way},
            "joints": {"scarf": _rule(instance)},
            "sheets": [_sheet(instance, stock) for stock in instance.stock],
            "panels": [
                *(_panel(instance, pair) for pair in pairs),
                *(_small(instance, part) for part in instance.parts),
            ],
            "neighbours": list(_neighbours(instance, pairs)),
        }
    )


def in_words_of_study(instance: PanelsInstance, plan: Plan) -> PanelsPlan:
    """Return a plan as the verifier of the study takes it: pieces of blanks as they lie on the blanks' sheets."""
    place = {used.id: index for index, used in enumerate(plan.used)}
    pairs = {pair.name: pair for pair in hands_of(instance)}
    return PanelsPlan(
        sheets=tuple(used.stock for used in plan.used),
        pieces=tuple(told for piece in plan.pieces for told in _pieces(plan, place, pairs, piece)),
        joints=tuple(_joint(plan, pairs, joint) for joint in plan.joints),
        cost=float(plan.totals.to_pay + plan.totals.joint_cost),
        scarf_widths={scarf.id: scarf.width for blank in plan.blanks for scarf in blank.scarfs},
    )


def _rise(first: Panel, second: Panel) -> float:
    """Return by how much the mirror image of the first has to be lifted to be the second.

    Raises
    ------
    StudyError
        If it is not the mirror image.
    """
    mirrored = affinity.scale(Polygon(first.outline), 1, -1, origin=(0, 0))
    other = Polygon(second.outline)
    rise = float(other.bounds[1] - mirrored.bounds[1])
    lifted = affinity.translate(mirrored, 0, rise)
    if lifted.hausdorff_distance(other) > SAME or first.quantity != second.quantity:
        raise StudyError(f"{second.name} is matched with {first.name}, yet not its mirror image")
    return rise


def _rule(instance: PanelsInstance) -> dict[str, Any]:
    least = {panel.least_piece for panel in instance.panels}
    if len(least) != 1:
        raise StudyError("panels with unlike least pieces would need a joint rule each")
    cost = {"each": f"{instance.joint_each:.2f}", "per_m": f"{1000 * instance.joint_per_mm:.2f}"}
    return {"slope": instance.slope, "least_piece": least.pop(), "cost": cost}


def _sheet(instance: PanelsInstance, stock: Any) -> dict[str, Any]:
    return {
        "name": stock.name,
        "material": MATERIAL,
        "thickness": instance.thickness,
        "size": [stock.length, stock.width],
        "price": f"{stock.price:.2f}",
        "available": stock.available,
    }


def _panel(instance: PanelsInstance, pair: Hands) -> dict[str, Any]:
    return {
        "name": pair.name,
        "material": MATERIAL,
        "thickness": instance.thickness,
        "outline": {"points": pair.first.outline},
        "quantity": pair.first.quantity * (1 if pair.second is None else 2),
        "handed": pair.second is not None,
        "joint": "scarf",
        "no_joint": pair.first.no_joint,
    }


def _small(instance: PanelsInstance, part: SmallPart) -> dict[str, Any]:
    return {
        "name": part.name,
        "material": MATERIAL,
        "thickness": instance.thickness,
        "outline": {"points": part.outline},
        "quantity": part.quantity,
        "grain": "along" if set(part.rotations) == {0, 180} else "any",
    }


def _neighbours(instance: PanelsInstance, pairs: Sequence[Hands]) -> Iterator[dict[str, Any]]:
    """Yield each pair of neighbours once, by the names that panels have in the job."""
    name = {panel.name: pair.name for pair in pairs for panel in (pair.first, pair.second) if panel is not None}
    seen = {frozenset((name[panel.name], name[other])): None for panel in instance.panels for other in panel.neighbours}
    for both in seen:
        yield {"between": sorted(both), "shift": instance.shift}


def _pieces(plan: Plan, place: dict[str, int], pairs: dict[str, Hands], piece: Any) -> Iterator[PanelPiece]:
    """Yield a piece as it lies on its sheet, or its shares on the sheets of its blank."""
    shape = Polygon(piece.outline, piece.holes)
    part, copy, lift = _told_as(pairs, piece)
    cos, sin = (1.0, 0.0) if piece.angle % 360 == 0 else (-1.0, 0.0)
    if piece.angle % 180:
        cos, sin = 0.0, 1.0 if piece.angle % 360 == 90 else -1.0
    x, y = piece.x + lift * sin, piece.y - lift * cos  # the second of a pair lies lifted in its own frame
    for index, dx, dy, share in _on_sheets(plan, place, piece.on, shape):
        yield PanelPiece(part, copy, index, share, piece.angle, x + dx, y + dy)


def _told_as(pairs: dict[str, Hands], piece: OurPiece) -> tuple[str, int, float]:
    """Return the name and copy of a piece in the study, and how far its frame is lifted."""
    pair = pairs.get(piece.part)
    if pair is None or pair.second is None:
        return piece.part, piece.copy_number, 0.0
    copy = (piece.copy_number + 1) // 2
    return (pair.second.name, copy, pair.rise) if piece.mirrored else (pair.first.name, copy, 0.0)


def _on_sheets(
    plan: Plan, place: dict[str, int], on: str, shape: Polygon
) -> Iterator[tuple[int, float, float, Polygon]]:
    """Yield the sheet, the move from blank to sheet and the share of a shape on it."""
    blank = next((blank for blank in plan.blanks if blank.id == on), None)
    if blank is None:
        yield place[on], 0.0, 0.0, shape
        return
    for member in blank.members:
        there = affinity.translate(Polygon(member.outline), member.x, member.y)
        share = shape.intersection(there)
        if share.area > TOLERANCE * share.length:  # no sliver where it but touches a sheet
            yield place[member.used], -member.x, -member.y, affinity.translate(share, -member.x, -member.y)


def _joint(plan: Plan, pairs: dict[str, Hands], joint: Joint) -> JoinedAt:
    piece = next(piece for piece in plan.pieces if piece.id == joint.pieces[0])
    assert isinstance(piece, OurPiece)
    part, copy, _ = _told_as(pairs, piece)
    return JoinedAt(part, copy, joint.station, joint.scarf)
