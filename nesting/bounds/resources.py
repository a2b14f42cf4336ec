"""What panels take and sheets give, each kind of it a place in one vector."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from nesting.joints import Reach, least_joints
from nesting.model import TOLERANCE, Job, JointRule, Panel, sheet_serves
from nesting.outlines import polygon

from .demand import reach_of
from .supply import Supply

Floats = NDArray[np.float64]


#: Into how many parts a line across a sheet is parted to say how many chords go abreast.
PARTS = (2, 3, 4, 5, 6, 7, 8)

#: Of these so many for strips of a sheet, across which few chords go abreast.
FEW = 2

#: Into how many equal strips sheets may be ripped for a blank.
STRIPS = (1, 2, 3)


@dataclass(frozen=True)
class ScarfKind:
    """The scarfs of blanks by one joint rule, of sheets of one width, whole or ripped into so many equal strips.

    ``members`` are places in the supplies.
    The panels across such a scarf have chords, each with a gap, of ``chords`` in all at the most; it costs at least
    ``cents``. A blank has ``least`` of them at the least; with no more than that the last of its sheets is of ``whole``
    length, or else of half of it at the least.
    """

    joint: str
    members: tuple[int, ...]
    chords: float
    cents: int
    strips: int = 1
    least: int = 1
    whole: bool = False


@dataclass(frozen=True)
class Line:
    """A line across a sheet, ``height`` long, over which pieces go abreast: by width, or in ``parts`` less one.

    It is the middle of a sheet's length, or a scarf of a blank; ``owner`` is the place of either in the resources.
    """

    owner: int
    height: float
    parts: int

    @property
    def gives(self) -> float:
        """What one sheet gives of it."""
        return float(self.parts - 1) if self.parts else self.height


@dataclass(frozen=True)
class Resources:
    """One material and thickness: its kinds of sheet, and the kinds of scarf that blanks of them may have.

    A vector over them holds: area on each kind of sheet in square millimetres, then joint money of divided panels in
    cents, then chords across each kind of scarf in millimetres, then what pieces take of lines across.
    """

    supplies: tuple[Supply, ...]
    scarfs: tuple[ScarfKind, ...]
    lines: tuple[Line, ...]

    @property
    def size(self) -> int:
        """How long such a vector is."""
        return len(self.supplies) + 1 + len(self.scarfs) + len(self.lines)

    @property
    def joint(self) -> int:
        """Place of joint money."""
        return len(self.supplies)

    def scarf(self, kind: int) -> int:
        """Return the place of chords across a kind of scarf."""
        return len(self.supplies) + 1 + kind

    def lines_on(self, owner: int) -> list[tuple[int, Line]]:
        """Return the places of the lines of a kind of sheet or scarf, with each."""
        return self._lines_by_owner[owner]

    @cached_property
    def _lines_by_owner(self) -> list[list[tuple[int, Line]]]:
        first = len(self.supplies) + 1 + len(self.scarfs)
        placed = [(first + k, line) for k, line in enumerate(self.lines)]
        return [[(place, line) for place, line in placed if line.owner == owner] for owner in range(first)]

    @cached_property
    def owners(self) -> tuple[int, ...]:
        """Place among what is bought, sheets, joint money and scarfs, of what gives each resource."""
        return (*range(len(self.supplies) + 1 + len(self.scarfs)), *(line.owner for line in self.lines))

    @cached_property
    def each(self) -> Floats:
        """What one sheet gives of area, one cent of joint money, one scarf of chords."""
        areas = [supply.area for supply in self.supplies]
        return np.array([*areas, 1.0, *(scarf.chords for scarf in self.scarfs), *(line.gives for line in self.lines)])


def resources_of(job: Job, panels: Sequence[Panel], supplies: Sequence[Supply]) -> Resources:
    """Return the resources that these kinds of sheet give these panels, with blanks of them if the job allows.

    Of scarfs there are those across which at least one of the panels may lie.
    """
    rules = [(name, rule) for name, rule in job.joints.items() if rule.kind == "scarf"]
    blanks = job.workshop.way != "divided"
    kinds = [
        asked_for
        for alike in _alike(supplies)
        for name, rule in rules
        for strips in STRIPS
        if blanks
        and (asked_for := _asked_for(job, panels, supplies, _kind(job, name, rule, supplies, (alike, strips))))
    ]
    return Resources(tuple(supplies), tuple(kinds), tuple(_lines(job, supplies, kinds)))


def lies_across(panel: Panel, height: float, gap: float, kind: ScarfKind) -> bool:
    """Whether a panel may lie across a kind of scarf: its whole height lies along it."""
    return kind.joint == panel.joint and panel.grain != "across" and height + gap <= kind.chords + TOLERANCE


def _asked_for(job: Job, panels: Sequence[Panel], supplies: Sequence[Supply], kind: ScarfKind) -> ScarfKind | None:
    """Return a kind of scarf with the least of it that a blank needs; None if no panel may lie across it.

    Of a blank only those scarfs count that a panel lies across: what others join does as well apart. Next to one
    another there are then at least as many as the panel has joints where no piece of it is longer than a sheet.
    """
    long = max(supplies[k].length for k in kind.members) + 2 * job.workshop.allowance + TOLERANCE
    needs: list[tuple[int, bool]] = []
    for panel in panels:
        bounds = polygon(panel.outline).bounds
        if not _lies_on(job, panel, bounds[3] - bounds[1], supplies, kind):
            continue
        reach = reach_of(job, panel, bounds, supplies)
        least = scarfs_needed(reach, long)
        if least is not None:
            needs.append((least, reach.length > (least + 0.5) * long - least * reach.lap))
    if not needs:
        return None
    least, whole = min(needs)  # of as many, one that half a sheet at the end will do for comes first
    return replace(kind, least=least, whole=whole)


def scarfs_needed(reach: Reach, long: float) -> int | None:
    """Return how many scarfs a panel crosses at the least, once at least, of sheets of a length; None if it can't."""
    joints = least_joints(_eased(replace(reach, usable=long)))
    return None if joints is None else max(1, joints)


