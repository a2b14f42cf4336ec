"""Outlines from offsets: two edges, each held by nails, with knuckles where two battens meet."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from nesting.model import Outline

from .arcs import SAG
from .batten import sampled
from .fault import OutlineError


@dataclass(frozen=True)
class Nail:
    """A point through which the edge runs; ``corner`` marks a knuckle, one batten each side of it."""

    station: float
    offset: float
    corner: bool = False


def outline_from_offsets(upper: Sequence[Nail], lower: Sequence[Nail], sag: float = SAG) -> Outline:
    """Return the outline between two faired edges; straight ends join their first and their last nails.

    Raises
    ------
    OutlineError
        If an edge has fewer than two nails or its stations don't rise.
    """
    edges = {"upper": _faired("upper", upper, sag), "lower": _faired("lower", lower, sag)}
    return Outline(points=tuple(edges["lower"] + edges["upper"][::-1]))


def _faired(edge: str, nails: Sequence[Nail], sag: float) -> list[tuple[float, float]]:
    """Return the points of one edge: a batten for each run between knuckles."""
    _require_rising(edge, nails)
    knuckles = [index for index, nail in enumerate(nails[1:-1], 1) if nail.corner]
    bounds = [0, *knuckles, len(nails) - 1]
    points: list[tuple[float, float]] = []
    for first, last in pairwise(bounds):
        run = nails[first : last + 1]
        curve = sampled(np.array([nail.station for nail in run]), np.array([nail.offset for nail in run]), sag)
        points += [(float(x), float(y)) for x, y in curve[:-1]]
    return [*points, (nails[-1].station, nails[-1].offset)]


def _require_rising(edge: str, nails: Sequence[Nail]) -> None:
    if len(nails) < 2:
        raise OutlineError("few-offsets", f"the {edge} edge has {len(nails)} rows", "Give at least two rows an edge.")
    for before, after in pairwise(nails):
        if after.station <= before.station:
            raise OutlineError(
                "stations-order",
                f"the {edge} edge's station {after.station:g} follows {before.station:g}",
                "List each edge's stations in rising order, each once.",
            )
