"""Outlines: closed rings of line and arc segments, and marks that travel with the part."""

from typing import Any

from pydantic import Field, field_validator, model_validator

from .base import Number, Ratio, Value, length_of

#: ``(x, y)`` in millimetres, or ``(x, y, bulge)`` where the segment to the next point is an arc and bulge is
#: the tangent of a quarter of its angle, positive when it turns anticlockwise (the convention of DXF polylines).
Vertex = tuple[Number, Number] | tuple[Number, Number, Ratio]
Point = tuple[Number, Number]
Ring = tuple[Vertex, ...]

#: More points than any outline drawn by hand or machine needs; a guard against nonsense.
MOST_POINTS = 20_000


class Mark(Value):
    """Something drawn on the part: one point, a line through several, or a text at the first."""

    points: tuple[Point, ...] = Field(min_length=1, max_length=MOST_POINTS)
    text: str = Field(default="", max_length=200)


class Outline(Value):
    """A closed outline in the part's own frame: x along its baseline, y its offsets, millimetres.

    The first point is not repeated. It is drawn as seen on the good face. It may be given as ``rectangle``,
    or as any object with ``__geo_interface__`` of type Polygon, such as a shapely polygon.
    """

    points: Ring = Field(min_length=2, max_length=MOST_POINTS)
    holes: tuple[Ring, ...] = Field(default=(), max_length=1000)
    marks: tuple[Mark, ...] = Field(default=(), max_length=1000)

    @model_validator(mode="before")
    @classmethod
    def _from_other_forms(cls, given: Any) -> Any:
        if hasattr(given, "__geo_interface__"):
            return _from_geo_interface(given.__geo_interface__)
        if isinstance(given, dict) and "rectangle" in given:
            return _from_rectangle(given)
        return given

    @field_validator("holes")
    @classmethod
    def _holes_are_rings(cls, holes: tuple[Ring, ...]) -> tuple[Ring, ...]:
        if any(len(hole) < 2 for hole in holes):
            raise ValueError("a hole needs at least three points, or two joined by arcs")
        return holes

    @property
    def rings(self) -> tuple[Ring, ...]:
        """The outer ring, then the holes."""
        return (self.points, *self.holes)


def _from_geo_interface(mapping: dict[str, Any]) -> dict[str, Any]:
    if mapping.get("type") != "Polygon":
        raise ValueError(f"must be one polygon, not a {mapping.get('type')}")
    rings = [tuple(tuple(point[:2]) for point in ring[:-1]) for ring in mapping["coordinates"]]
    if not rings:
        raise ValueError("is an empty polygon")
    return {"points": rings[0], "holes": rings[1:]}


def _from_rectangle(given: dict[str, Any]) -> dict[str, Any]:
    """Turn ``rectangle = [length, width]`` into its four corners."""
    if "points" in given or "holes" in given:
        raise ValueError("takes either rectangle or points, not both")
    sides = given["rectangle"]
    if not isinstance(sides, list | tuple) or len(sides) != 2:
        raise ValueError("rectangle needs two figures: its length along x and its width")
    for side in sides:
        if not isinstance(millimetres := length_of(side), float) or not 0 < millimetres < float("inf"):
            raise ValueError(f"rectangle needs two lengths above zero, not {side!r}")
    length, width = sides
    rest = {key: value for key, value in given.items() if key != "rectangle"}
    return {**rest, "points": ((0, 0), (length, 0), (length, width), (0, width))}
