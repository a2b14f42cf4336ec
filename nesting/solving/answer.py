"""What a solver found, in a form in which a time-out can't be read as a proof."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum


class Status(Enum):
    """How a solve ended."""

    OPTIMAL = "the values are proven best"
    FEASIBLE = "values were found, but time ran out before they were proven best"
    IMPOSSIBLE = "proven: no values satisfy the model"
    UNKNOWN = "time ran out before any values were found"


@dataclass(frozen=True)
class Answer:
    """Values by variable name, and an exact integer bound on the objective.

    ``bound`` is proven whatever the status: no values give a lower objective. None where nothing is proven.
    """

    status: Status
    values: Mapping[str, int]
    objective: int | None
    bound: int | None

    @property
    def found(self) -> bool:
        """Whether there are values."""
        return self.status in (Status.OPTIMAL, Status.FEASIBLE)
