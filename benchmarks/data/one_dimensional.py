"""Lengths to be cut from stock of one length, which is bin packing."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from .folder import read_file

FAMILIES = ("falkenauer", "hard28", "scholl", "schwerin", "waescher")


@dataclass(frozen=True)
class CuttingInstance:
    """Cut all ``items`` (size, quantity) from the fewest stock lengths of ``capacity``.

    ``bounds`` are a proven lower and the best known upper bound on their number, ``optimum`` where they meet.
    The original sizes were multiplied by ``scale``.
    """

    name: str
    family: str
    capacity: int
    items: tuple[tuple[int, int], ...]
    bounds: tuple[int, int]
    optimum: int | None
    scale: int = 1


def one_dimensional(folder: Path, families: Sequence[str] = FAMILIES) -> list[CuttingInstance]:
    """Read the instances of some families."""
    return [
        CuttingInstance(
            name=one["name"],
            family=family,
            capacity=one["capacity"],
            items=tuple((size, quantity) for size, quantity in one["items"]),
            bounds=(one["bounds"][0], one["bounds"][1]),
            optimum=one.get("optimum"),
            scale=one.get("scale", 1),
        )
        for family in families
        for one in read_file(folder, f"one_dimensional_{family}.json")["instances"]
    ]
