"""Glue, resin and cloth for the whole plan."""

from collections import defaultdict

from nesting.joints import glue_area
from nesting.model import Plan
from nesting.outlines import polygon

from .glue import glue_grams, resin_litres
from .gluing import seam_area
from .table import Cell, Column, Table, as_csv

COLUMNS = (
    Column("what", "What"),
    Column("area_m2", "Area, m²"),
    Column("amount", "Amount"),
    Column("unit", "Unit"),
)

#: Cloth of 6 oz/yd², a usual weight on small boats.
USUAL_CLOTH = 203.0


def consumables(plan: Plan) -> str:
    """Return glue, resin and cloth as CSV."""
    return as_csv(consumables_table(plan))


def consumables_table(plan: Plan) -> Table:
    """Return mixed glue for all joints, and resin and cloth for what the job says is coated.

    Where it says nothing, a reckoner is given instead: the resin for one side of all panels, bare and under cloth.
    """
    glued = glued_area(plan)
    rows: list[tuple[Cell, ...]] = [("Mixed glue for all joints", round(glued / 1e6, 3), round(glue_grams(glued)), "g")]
    rows += _coats(coated_areas(plan)) or _reckoned(plan)
    return Table(caption="Glue, resin and cloth", columns=COLUMNS, rows=tuple(rows))


def glued_area(plan: Plan) -> float:
    """Return the area of all glue lines in square millimetres: of a blank's or plank's scarf its whole width, once."""
    scarfs = [(s.width, s.thickness, s.slope) for blank in plan.blanks for s in blank.scarfs]
    scarfs += [(s.width, s.thickness, s.slope) for plank in plan.long_planks for s in plank.scarfs]
    return sum(glue_area(*scarf) for scarf in scarfs) + sum(
        seam_area(joint) for joint in plan.joints if not joint.scarf
    )


def coated_areas(plan: Plan) -> dict[float, float]:
    """Return square metres of finished panels to be coated by the weight of their cloth, g/m², 0 for resin alone."""
    areas: defaultdict[float, float] = defaultdict(float)
    for panel in plan.job.panels:
        for cloth in (panel.coated.good, panel.coated.back) if panel.coated else ():
            if cloth is not None:
                areas[cloth] += polygon(panel.outline).area * panel.quantity / 1e6
    return dict(sorted(areas.items()))


def one_side(plan: Plan) -> float:
    """Return the area of all finished panels, one side of each, in square metres."""
    area: float = sum(polygon(panel.outline).area * panel.quantity for panel in plan.job.panels) / 1e6
    return area


def _coats(areas: dict[float, float]) -> list[tuple[Cell, ...]]:
    rows: list[tuple[Cell, ...]] = []
    for cloth, area in areas.items():
        under = f"under cloth of {cloth:g} g/m²" if cloth else "without cloth"
        rows.append((f"Mixed resin {under}", round(area, 2), round(resin_litres(area, cloth), 2), "L"))
        rows += [(f"Cloth of {cloth:g} g/m², overlaps and offcuts apart", round(area, 2), round(area, 2), "m²")] * (
            cloth > 0
        )
    total = sum(resin_litres(area, cloth) for cloth, area in areas.items())
    return [*rows, ("Mixed resin in all", round(sum(areas.values()), 2), round(total, 2), "L")] if areas else []


def _reckoned(plan: Plan) -> list[tuple[Cell, ...]]:
    area = one_side(plan)
    if not area:
        return []
    whole = "if one side of every panel is coated"
    return [
        (f"Mixed resin {whole}, without cloth", round(area, 2), round(resin_litres(area, 0), 2), "L"),
        (
            f"Mixed resin {whole}, under cloth of {USUAL_CLOTH:g} g/m²",
            round(area, 2),
            round(resin_litres(area, USUAL_CLOTH), 2),
            "L",
        ),
    ]
