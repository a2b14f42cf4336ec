"""Whether the pieces of a job agree with one another: unique names, known references, even pairs."""

from collections import Counter
from collections.abc import Iterator, Mapping
from difflib import get_close_matches
from itertools import pairwise
from typing import Protocol

from .joint_rule import JointRule
from .parts import Frame, Neighbours, Panel, Strip
from .problems import Problem
from .stock import Length, Sheet


class Asked(Protocol):
    """What has to agree within a job."""

    @property
    def grades(self) -> tuple[str, ...]:
        """From poor to good."""

    @property
    def joints(self) -> Mapping[str, JointRule]:
        """By name."""

    @property
    def sheets(self) -> tuple[Sheet, ...]:
        """Kinds of sheet."""

    @property
    def panels(self) -> tuple[Panel, ...]:
        """Parts from sheets."""

    @property
    def frames(self) -> tuple[Frame, ...]:
        """Where joints keep off."""

    @property
    def neighbours(self) -> tuple[Neighbours, ...]:
        """Pairs of panels or strips."""

    @property
    def lengths(self) -> tuple[Length, ...]:
        """Kinds of timber."""

    @property
    def strips(self) -> tuple[Strip, ...]:
        """Parts from timber."""


def inconsistencies(job: Asked) -> list[Problem]:
    """Return every disagreement within the job; an empty list means that it is consistent."""
    checks = (_empty, _names, _grades, _joints, _pairs, _stretches, _boat_stations, _frames, _neighbours)
    return [problem for check in checks for problem in check(job)]


def suggestion(word: str, known: list[str], otherwise: str) -> str:
    """Return a "did you mean" sentence if a known word is near, else the other sentence."""
    near = get_close_matches(word, known, n=1, cutoff=0.6)
    return f'Did you mean "{near[0]}"?' if near else otherwise


def _empty(job: Asked) -> Iterator[Problem]:
    if not job.panels and not job.strips:
        yield Problem(
            code="no-parts",
            where="job",
            reason="it asks for no part",
            remedy="Add at least one [[panels]] or [[strips]].",
        )


def _names(job: Asked) -> Iterator[Problem]:
    for kinds in (("panels", "strips"), ("sheets", "lengths"), ("frames",)):
        count = Counter(item.name for kind in kinds for item in getattr(job, kind))
        for kind in kinds:
            for index, item in enumerate(getattr(job, kind)):
                if count[item.name] > 1:
                    yield Problem(
                        code="same-name",
                        where=f'{kind[:-1]} "{item.name}"',
                        path=(kind, index, "name"),
                        reason=f"the name stands {count[item.name]} times",
                        remedy="Give each its own name: drawings and lists call it by that.",
                    )


def _grades(job: Asked) -> Iterator[Problem]:
    for kind in ("sheets", "panels", "lengths", "strips"):
        for index, item in enumerate(getattr(job, kind)):
            if item.grade is not None and item.grade not in job.grades:
                yield Problem(
                    code="unknown-grade",
                    where=f'{kind[:-1]} "{item.name}"',
                    path=(kind, index, "grade"),
                    reason=f'grade "{item.grade}" is not among grades',
                    remedy=suggestion(
                        item.grade, list(job.grades), "List all grades in grades = [...], from poor to good."
                    ),
                )


def _joints(job: Asked) -> Iterator[Problem]:
    for kind in ("panels", "strips"):
        for index, item in enumerate(getattr(job, kind)):
            if item.joint is not None and item.joint not in job.joints:
                yield Problem(
                    code="unknown-joint",
                    where=f'{kind[:-1]} "{item.name}"',
                    path=(kind, index, "joint"),
                    reason=f'joint "{item.joint}" is not described',
                    remedy=suggestion(item.joint, list(job.joints), f"Add [joints.{item.joint}]."),
                )
            elif item.joint is not None and kind == "strips" and job.joints[item.joint].kind == "butt":
                yield Problem(
                    code="butt-in-timber",
                    where=f'strip "{item.name}"',
                    path=(kind, index, "joint"),
                    reason=f'joint "{item.joint}" is a butt, and end grain glued to end grain does not hold',
                    remedy='Name a joint of kind = "scarf".',
                )


def _pairs(job: Asked) -> Iterator[Problem]:
    for index, panel in enumerate(job.panels):
        if panel.handed and panel.quantity % 2:
            yield _odd_pair(f'panel "{panel.name}"', ("panels", index), "it is handed", panel.quantity)
    for index, strip in enumerate(job.strips):
        if strip.matched and strip.quantity % 2:
            why = "its copies are matched port and starboard"
            yield _odd_pair(f'strip "{strip.name}"', ("strips", index), why, strip.quantity)


