"""Outlines to be placed on a strip of open length, or in equal bins."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any

from shapely.geometry import Polygon

from .folder import read_file

Ring = tuple[tuple[float, float], ...]

STRIP_FAMILIES = ("classic", "gardeyn", "jigsaw", "poly")
BIN_FAMILIES = ("terashima1", "terashima2")


@dataclass(frozen=True)
class IrregularItem:
    """An outline, anticlockwise; ``rotations`` are the angles allowed in degrees, None where any is."""

    points: Ring
    quantity: int
    rotations: tuple[float, ...] | None
    holes: tuple[Ring, ...] = ()

    @cached_property
    def polygon(self) -> Polygon:
        """The outline as it is in the file."""
        return Polygon(self.points, self.holes)


@dataclass(frozen=True)
class StripInstance:
    """Place all items on a strip ``width`` wide (along y) with the least length (along x); no mirroring."""

    name: str
    family: str
    width: float
    items: tuple[IrregularItem, ...]
    optimal_length: float | None = None

    @property
    def area(self) -> float:
        """Area of all items: over width and length it is the density."""
        return _area(self.items)


@dataclass(frozen=True)
class BinInstance:
    """Place all items in the fewest bins ``width`` (along x) by ``height``; no mirroring."""

    name: str
    family: str
    kind: str
    width: float
    height: float
    items: tuple[IrregularItem, ...]
    optimum: int | None = None

    @property
    def area(self) -> float:
        """Area of all items."""
        return _area(self.items)


def irregular_strips(folder: Path, families: Sequence[str] = STRIP_FAMILIES) -> list[StripInstance]:
    """Read the strip instances, each variant with other rotations as an instance of its own."""
    found = []
    for family in families:
        for one in read_file(folder, f"irregular_strip_{family}.json")["instances"]:
            named = {one["name"]: None, **{other["name"]: other["rotations"] for other in one.get("variants", ())}}
            found += [_strip(one, family, name, rotations) for name, rotations in named.items()]
    return found


def irregular_bins(folder: Path, families: Sequence[str] = BIN_FAMILIES) -> list[BinInstance]:
    """Read the bin instances that say how large a bin is."""
    return [
        BinInstance(
            name=one["name"],
            family=family,
            kind=one.get("class", family),
            width=one["container"]["width"],
            height=one["container"]["height"],
            items=_items(one["items"]),
            optimum=one.get("optimum"),
        )
        for family in families
        for one in read_file(folder, f"irregular_bin_{family}.json")["instances"]
        if one["container"] is not None
    ]


def _strip(one: dict[str, Any], family: str, name: str, rotations: Any) -> StripInstance:
    return StripInstance(name, family, one["width"], _items(one["items"], rotations), one.get("optimal_length"))


def _items(items: Sequence[dict[str, Any]], rotations: Any = None) -> tuple[IrregularItem, ...]:
    return tuple(
        IrregularItem(
            points=_ring(item["points"]),
            quantity=item["quantity"],
            rotations=_angles(item["rotations"] if rotations is None else rotations),
            holes=tuple(_ring(hole) for hole in item.get("holes", ())),
        )
        for item in items
    )


def _ring(points: Sequence[Sequence[float]]) -> Ring:
    return tuple((float(x), float(y)) for x, y in points)


def _angles(rotations: Any) -> tuple[float, ...] | None:
    return None if rotations == "any" else tuple(float(angle) for angle in rotations)


def _area(items: Sequence[IrregularItem]) -> float:
    return float(sum(item.polygon.area * item.quantity for item in items))
