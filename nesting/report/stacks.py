"""Sheets or blanks that can be laid on one another and cut as one: their layouts are equal, or mirror images."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely import affinity
from shapely.geometry import Polygon

from nesting.drawing import Container, containers, extents, parts_of_blanks, sheet_pieces
from nesting.model import Plan

#: Millimetres: outlines whose outermost places are no farther apart, and whose lines on the mean no farther than the
#: second, are the same to any saw.
NEAR, ALIKE = 0.2, 0.1

Named = tuple[str, Polygon]


@dataclass(frozen=True, kw_only=True)
class Stacked:
    """One sheet or blank laid on another, ``under``, for cutting both at once.

    ``turned_over`` with the good faces together, so that pieces come out as mirrored pairs; ``end_for_end`` with its
    ends changed about.
    """

    name: str
    under: str
    turned_over: bool
    end_for_end: bool


#: How one may lie on another: about x, about y.
_WAYS = {(False, False): (1.0, 1.0), (True, False): (1.0, -1.0), (True, True): (-1.0, 1.0), (False, True): (-1.0, -1.0)}


def stacks(plan: Plan) -> tuple[Stacked, ...]:
    """Return each sheet or blank that can be cut together with an earlier one, beside the first such one."""
    firsts: list[tuple[str, list[Named]]] = []
    found: list[Stacked] = []
    for on in containers(plan):
        layout = _layout(plan, on)
        match = next((stacked for under, first in firsts for stacked in _on(on.id, layout, under, first)), None)
        if match:
            found.append(match)
        else:
            firsts.append((on.id, layout))
    return tuple(found)


def stacked_in_words(plan: Plan, found: Sequence[Stacked] | None = None) -> tuple[str, ...]:
    """Return what is laid on what, a sentence each; none if no two layouts are alike."""
    return tuple(_words(stacked) for stacked in (stacks(plan) if found is None else found))


def _words(stacked: Stacked) -> str:
    if not stacked.turned_over:
        turned = ", turned end for end" if stacked.end_for_end else ""
        return f"{stacked.name} is laid out like {stacked.under}: stack it on top, good faces up{turned}, and cut both."
    turned = "end for end" if stacked.end_for_end else "about its long edge"
    return (
        f"{stacked.name} is the mirror image of {stacked.under}: lay it on top, turned over {turned}, good faces "
        "together, and cut both as pairs."
    )


def _layout(plan: Plan, on: Container) -> list[Named]:
    """Return the outline of a sheet or blank, and those of its pieces by their parts, about its middle."""
    place = extents(on.outline, on)
    shapes = [("", on.outline), *((piece.part, piece.outline) for piece in sheet_pieces(plan, on.id))]
    shapes += [("for a blank", member.outline) for _, member in parts_of_blanks(plan, on.id)]
    left, bottom = min(x for x, _ in on.outline), min(y for _, y in on.outline)
    middle = left + place.size[0] / 2, bottom + place.size[1] / 2
    return [(name, Polygon(shapely.linearrings(np.array(outline) - middle))) for name, outline in shapes]


def _on(name: str, layout: list[Named], under: str, first: list[Named]) -> Iterator[Stacked]:
    if len(layout) < 2 or Counter(part for part, _ in layout) != Counter(part for part, _ in first):
        return
    for (turned_over, end_for_end), (x, y) in _WAYS.items():
        if _agree([(part, affinity.scale(shape, x, y, origin=(0, 0))) for part, shape in layout], first):
            yield Stacked(name=name, under=under, turned_over=turned_over, end_for_end=end_for_end)


def _agree(one: list[Named], other: list[Named]) -> bool:
    """Whether each outline has its like, of the same part, in the other layout."""
    left = list(other)
    for part, shape in one:
        like = next((named for named in left if named[0] == part and _same(shape, named[1])), None)
        if like is None:
            return False
        left.remove(like)
    return True


def _same(one: Polygon, other: Polygon) -> bool:
    near = all(abs(a - b) <= NEAR for a, b in zip(one.bounds, other.bounds, strict=True))
    return near and bool(one.symmetric_difference(other).area <= ALIKE * one.length)
