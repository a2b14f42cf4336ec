"""Small jobs that several rooms test with."""

from typing import Any

from nesting.model import Job

PLY = {"name": "ply", "material": "gaboon", "thickness": 6, "size": [2440, 1220], "price": "84.00"}
SCARF = {"slope": 8, "least_piece": 450, "cost": {"each": "2.00", "per_m": "6.00"}}
BUTT = {"kind": "butt", "strap": 15, "least_piece": 300, "cost": {"each": "1.00", "per_m": "4.00"}}


def panel(name: str, length: float, width: float, **more: Any) -> dict[str, Any]:
    """Return a rectangular panel of 6 mm gaboon."""
    return {"name": name, "material": "gaboon", "thickness": 6, "outline": {"rectangle": [length, width]}, **more}


def job(*panels: dict[str, Any], sheets: tuple[dict[str, Any], ...] = (PLY,), **more: Any) -> Job:
    """Return a job of panels from whole sheets, sawn with a kerf of 3, trimmed by 10."""
    workshop = {"kerf": 3, "trim": 10, **more.pop("workshop", {})}
    return Job.model_validate(
        {"workshop": workshop, "joints": {"scarf": SCARF, "butt": BUTT}, "sheets": sheets, "panels": panels, **more}
    )
