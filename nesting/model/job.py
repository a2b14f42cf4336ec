"""The job: what is asked, the stock it may come from, and the workshop's habits."""

from typing import Literal

from pydantic import Field, model_validator

from .base import Name, Value
from .consistency import inconsistencies
from .joint_rule import JointRule
from .parts import Neighbours, Panel, Strip
from .problems import JobError
from .stock import Length, Sheet
from .workshop import Workshop


class Job(Value):
    """Everything that a plan is made from. Millimetres, degrees, one currency.

    Raises
    ------
    JobError
        If names are not unique, or one part of the job refers to another that is not there.
    """

    title: Name = "Job"
    units: Literal["mm"] = "mm"
    currency: str = Field(default="EUR", pattern=r"^[A-Z]{3}$")
    grades: tuple[Name, ...] = ()
    workshop: Workshop = Workshop()
    joints: dict[Name, JointRule] = Field(default_factory=dict)
    sheets: tuple[Sheet, ...] = ()
    panels: tuple[Panel, ...] = ()
    neighbours: tuple[Neighbours, ...] = ()
    lengths: tuple[Length, ...] = ()
    strips: tuple[Strip, ...] = ()

    @model_validator(mode="after")
    def _consistent(self) -> "Job":
        if problems := inconsistencies(self):
            raise JobError(problems)
        return self

    def rank(self, grade: str | None) -> int:
        """Return the place of a grade from poor to good; no grade asked is the poorest."""
        return 0 if grade is None else self.grades.index(grade)

    def panel(self, name: str) -> Panel:
        """Return the panel of that name."""
        return next(panel for panel in self.panels if panel.name == name)

    def strip(self, name: str) -> Strip:
        """Return the strip of that name."""
        return next(strip for strip in self.strips if strip.name == name)
