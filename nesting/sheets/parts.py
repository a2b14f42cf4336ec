"""The panels of a job with their geometry, the sheets that may serve them, and how they may be divided."""

from collections.abc import Sequence
from dataclasses import dataclass

from shapely.geometry import Polygon

from nesting.joints import MOST_JOINTS, Reach
from nesting.model import TOLERANCE, Hand, Job, JointRule, Panel
from nesting.outlines import no_joint_zones, polygon

from .leaning import longest_leaning
from .stock import Stock


@dataclass(frozen=True, eq=False)
class Part:
    """One panel of the job; ``stocks`` are the kinds of sheet that may serve it, at least one, ``blanks`` of blank.

    ``thickness`` is that of the thickest of them as measured: a lap or strap taken from it is long enough on all.
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

    @property
    def height(self) -> float:
        """How high it is over all, square to its x axis."""
        _, south, _, north = self.shape.bounds
        return float(north - south)

    @property
    def is_wide(self) -> bool:
        """Whether it is higher than any sheet that serves is wide, so that only sheets scarfed edge to edge hold it."""
        widest = max(stock.size[1] for stock in self.stocks)
        return self.panel.grain != "across" and self.height > widest + TOLERANCE


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
        usable=min(max(longest_pieces(panel, shape, stocks)), job.workshop.longest_piece or float("inf")),
        least_piece=rule.least_piece if rule else 0.0,
        zones=no_joint_zones(job, panel),
        strap=rule.strap_length(thickness) if rule else 0.0,
        most_joints=MOST_JOINTS if panel.most_joints is None else panel.most_joints,
    )
    return Part(index, panel, shape, thickness, rule, stocks, reach)


def longest_pieces(panel: Panel, shape: Polygon, stocks: Sequence[Stock]) -> list[float]:
    """Return the longest pieces of a panel that sheets can give: of each lying true to its grain, and leaning.

    A piece of the leaning length fits whatever its shape, as a rectangle as high as the whole panel would.
    """
    true = [longest_along(panel, stock) for stock in stocks]
    if panel.grain == "any" or panel.grain_tolerance == 0:
        return true
    _, south, _, north = shape.bounds
    boxes = [stock.size if panel.grain == "along" else stock.size[::-1] for stock in stocks]
    leaning = [longest_leaning(*box, north - south, panel.grain_tolerance) for box in boxes]
    return list(dict.fromkeys([*true, *leaning]))


def longest_along(panel: Panel, stock: Stock) -> float:
    """Return the longest piece of a panel, along its x axis, that a sheet's box can give if it lies true."""
    length, width = stock.size
    return {"along": length, "across": width, "any": max(length, width)}[panel.grain]
