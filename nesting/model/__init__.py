"""The words of the job and of the plan, as frozen values without algorithms."""

from .base import LONGEST, TOLERANCE, Value
from .consistency import suggestion
from .job import Job
from .joint_rule import JointCost, JointRule
from .long_plank import LongPlank, LongStick, PlankPart, PlankScarf, PlankWay
from .measures import UNITS, figures_in, millimetres
from .outline import Mark, Outline, Point, Ring, Vertex
from .parts import Coating, Neighbours, Panel, Strip
from .plan import (
    Blank,
    BlankScarf,
    Bound,
    Hand,
    Joint,
    LengthOffcut,
    Member,
    PanelPiece,
    Plan,
    Polygon,
    Purchase,
    Share,
    SheetAreas,
    SheetOffcut,
    StrapPiece,
    StripPiece,
    TimberLengths,
    Totals,
    UsedLength,
    UsedSheet,
    Way,
)
from .price_break import PriceBreak
from .problems import AuditError, JobError, NestingError, NoPlanError, Problem
from .serving import length_serves, same_goods, same_section, same_timber, sheet_serves, sticks_from, timber_gives
from .stock import Fault, Length, Sheet
from .workshop import Kerf, Workshop

__all__ = [
    "LONGEST",
    "TOLERANCE",
    "UNITS",
    "AuditError",
    "Blank",
    "BlankScarf",
    "Bound",
    "Coating",
    "Fault",
    "Hand",
    "Job",
    "JobError",
    "Joint",
    "JointCost",
    "JointRule",
    "Kerf",
    "Length",
    "LengthOffcut",
    "LongPlank",
    "LongStick",
    "Mark",
    "Member",
    "Neighbours",
    "NestingError",
    "NoPlanError",
    "Outline",
    "Panel",
    "PanelPiece",
    "Plan",
    "PlankPart",
    "PlankScarf",
    "PlankWay",
    "Point",
    "Polygon",
    "PriceBreak",
    "Problem",
    "Purchase",
    "Ring",
    "Share",
    "Sheet",
    "SheetAreas",
    "SheetOffcut",
    "StrapPiece",
    "Strip",
    "StripPiece",
    "TimberLengths",
    "Totals",
    "UsedLength",
    "UsedSheet",
    "Value",
    "Vertex",
    "Way",
    "Workshop",
    "figures_in",
    "length_serves",
    "millimetres",
    "same_goods",
    "same_section",
    "same_timber",
    "sheet_serves",
    "sticks_from",
    "suggestion",
    "timber_gives",
]
