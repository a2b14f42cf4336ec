"""The geometry of scarfs and butts, and where joints may lie."""

from nesting.outlines import boat_station

from .chord import between, chord, least_chord
from .dividing import DividingError, divide, has_sound_band, straps_behind
from .on_blank import blank_scarfs, offsets_on_blank, stations_on_blank
from .reaching import HAIR, MOST_JOINTS, Intervals, Reach, least_joints, stations_hold, windows
from .relaxing import Relief, reliefs
from .scarf import bevel_angle, bevel_face, glue_area, joined_length, lap

__all__ = [
    "HAIR",
    "MOST_JOINTS",
    "DividingError",
    "Intervals",
    "Reach",
    "Relief",
    "between",
    "bevel_angle",
    "bevel_face",
    "blank_scarfs",
    "boat_station",
    "chord",
    "divide",
    "glue_area",
    "has_sound_band",
    "joined_length",
    "lap",
    "least_chord",
    "least_joints",
    "offsets_on_blank",
    "reliefs",
    "stations_hold",
    "stations_on_blank",
    "straps_behind",
    "windows",
]
