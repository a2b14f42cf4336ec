"""Rectangles to be packed in bins of least cost."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from .folder import read_file

FAMILIES = ("classes", "single", "stock")


@dataclass(frozen=True)
class Rectangle:
    """A rectangle, wanted so many times."""

    width: int
    height: int
    quantity: int


@dataclass(frozen=True)
class Bin:
    """A kind of bin; ``available`` is None where there are as many as needed."""

    width: int
    height: int
    cost: int
    available: int | None


@dataclass(frozen=True)
class RectangularInstance:
    """Pack all rectangles in bins of the least total cost; ``rotation``: may they be turned by 90 degrees?"""

    name: str
    family: str
    kind: str
    bins: tuple[Bin, ...]
    items: tuple[Rectangle, ...]
    rotation: bool


def rectangular_bins(folder: Path, families: Sequence[str] = FAMILIES) -> list[RectangularInstance]:
    """Read the instances; ``kind`` is the class and size of those of the ten classes."""
    found = []
    for family in families:
        file = read_file(folder, f"rectangular_bin_{family}.json")
        found += [
            RectangularInstance(
                name=one["name"],
                family=family,
                kind=f"class{one['class']}_n{one['n']}" if "class" in one else family,
                bins=tuple(Bin(b["width"], b["height"], b["cost"], b["available"]) for b in one["bins"]),
                items=tuple(Rectangle(i["width"], i["height"], i["quantity"]) for i in one["items"]),
                rotation=file["rotation"],
            )
            for one in file["instances"]
        ]
    return found
