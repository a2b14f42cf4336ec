"""Where on a panel no joint may lie."""

from nesting.model import Job, Panel

from .boat_stations import boat_station


def no_joint_zones(job: Job, panel: Panel) -> tuple[tuple[float, float], ...]:
    """Return the stretches of a panel, in its own stations, that no lap or strap may enter: its own and its frames'."""
    own = [(along_boat, station) for station, along_boat in panel.boat_stations]
    frames = [frame for frame in job.frames if frame.name in panel.frames]
    places = [(boat_station(frame.station, own), frame.clear) for frame in frames]
    return (*panel.no_joint, *((at - clear, at + clear) for at, clear in places))
