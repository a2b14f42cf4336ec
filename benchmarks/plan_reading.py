"""What the checks of a ``plan.json`` share: looking things up in it, and its polygons. No library code is imported."""

from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np
from shapely import affinity
from shapely.geometry import Polygon, box

#: Millimetres within which two places are the same.
TOLERANCE = 0.001

Plan = dict[str, Any]
Item = Mapping[str, Any]


def polygon(points: Sequence[Sequence[float]], holes: Sequence[Sequence[Sequence[float]]] = ()) -> Polygon:
    """Return a polygon of points, whatever stands beside their two coordinates."""
    return Polygon([point[:2] for point in points], [[point[:2] for point in hole] for hole in holes])


def lying(piece: Item) -> Polygon:
    """Return a piece or strap as it lies; a strap has no holes."""
    return polygon(piece["outline"], piece.get("holes", ()))


def in_own_frame(piece: Item) -> Polygon:
    """Return a piece or strap in its panel's own frame."""
    shape = affinity.translate(lying(piece), -piece["x"], -piece["y"])
    shape = affinity.rotate(shape, -piece["angle"], origin=(0, 0))
    return affinity.scale(shape, 1, -1, origin=(0, 0)) if piece["mirrored"] else shape


def outline_of(panel: Item) -> Polygon:
    """Return the outline of a panel."""
    return polygon(panel["outline"]["points"], panel["outline"]["holes"])


def stretch(shape: Polygon, start: float, end: float) -> Polygon:
    """Return what of a shape lies between two stations."""
    return shape.intersection(box(start, shape.bounds[1] - 1, end, shape.bounds[3] + 1))


def differ(one: Polygon, other: Polygon) -> bool:
    """Whether two shapes differ by more than a strip as wide as the tolerance along their edge."""
    return bool(one.symmetric_difference(other).area > TOLERANCE * max(one.length, other.length))


def bites(shape: Polygon, other: Polygon) -> bool:
    """Whether two shapes overlap deeper than the tolerance: an area would grow with the length of a common edge."""
    return bool(shape.buffer(-TOLERANCE, join_style="mitre").intersects(other))


def panels(plan: Plan) -> dict[str, Item]:
    """Return the panels of the job by name."""
    return {panel["name"]: panel for panel in plan["job"]["panels"]}


def cut_from_sheets(plan: Plan) -> list[Item]:
    """Return the pieces of panels, and the straps."""
    return [piece for piece in plan["pieces"] if piece["kind"] in ("panel", "strap")]


def sheet_of(plan: Plan, used: str) -> Item:
    """Return the kind of sheet that a used sheet is."""
    stock = next(item["stock"] for item in plan["used"] if item["id"] == used)
    return next(sheet for sheet in plan["job"]["sheets"] if sheet["name"] == stock)


def sheets_under(plan: Plan, place: str) -> list[Item]:
    """Return the kinds of sheet that a used sheet, or a blank, is made of; none of a place that is not there."""
    members = [member["used"] for blank in plan["blanks"] if blank["id"] == place for member in blank["members"]]
    there = {used["id"] for used in plan["used"]}
    return [sheet_of(plan, used) for used in members or [place] if used in there]


def serves(plan: Plan, sheet: Item, panel: Item) -> bool:
    """Whether a panel may be cut from a kind of sheet: material, thickness, and a grade as good."""
    rank = {grade: place for place, grade in enumerate(plan["job"]["grades"])}
    return bool(
        sheet["material"] == panel["material"]
        and abs(sheet["thickness"] - panel["thickness"]) <= TOLERANCE
        and rank.get(sheet["grade"], 0) >= rank.get(panel["grade"], 0)
    )


def true_thickness(sheet: Item) -> float:
    """Return what was measured, or else the label."""
    return float(sheet["measured"] or sheet["thickness"])


def thickest(plan: Plan, panel: Item) -> float:
    """Return the thickness, as measured, of the thickest sheet that a panel may be cut from."""
    return max(true_thickness(sheet) for sheet in plan["job"]["sheets"] if serves(plan, sheet, panel))


def lap_of(rule: Item, thickness: float) -> float:
    """Return the lap of a scarf; a butt has none."""
    return float(rule["slope"] * thickness) if rule["kind"] == "scarf" else 0.0


def band_of(rule: Item, thickness: float) -> float:
    """Return what a joint takes up of the panel: the lap of a scarf, the strap of a butt."""
    return lap_of(rule, thickness) if rule["kind"] == "scarf" else float(rule["strap"] * thickness)


def boat_station(station: float, rows: Sequence[Sequence[float]]) -> float:
    """Return the boat's station beside a panel's own: on the line through the two rows about it, or nearest to it."""
    if not rows:
        return station
    own = [row[0] for row in rows]
    k = int(np.clip(np.searchsorted(own, station), 1, len(rows) - 1))
    (a, b), (c, d) = rows[k - 1], rows[k]
    return float(b + (d - b) * (station - a) / (c - a))
