"""The job: what is asked, the stock it may come from, and the workshop's habits."""

from typing import Any, Literal

from pydantic import Field, ModelWrapValidatorHandler, model_validator

from .base import Name, Value
from .consistency import inconsistencies
from .joint_rule import JointRule
from .measures import UNITS, figures_in
from .parts import Frame, Neighbours, Panel, Strip
from .problems import JobError
from .stock import Length, Sheet
from .workshop import Workshop


class Job(Value):
    """Everything that a plan is made from. Millimetres, degrees, one currency.

    ``units`` says what bare figures of a mapping or a job file are in; the values of a job are always millimetres.
    Texts with a unit, such as "2440 mm", mean what they say. Values built on their own, such as a
    ``Panel``, take bare figures as millimetres.

    Raises
    ------
    JobError
        If names are not unique, or one part of the job refers to another that is not there.
    """

    title: Name = "Job"
    units: Literal["mm", "cm", "m", "in", "ft"] = "mm"
    currency: str = Field(default="EUR", pattern=r"^[A-Z]{3}$")
    grades: tuple[Name, ...] = ()
    workshop: Workshop = Workshop()
    joints: dict[Name, JointRule] = Field(default_factory=dict)
    sheets: tuple[Sheet, ...] = ()
    panels: tuple[Panel, ...] = ()
    frames: tuple[Frame, ...] = ()
    neighbours: tuple[Neighbours, ...] = ()
    lengths: tuple[Length, ...] = ()
    strips: tuple[Strip, ...] = ()

    @model_validator(mode="wrap")
    @classmethod
    def _in_millimetres(cls, given: Any, handler: ModelWrapValidatorHandler["Job"]) -> "Job":
        """Take bare figures to be in the job's own units; what comes out is in millimetres."""
        unit = given.get("units", "mm") if isinstance(given, dict) else "mm"
        if unit == "mm" or unit not in UNITS:
            return handler(given)
        with figures_in(unit):
            return handler({**given, "units": "mm", **_tape(given.get("workshop", {}), unit)})

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


def _tape(workshop: Any, unit: str) -> dict[str, Any]:
    """Return the workshop with a tape in inches, for a job in inches or feet that does not say what its tape shows."""
    is_said = not isinstance(workshop, dict) or "tape" in workshop
    return {} if is_said or unit not in ("in", "ft") else {"workshop": {**workshop, "tape": "in"}}
