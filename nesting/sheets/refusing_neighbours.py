"""Says, in the builder's words, why the joints of neighbours can't be kept apart."""

import math
from collections.abc import Iterator, Sequence

from nesting.model import Job, Problem

from .apart_on_blanks import FromBlanks
from .clash_told import clash_told
from .joined import blanks_across
from .keeping_apart import Divided, Panels
from .longer_blanks import longest_that_helps
from .parts import Part
from .refusing import shifts_not_kept
from .reliefs_told import longest_given


def clashing(job: Job, parts: Sequence[Part], way: str) -> Problem:
    """Return which facts clash where panels are made in a way, if that is proven, and what helps."""
    return (_clash_on_blanks if way == "joined" else _clash)(job, parts) or shifts_not_kept(job)


def neighbours_of(job: Job, parts: Sequence[Part]) -> tuple[Part, ...]:
    """Return the panels with joints that have neighbours with joints."""
    names = {name for pair in job.neighbours if _all_there(pair.between, parts) for name in pair.between}
    return tuple(part for part in parts if part.panel.name in names)


def panels_of(job: Job, those: Sequence[Part]) -> Panels:
    """Return panels that are neighbours with what their joints keep to."""
    place = {part.panel.name: k for k, part in enumerate(those)}
    pairs = [pair for pair in job.neighbours if _all_there(pair.between, those)]
    return Panels(
        names=tuple(place),
        reaches=tuple(part.reach for part in those),
        maps=tuple(part.panel.boat_stations for part in those),
        shifts=tuple((place[pair.between[0]], place[pair.between[1]], pair.shift) for pair in pairs),
        given=tuple(longest_given(part) for part in those),
        handled=job.workshop.longest_piece or math.inf,
    )


def from_blanks(job: Job, those: Sequence[Part]) -> FromBlanks:
    """Return the question whether panels from blanks can keep their joints apart."""
    return FromBlanks(tuple(blanks_across(part) for part in those), job.workshop.longest_piece)


def _clash(job: Job, parts: Sequence[Part]) -> Problem | None:
    """Tell of panels that may be divided; of blanks they keep to the same rules, and more."""
    those = neighbours_of(job, parts)
    panels = panels_of(job, those)
    question = Divided(
        names=panels.names,
        most=panels.most_joints,
        longer=tuple(longest_at_all(part, job) - part.reach.usable for part in those),
        shorter=tuple(part.reach.lap - min([part.reach.lap, *_laps(part)]) for part in those),
    )
    return clash_told(panels, question)


def _clash_on_blanks(job: Job, parts: Sequence[Part]) -> Problem | None:
    """Tell of panels that may only come from blanks, and whether they could be made divided."""
    those = neighbours_of(job, parts)
    panels, question = panels_of(job, those), from_blanks(job, those)
    nothing = tuple(0.0 for _ in those)
    divided = Divided(panels.names, panels.most_joints, nothing, nothing).is_possible(panels)
    divided &= job.workshop.way == "joined"
    helps = ['write way = "both" or "divided"'] if divided else []
    return clash_told(panels, question, [*_longer_blanks(job, those), *helps])


def _longer_blanks(job: Job, those: Sequence[Part]) -> Iterator[str]:
    """Tell how long blanks have to be on which all shifts are kept, if only they can't be handled."""

    def kept(longer: Job, parts: tuple[Part, ...]) -> bool:
        return from_blanks(longer, parts).is_possible(panels_of(longer, parts))

    length = longest_that_helps(job, those, kept)
    if length is not None:
        yield f"raise longest_piece to {length} (now {job.workshop.longest_piece:g})"


def longest_at_all(part: Part, job: Job) -> float:
    """Return a length that no piece of a panel exceeds, however it is made.

    Of two points of a piece that lie L apart along the panel, and no more than its height across it, the sheet sees
    L cos t - height sin t at the least, where the piece is turned by t; turned at will it is within the diagonal.
    Within a blank a piece needs no allowance at the ends of a sheet.
    """
    panel = part.panel
    more, turn = 2 * job.workshop.allowance, math.radians(panel.grain_tolerance)
    if panel.grain == "any":
        longest = max(math.hypot(*stock.size) for stock in part.stocks)
    else:
        along = max(stock.size[panel.grain == "across"] for stock in part.stocks)
        longest = (along + part.height * math.sin(turn)) / math.cos(turn)
    return max(part.reach.usable, min(longest + more, job.workshop.longest_piece or math.inf))


def _laps(part: Part) -> list[float]:
    return [stock.blank.lap for stock in part.blanks if stock.blank is not None]


def _all_there(names: Sequence[str], parts: Sequence[Part]) -> bool:
    return {part.panel.name for part in parts if part.rule}.issuperset(names)
