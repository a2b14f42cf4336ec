"""One panel as its bounds need it: its shape, its chords, the sheets that serve it."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely
from shapely.geometry import Polygon

from nesting.joints import Reach
from nesting.model import TOLERANCE, Job, JointRule, Panel, sheet_serves
from nesting.outlines import grown_inside, polygon

from .demand import longest_on, reach_of
from .middle import middle_of_whole, weight
from .profile import Profile, profile_of
from .resources import Floats, Resources


@dataclass(frozen=True)
class Asked:
    """A panel and what may serve it.

    ``area`` holds half a gap all around the panel; ``serving`` are places among the kinds of sheet, and ``longest`` the
    longest piece of the panel that each of these gives.
    """

    job: Job
    panel: Panel
    resources: Resources
    shape: Polygon
    area: float
    serving: tuple[int, ...]
    longest: tuple[float, ...]

    @property
    def rule(self) -> JointRule | None:
        """How it may be joined."""
        return None if self.panel.joint is None else self.job.joints[self.panel.joint]

    @property
    def length(self) -> float:
        """Over all, along its stations."""
        west, _, east, _ = self.shape.bounds
        return float(east - west)

    @property
    def height(self) -> float:
        """Over all, across its stations."""
        _, south, _, north = self.shape.bounds
        return float(north - south)

    @cached_property
    def profile(self) -> Profile:
        """Its chords."""
        return profile_of(self.shape)

    @cached_property
    def reach(self) -> Reach:
        """Where its joints may lie."""
        return reach_of(self.job, self.panel, self.shape.bounds, self.resources.supplies)

    @property
    def reaches(self) -> tuple[float, ...]:
        """How far, at most, a piece can reach along each kind of sheet that serves, within a blank or not."""
        gained = 0.0 if self.job.workshop.way == "divided" else 2 * self.job.workshop.allowance
        return tuple(self.resources.supplies[k].length + gained for k in self.serving)

    @property
    def is_wide(self) -> bool:
        """Whether it is higher than any sheet that serves is wide: then it comes from sheets scarfed edge to edge."""
        widest = max((self.resources.supplies[k].width for k in self.serving), default=float("inf"))
        joined = self.rule is not None and self.rule.kind == "scarf" and self.job.workshop.way != "divided"
        return joined and self.panel.grain != "across" and self.height > widest + TOLERANCE

    @property
    def lies_true(self) -> bool:
        """Whether every piece of it lies exactly along the sheet, so that its chords are chords of the sheet."""
        return self.panel.grain == "along" and self.panel.grain_tolerance == 0

    @cached_property
    def abreast(self) -> Profile | None:
        """Its chords as they go abreast across a sheet.

        None if it may be turned, or lies across and may be divided, or if sheets scarfed edge to edge share its chords.
        """
        if self.panel.grain == "any" or self.panel.grain_tolerance > 0 or self.is_wide:
            return None
        if self.panel.grain == "along":
            return self.profile
        return profile_of(_turned(self.shape)) if self.rule is None else None

    @cached_property
    def over_middles(self) -> dict[int, Floats]:
        """What it takes in one piece, by kind of sheet that serves, of the lines across the middles of sheets."""
        taken = {kind: np.zeros(self.resources.size) for kind in self.serving}
        if self.abreast is None:
            return taken
        for kind, reach in zip(self.serving, self.reaches, strict=True):
            chord = np.array([middle_of_whole(self.abreast, self.job.workshop.gap, reach)])
            for place, line in self.resources.lines_on(kind):
                taken[kind][place] = float(weight(line, chord)[0])
        return taken

    def wholes(self) -> tuple[int, ...]:
        """Return the kinds of sheet on which it may lie in one piece, as far as its box tells."""
        fit = (k for k, most in zip(self.serving, self.longest, strict=True) if self.length <= most + TOLERANCE)
        return tuple(k for k in fit if self.height <= self._across(k) + TOLERANCE)

    def _across(self, kind: int) -> float:
        """Return how high it may be on a kind of sheet; one that may be turned is not asked."""
        if self.panel.grain == "any" or self.panel.grain_tolerance > 0:
            return float("inf")
        supply = self.resources.supplies[kind]
        return supply.width if self.panel.grain == "along" else supply.length


def _turned(shape: Polygon) -> Polygon:
    """Return a shape with x and y changed: chords of one run along the other."""
    return shapely.transform(shape, lambda points: points[:, ::-1])


def asked_of(job: Job, panel: Panel, resources: Resources) -> Asked:
    """Return what is asked with one panel."""
    shape = polygon(panel.outline)
    supplies = resources.supplies
    serving = tuple(k for k, supply in enumerate(supplies) if sheet_serves(job, supply.sheet, panel))
    _, south, _, north = shape.bounds
    # Within a blank a piece needs no allowance at a sheet's scarfed ends: twice that is more than it can gain.
    gained = 0.0 if job.workshop.way == "divided" else 2 * job.workshop.allowance
    most = job.workshop.longest_piece or float("inf")
    longest = tuple(min(most, gained + longest_on(panel, supplies[k], float(north - south))) for k in serving)
    return Asked(job, panel, resources, shape, float(grown_inside(shape, job.workshop.gap / 2).area), serving, longest)
