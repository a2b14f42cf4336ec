"""Values published for the open instances."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from .folder import read_file

DENSITY = "density, percent"

#: What the letters in the file mean, as printed beside a value.
STATUS = {
    "V": "seen in the source",
    "V2": "seen where another source quotes it",
    "M": "from memory",
    "C": "computed for this collection",
}


@dataclass(frozen=True)
class Reference:
    """A value published for an instance or a group of instances.

    ``value`` is the value itself, or the best known upper bound where ``lower`` is a proven lower one.
    """

    of: str
    measure: str
    statistic: str | None
    value: float
    lower: float | None
    source: str
    status: str

    @property
    def told(self) -> str:
        """Source and how sure it is, to be printed or recorded beside the value."""
        return f"{self.source}, {STATUS[self.status]}"


class References:
    """All published values, to be asked."""

    def __init__(self, values: Sequence[Reference], sources: dict[str, str]) -> None:
        self._values = tuple(values)
        self.sources = sources

    def all_of(
        self, of: str, *, measure: str | None = None, statistic: str | None = None, source: str | None = None
    ) -> tuple[Reference, ...]:
        """Return all values of an instance or group; what is left out may be anything."""
        return tuple(
            value
            for value in self._values
            if value.of == of
            and measure in (None, value.measure)
            and statistic in (None, value.statistic)
            and source in (None, value.source)
        )

    def density(self, instance: str, source: str, statistic: str = "average") -> Reference | None:
        """Return a published density in percent, or None if the source has none."""
        return next(iter(self.all_of(instance, measure=DENSITY, statistic=statistic, source=source)), None)

    def bins(self, instance: str) -> Reference | None:
        """Return the bounds on the number of rectangular bins of the first type, or None."""
        return next((value for value in self.all_of(instance) if value.measure.startswith("number of bins")), None)


def references(folder: Path) -> References:
    """Read the published values."""
    file = read_file(folder, "reference_values.json")
    values = [
        Reference(
            of=one.get("instance") or one["group"],
            measure=one["measure"],
            statistic=one.get("statistic"),
            value=one["value"] if "value" in one else one["upper"],
            lower=one.get("lower"),
            source=one["source"],
            status=one["status"],
        )
        for one in file["values"]
    ]
    return References(values, file["sources"])
