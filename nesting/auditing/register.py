"""A plan laid open for looking things up; nothing in it is taken on trust."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property
from typing import TypeVar

from nesting.model import (
    TOLERANCE,
    Blank,
    Job,
    Joint,
    JointRule,
    Length,
    LongPlank,
    Panel,
    PanelPiece,
    Plan,
    Sheet,
    StrapPiece,
    Strip,
    StripPiece,
    UsedLength,
    UsedSheet,
)

AnyPiece = TypeVar("AnyPiece", PanelPiece, StripPiece)
CopyName = tuple[str, int]


@dataclass(frozen=True)
class Register:
    """What a plan and its job hold, by name."""

    plan: Plan

    @property
    def job(self) -> Job:
        """The job in the plan."""
        return self.plan.job

    @cached_property
    def sheets(self) -> dict[str, Sheet]:
        """Kinds of sheet by name."""
        return {sheet.name: sheet for sheet in self.job.sheets}

    @cached_property
    def lengths(self) -> dict[str, Length]:
        """Kinds of timber by name."""
        return {length.name: length for length in self.job.lengths}

    @cached_property
    def stock(self) -> dict[str, Sheet | Length]:
        """Kinds of sheet and of timber by name, as the job lists them."""
        return {**self.sheets, **self.lengths}

    @cached_property
    def panels(self) -> dict[str, Panel]:
        """Panels by name."""
        return {panel.name: panel for panel in self.job.panels}

    @cached_property
    def strips(self) -> dict[str, Strip]:
        """Strips by name."""
        return {strip.name: strip for strip in self.job.strips}

    @cached_property
    def used_sheets(self) -> dict[str, UsedSheet]:
        """Used sheets by id."""
        return {used.id: used for used in self.plan.used if isinstance(used, UsedSheet)}

    @cached_property
    def used_lengths(self) -> dict[str, UsedLength]:
        """Used timber by id."""
        return {used.id: used for used in self.plan.used if isinstance(used, UsedLength)}

    @cached_property
    def blanks(self) -> dict[str, Blank]:
        """Blanks by id."""
        return {blank.id: blank for blank in self.plan.blanks}

    @cached_property
    def long_sticks(self) -> dict[str, LongPlank]:
        """The long plank of each stick that is ripped from one, by the stick's id."""
        return {stick.id: plank for plank in self.plan.long_planks for stick in plank.sticks}

    @cached_property
    def scarfs(self) -> frozenset[str]:
        """Ids of the scarfs of all blanks and long planks."""
        of_blanks = (scarf.id for blank in self.plan.blanks for scarf in blank.scarfs)
        return frozenset((*of_blanks, *(scarf.id for plank in self.plan.long_planks for scarf in plank.scarfs)))

    @cached_property
    def panel_pieces(self) -> tuple[PanelPiece, ...]:
        """All pieces of panels."""
        return tuple(piece for piece in self.plan.pieces if isinstance(piece, PanelPiece))

    @cached_property
    def straps(self) -> tuple[StrapPiece, ...]:
        """All straps behind butts."""
        return tuple(piece for piece in self.plan.pieces if isinstance(piece, StrapPiece))

    @cached_property
    def sheet_pieces(self) -> tuple[PanelPiece | StrapPiece, ...]:
        """All that is cut from sheets and blanks."""
        return (*self.panel_pieces, *self.straps)

    @cached_property
    def strip_pieces(self) -> tuple[StripPiece, ...]:
        """All pieces of strips."""
        return tuple(piece for piece in self.plan.pieces if isinstance(piece, StripPiece))

    @cached_property
    def panel_copies(self) -> dict[CopyName, list[PanelPiece]]:
        """Pieces of each copy of a panel, in the order of their index."""
        return _by_copy(self.panel_pieces)

    @cached_property
    def strip_copies(self) -> dict[CopyName, list[StripPiece]]:
        """Pieces of each copy of a strip, in the order of their index."""
        return _by_copy(self.strip_pieces)

    @cached_property
    def joints(self) -> dict[CopyName, list[Joint]]:
        """Joints of each copy of a part, from the low stations up."""
        found: defaultdict[CopyName, list[Joint]] = defaultdict(list)
        for joint in sorted(self.plan.joints, key=lambda joint: joint.station):
            found[joint.part, joint.copy_number].append(joint)
        return found

    def sheet_of(self, used_id: str) -> Sheet | None:
        """Return the kind of a used sheet; None if either is unknown."""
        used = self.used_sheets.get(used_id)
        return self.sheets.get(used.stock) if used else None

    def members(self, blank: Blank) -> list[Sheet]:
        """Return the kinds of sheet in a blank, in its order, without those that are unknown."""
        found = (self.sheet_of(member.used) for member in blank.members)
        return [sheet for sheet in found if sheet is not None]

    def sheets_under(self, place: str) -> list[Sheet]:
        """Return the kinds of sheet of which a used sheet, or a blank, is made."""
        if place in self.blanks:
            return self.members(self.blanks[place])
        sheet = self.sheet_of(place)
        return [] if sheet is None else [sheet]

    def rule(self, part: Panel | Strip) -> JointRule | None:
        """Return the rule by which a part may be divided; None if it must be in one piece."""
        return None if part.joint is None else self.job.joints.get(part.joint)

    def thickness(self, panel: Panel) -> float:
        """Return what a panel's laps are taken from: the thickest sheet, as measured, that it may be cut from."""
        serving = [sheet.measured or sheet.thickness for sheet in self.serving(panel)]
        return max(serving, default=panel.thickness)

    def serving(self, panel: Panel) -> list[Sheet]:
        """Return the kinds of sheet from which a panel may be cut, their sizes apart."""
        return [
            sheet
            for sheet in self.job.sheets
            if sheet.material == panel.material
            and abs(sheet.thickness - panel.thickness) <= TOLERANCE
            and self.rank(sheet.grade) >= self.rank(panel.grade)
        ]

    def rank(self, grade: str | None) -> int:
        """Return the place of a grade from poor to good; an unknown one counts as the poorest."""
        return self.job.grades.index(grade) if grade in self.job.grades else 0


def _by_copy(pieces: Iterable[AnyPiece]) -> dict[CopyName, list[AnyPiece]]:
    found: defaultdict[CopyName, list[AnyPiece]] = defaultdict(list)
    for piece in sorted(pieces, key=lambda piece: piece.index):
        found[piece.part, piece.copy_number].append(piece)
    return dict(found)


def in_words(part: Panel | Strip, copy: int | None = None) -> str:
    """Return how a part, or one copy of it, is called in a finding."""
    kind = "panel" if isinstance(part, Panel) else "strip"
    return f'{kind} "{part.name}"' + ("" if copy is None else f", copy {copy}")