def _eased(reach: Reach) -> Reach:
    """Return a reach that asks for a hair less, by which a plan may miss what is asked."""
    zones = tuple((start + TOLERANCE, end - TOLERANCE) for start, end in reach.zones if end - start > 2 * TOLERANCE)
    return replace(reach, zones=zones, least_piece=max(0.0, reach.least_piece - TOLERANCE))


def _lies_on(job: Job, panel: Panel, height: float, supplies: Sequence[Supply], kind: ScarfKind) -> bool:
    """Whether a panel, served by one of its members, may lie across a kind of scarf."""
    served = any(sheet_serves(job, supplies[k].sheet, panel) for k in kind.members)
    return served and lies_across(panel, height, job.workshop.gap, kind)


def _lines(job: Job, supplies: Sequence[Supply], kinds: Sequence[ScarfKind]) -> Iterator[Line]:
    """Yield the lines across sheets and scarfs; across a scarf the chords themselves are a resource already."""
    for k, supply in enumerate(supplies):
        yield from (Line(k, supply.width + job.workshop.gap, parts) for parts in (0, *PARTS))
    for k, kind in enumerate(kinds):
        of_kind = PARTS if kind.strips == 1 else PARTS[:FEW]
        yield from (Line(len(supplies) + 1 + k, kind.chords, parts) for parts in of_kind)


def _alike(supplies: Sequence[Supply]) -> list[list[int]]:
    """Return the kinds of whole sheet by width: only sheets of one width are joined to a blank."""
    wholes = [k for k, supply in enumerate(supplies) if supply.sheet.size is not None]
    groups: list[list[int]] = []
    for k in sorted(wholes, key=lambda k: supplies[k].width):
        if groups and supplies[k].width - supplies[groups[-1][-1]].width <= 2 * TOLERANCE:
            groups[-1].append(k)
        else:
            groups.append([k])
    return groups


def _kind(
    job: Job, name: str, rule: JointRule, supplies: Sequence[Supply], ripped: tuple[Sequence[int], int]
) -> ScarfKind:
    """Return the scarfs of one rule across sheets of one width, the usable one: nothing is spared at their ends."""
    (members, strips), kerf = ripped, job.workshop.kerf.sheet
    widths = [supplies[k].width + 2 * job.workshop.allowance for k in members]
    narrowest, widest = ((width - (strips - 1) * kerf) / strips for width in (min(widths), max(widths)))
    cents = int(rule.cost.of(max(0.0, narrowest - 2 * TOLERANCE)) * 100)
    return ScarfKind(name, tuple(members), widest + kerf + TOLERANCE, cents, strips)
