"""Scarf geometry, and where joints may lie."""

from .boat_stations import boat_station
from .chord import between, chord, least_chord
from .dividing import DividingError, divide, has_sound_band
from .reaching import Intervals, Reach, least_joints, stations_hold, windows
from .relaxing import Relief, reliefs
from .scarf import bevel_angle, bevel_face, glue_area, joined_length, lap

__all__ = [
    "DividingError",
    "Intervals",
    "Reach",
    "Relief",
    "between",
    "bevel_angle",
    "bevel_face",
    "boat_station",
    "chord",
    "divide",
    "glue_area",
    "has_sound_band",
    "joined_length",
    "lap",
    "least_chord",
    "least_joints",
    "reliefs",
    "stations_hold",
    "windows",
]
