"""The study of strips with splices: timber to be bought, scarfs to be placed, for the least cost."""

from dataclasses import dataclass
from pathlib import Path
from typing import Any

from .folder import read_file

Stretch = tuple[int, int]


@dataclass(frozen=True)
class SpliceStock:
    """A kind of length: millimetres, cents; None available means as many as needed."""

    length: int
    price: int
    available: int | None
    faults: tuple[Stretch, ...]


@dataclass(frozen=True)
class SpliceStrip:
    """A strip wanted so many times; no lap may reach into a ``no_joint`` stretch."""

    length: int
    quantity: int
    no_joint: tuple[Stretch, ...]
    most_joints: int


@dataclass(frozen=True)
class SpliceShift:
    """The laps of two copies, each (strip, copy) counted from 0, start at least ``distance`` apart."""

    a: tuple[int, int]
    b: tuple[int, int]
    distance: int


@dataclass(frozen=True)
class SpliceInstance:
    """One job of the study, and the best cost and bound (cents) that the study found."""

    name: str
    family: str
    kerf: int
    lap: int
    least_piece: int
    joint_cost: int
    stock: tuple[SpliceStock, ...]
    strips: tuple[SpliceStrip, ...]
    shift: tuple[SpliceShift, ...]
    study_cost: int
    study_bound: int
    study_proven: bool


def splices_study(folder: Path) -> list[SpliceInstance]:
    """Read the jobs of the study; the family is the first letter of the name: small, middle or large."""
    return [_instance(one) for one in read_file(folder, "splices_study.json")["instances"]]


def _instance(one: dict[str, Any]) -> SpliceInstance:
    return SpliceInstance(
        name=one["name"],
        family=one["name"][0],
        kerf=one["kerf"],
        lap=one["lap"],
        least_piece=one["least_piece"],
        joint_cost=one["joint_cost"],
        stock=tuple(_stock(stock) for stock in one["stock"]),
        strips=tuple(_strip(strip) for strip in one["strips"]),
        shift=tuple(SpliceShift(_copy(pair["a"]), _copy(pair["b"]), pair["distance"]) for pair in one["shift"]),
        study_cost=one["study"]["cost"],
        study_bound=one["study"]["bound"],
        study_proven=one["study"]["proven"],
    )


def _stock(stock: dict[str, Any]) -> SpliceStock:
    return SpliceStock(stock["length"], stock["price"], stock["available"], _stretches(stock["faults"]))


def _strip(strip: dict[str, Any]) -> SpliceStrip:
    return SpliceStrip(strip["length"], strip["quantity"], _stretches(strip["no_joint"]), strip["most_joints"])


def _stretches(given: list[list[int]]) -> tuple[Stretch, ...]:
    return tuple((start, end) for start, end in given)


def _copy(given: dict[str, int]) -> tuple[int, int]:
    return given["strip"], given["copy"]
