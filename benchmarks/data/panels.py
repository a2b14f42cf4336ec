"""The study of panels with joints: sheets to be bought, joints to be placed, for the least cost."""

from dataclasses import dataclass
from pathlib import Path
from typing import Any

from .folder import read_file
from .irregular import Ring


@dataclass(frozen=True)
class StockSheet:
    """A kind of sheet, millimetres along and across the grain; None available means as many as needed."""

    name: str
    length: float
    width: float
    price: float
    available: int | None


@dataclass(frozen=True)
class Panel:
    """A panel with x along its datum axis; it lies at 0 or 180 degrees, good face up."""

    name: str
    outline: Ring
    quantity: int
    no_joint: tuple[tuple[float, float], ...]
    least_piece: float
    neighbours: tuple[str, ...]
    matched: str | None
    turn_end_for_end: bool


@dataclass(frozen=True)
class SmallPart:
    """A part that is never joined, and the angles at which it may lie."""

    name: str
    outline: Ring
    quantity: int
    rotations: tuple[float, ...]


@dataclass(frozen=True)
class PanelsInstance:
    """One job of the study; ``study`` holds the best cost for each way and the bounds that the study found."""

    name: str
    family: str
    thickness: float
    slope: float
    lap: float
    kerf: float
    trim: float
    shift: float
    joint_each: float
    joint_per_mm: float
    stock: tuple[StockSheet, ...]
    panels: tuple[Panel, ...]
    parts: tuple[SmallPart, ...]
    study: dict[str, float]


def panels_study(folder: Path) -> list[PanelsInstance]:
    """Read the jobs of the study."""
    return [_instance(one) for one in read_file(folder, "panels_study.json")["instances"]]


def _instance(one: dict[str, Any]) -> PanelsInstance:
    return PanelsInstance(
        name=one["name"],
        family="study",
        **{key: one[key] for key in ("thickness", "slope", "lap", "kerf", "trim", "shift", "study")},
        joint_each=one["joint_cost"]["each"],
        joint_per_mm=one["joint_cost"]["per_mm_width"],
        stock=tuple(StockSheet(**stock) for stock in one["stock"]),
        panels=tuple(_panel(panel) for panel in one["panels"]),
        parts=tuple(
            SmallPart(part["name"], _ring(part["outline"]), part["quantity"], tuple(part["rotations"]))
            for part in one["parts"]
        ),
    )


def _panel(panel: dict[str, Any]) -> Panel:
    return Panel(
        name=panel["name"],
        outline=_ring(panel["outline"]),
        quantity=panel["quantity"],
        no_joint=tuple((start, end) for start, end in panel["no_joint"]),
        least_piece=panel["least_piece"],
        neighbours=tuple(panel["neighbours"]),
        matched=panel["matched"],
        turn_end_for_end=panel["turn_end_for_end"],
    )


def _ring(points: list[list[float]]) -> Ring:
    return tuple((x, y) for x, y in points)
