"""Outlines as geometry: cleaning, battens through offsets, growing by half a kerf, placing."""

from .arcs import SAG, flatten
from .boat_stations import boat_station
from .cleaning import polygon
from .fault import OutlineError
from .growing import grown_inside, grown_outside, shrunk
from .offsets import Nail, outline_from_offsets
from .placing import moved, ring_points, turned
from .zones import no_joint_zones

__all__ = [
    "SAG",
    "Nail",
    "OutlineError",
    "boat_station",
    "flatten",
    "grown_inside",
    "grown_outside",
    "moved",
    "no_joint_zones",
    "outline_from_offsets",
    "polygon",
    "ring_points",
    "shrunk",
    "turned",
]
