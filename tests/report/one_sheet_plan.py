"""Plans made by hand of parts that lie, good face up, on one sheet as their outlines say."""

from decimal import Decimal

from shapely.geometry import Polygon

from nesting.model import (
    Job,
    Outline,
    PanelPiece,
    Plan,
    SheetAreas,
    TimberLengths,
    Totals,
    UsedSheet,
)


def one_sheet_plan(parts: dict[str, Polygon], size: tuple[float, float], tape: str = "mm") -> Plan:
    """Return a plan of one sheet of a size, millimetres, without trim, from which each part is cut once.

    Only what drawings and tables read is true of it: it is not a plan that an audit would take.
    """
    length, width = size
    job = {
        "workshop": {"tape": tape, "trim": 0},
        "sheets": [{"name": "ply", "material": "ply", "thickness": 6, "size": [length, width]}],
        "panels": [
            {"name": name, "material": "ply", "thickness": 6, "outline": Outline.model_validate(shape)}
            for name, shape in parts.items()
        ],
    }
    return Plan(
        seed=0,
        work=0,
        job=Job.model_validate(job),
        job_sha256="0" * 64,
        totals=_totals(),
        purchases=(),
        used=(
            UsedSheet(
                id="S1", stock="ply", source="buy", trim=0, outline=((0, 0), (length, 0), (length, width), (0, width))
            ),
        ),
        pieces=tuple(lying(name, shape, on="S1") for name, shape in parts.items()),
        joints=(),
        offcuts=(),
    )


def lying(name: str, shape: Polygon, on: str) -> PanelPiece:
    """Return a whole part that lies where its outline says."""
    rings = [tuple(ring.coords[:-1]) for ring in (shape.exterior, *shape.interiors)]
    return PanelPiece(
        id=f"{name}-{on}",
        part=name,
        copy=1,
        hand="",
        index=1,
        of=1,
        on=on,
        outline=rings[0],
        holes=tuple(rings[1:]),
        x=0,
        y=0,
        angle=0,
        mirrored=False,
    )


def _totals() -> Totals:
    nothing = Decimal(0)
    money = dict.fromkeys(("to_pay", "joint_cost", "offcut_value", "objective", "bound"), nothing)
    return Totals(
        **money,
        bound_reason="nothing is below nothing",
        bound_scope="any",
        proven=False,
        sheets=1,
        lengths=0,
        joints=0,
        areas=SheetAreas(used=0, parts=0, laps=0, trim=0, offcuts=0, rest=0),
        timber=TimberLengths(used=0, parts=0, laps=0, offcuts=0, rest=0),
        waste_percent=0,
        timber_waste_percent=0,
    )