def _odd_pair(where: str, path: tuple[str, int], why: str, quantity: int) -> Problem:
    return Problem(
        code="odd-pair",
        where=where,
        path=(*path, "quantity"),
        reason=f"{why}, yet its quantity is {quantity}",
        remedy="Quantity counts finished parts, port and starboard together: make it even.",
    )


def _stretches(job: Asked) -> Iterator[Problem]:
    for kind in ("panels", "strips"):
        for index, item in enumerate(getattr(job, kind)):
            for start, end in item.no_joint:
                if start >= end:
                    yield Problem(
                        code="empty-zone",
                        where=f'{kind[:-1]} "{item.name}"',
                        path=(kind, index, "no_joint"),
                        reason=f"the no-joint zone from {start:g} to {end:g} does not run forward",
                        remedy="Write each zone as [from, to] with from below to.",
                    )
    for index, strip in enumerate(job.strips):
        for start, end in strip.prefer:
            if start >= end:
                yield Problem(
                    code="empty-stretch",
                    where=f'strip "{strip.name}"',
                    path=("strips", index, "prefer"),
                    reason=f"the stretch from {start:g} to {end:g} where joints are better does not run forward",
                    remedy="Write each stretch as [from, to] with from below to.",
                )


def _boat_stations(job: Asked) -> Iterator[Problem]:
    for index, panel in enumerate(job.panels):
        rows = panel.boat_stations
        forward = all(a[0] < b[0] and a[1] < b[1] for a, b in pairwise(rows))
        if rows and (len(rows) < 2 or not forward):
            yield Problem(
                code="boat-stations",
                where=f'panel "{panel.name}"',
                path=("panels", index, "boat_stations"),
                reason="the map to boat stations needs two rows or more, both columns rising",
                remedy="Write rows [own station, boat station] from aft to forward or forward to aft, "
                "each larger than the last.",
            )


def _frames(job: Asked) -> Iterator[Problem]:
    known = [frame.name for frame in job.frames]
    for index, panel in enumerate(job.panels):
        for number, name in enumerate(panel.frames):
            if name not in known:
                yield Problem(
                    code="unknown-frame",
                    where=f'panel "{panel.name}"',
                    path=("panels", index, "frames", number),
                    reason=f'there is no frame "{name}"',
                    remedy=suggestion(name, known, "Add it to [[frames]], with its station along the boat."),
                )


def _neighbours(job: Asked) -> Iterator[Problem]:
    panels, strips = ([part.name for part in parts] for parts in (job.panels, job.strips))
    for index, pair in enumerate(job.neighbours):
        path = ("neighbours", index, "between")
        where = f'neighbours "{pair.between[0]}" and "{pair.between[1]}"'
        for name in dict.fromkeys(pair.between):
            if name not in panels + strips:
                yield Problem(
                    code="unknown-neighbour",
                    where=where,
                    path=path,
                    reason=f'there is no panel or strip "{name}"',
                    remedy=suggestion(name, panels + strips, "Name two panels or two strips of this job."),
                )
        if len(set(pair.between)) == 1:
            yield from _own_neighbour(job, pair, path, where)
        elif sorted(map(panels.count, pair.between)) == sorted(map(strips.count, pair.between)) == [0, 1]:
            yield Problem(
                code="unlike-neighbours",
                where=where,
                path=path,
                reason="one is a panel and the other a strip, whose stations are not compared",
                remedy="Name two panels, or two strips.",
            )


def _own_neighbour(job: Asked, pair: Neighbours, path: tuple[str | int, ...], where: str) -> Iterator[Problem]:
    """Yield a problem for a panel that is its own neighbour, or a strip of which there are no two copies."""
    if any(panel.name == pair.between[0] for panel in job.panels):
        yield Problem(
            code="own-neighbour",
            where=where,
            path=path,
            reason="a panel can't be its own neighbour",
            remedy="Name two different panels.",
        )
    if pair.shift and any(strip.name == pair.between[0] and strip.matched for strip in job.strips):
        yield Problem(
            code="matched-apart",
            where=where,
            path=path,
            reason="its copies are matched, joints at the same stations, and yet are to keep their joints apart",
            remedy="Leave matched out, or give the layers names of their own and make those neighbours.",
        )
    if any(strip.name == pair.between[0] and strip.quantity == 1 for strip in job.strips):
        yield Problem(
            code="own-neighbour",
            where=where,
            path=path,
            reason="there is only one of that strip, so it has no neighbour of its kind",
            remedy="Raise its quantity, or name two different strips.",
        )
