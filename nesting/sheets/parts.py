"""The panels of a job with their geometry, the sheets that may serve them, and how they may be divided."""

from dataclasses import dataclass

from shapely.geometry import Polygon

from nesting.joints import Reach
from nesting.model import Hand, Job, JointRule, Panel
from nesting.outlines import polygon

from .stock import Stock


@dataclass(frozen=True, eq=False)
class Part:
    """One panel of the job; ``stocks`` are the kinds of sheet that may serve it, at least one, ``blanks`` of blank.

    ``thickness`` is that of the thickest of them as measured: a lap taken from it is long enough on all.
    """

    index: int
    panel: Panel
    shape: Polygon
    thickness: float
    rule: JointRule | None
    stocks: tuple[Stock, ...]
    reach: Reach
    blanks: tuple[Stock, ...] = ()

    @property
    def hands(self) -> dict[Hand, int]:
        """How many copies of each hand are asked for."""
        half = self.panel.quantity // 2
        return {"port": half, "starboard": half} if self.panel.handed else {"": self.panel.quantity}


def part_of(index: int, panel: Panel, stocks: tuple[Stock, ...], job: Job) -> Part:
    """Return a panel with what its making depends on."""
    shape = polygon(panel.outline)
    rule = job.joints[panel.joint] if panel.joint else None
    west, _, east, _ = shape.bounds
    thickness = max(stock.sheet.true_thickness for stock in stocks)
    reach = Reach(
        start=west,
        end=east,
        lap=rule.lap(thickness) if rule else 0.0,
        usable=min(max(longest_along(panel, stock) for stock in stocks), job.workshop.longest_piece or float("inf")),
        least_piece=rule.least_piece if rule else 0.0,
        zones=panel.no_joint,
    )
    return Part(index, panel, shape, thickness, rule, stocks, reach)


def longest_along(panel: Panel, stock: Stock) -> float:
    """Return the longest piece of a panel, along its x axis, that a sheet's box can give."""
    length, width = stock.size
    return {"along": length, "across": width, "any": max(length, width)}[panel.grain]
