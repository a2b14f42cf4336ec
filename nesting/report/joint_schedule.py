"""Every joint: where it lies, how it is bevelled, and how far from its neighbours' joints."""

from collections.abc import Iterator

from nesting.drawing import joint_codes, piece_codes, visible_line
from nesting.joints import bevel_angle, boat_station, glue_area
from nesting.model import Joint, PanelPiece, Plan

from .table import Cell, Column, Table, as_csv

COLUMNS = (
    Column("joint", "Joint"),
    Column("part", "Part"),
    Column("copy", "Copy"),
    Column("hand", "Hand"),
    Column("station", "Station, mm"),
    Column("boat_station", "Boat station, mm"),
    Column("lap", "Lap, mm"),
    Column("slope", "Slope, to 1"),
    Column("bevel_angle", "Bevel, degrees"),
    Column("glue_area_cm2", "Glue area, cm²"),
    Column("low_side", "Low side piece"),
    Column("low_side_bevel", "its bevel on"),
    Column("high_side", "High side piece"),
    Column("high_side_bevel", "its bevel on"),
    Column("visible_line", "Line on good face at, mm"),
    Column("neighbours", "Nearest joint of neighbours, mm"),
)


def joint_schedule(plan: Plan) -> str:
    """Return all joints as CSV."""
    return as_csv(joint_table(plan))


def joint_table(plan: Plan) -> Table:
    """Return all joints; the glue area takes the width at the middle of the lap for all of it."""
    return Table(caption="Joint schedule", columns=COLUMNS, rows=tuple(_rows(plan)))


def _rows(plan: Plan) -> Iterator[tuple[Cell, ...]]:
    joints, pieces = joint_codes(plan), piece_codes(plan)
    for joint in plan.joints:
        low, high = joint.pieces[0], joint.pieces[-1]
        yield _row(plan, joint, joints[joint.id], pieces[low], pieces[high])


def _row(plan: Plan, joint: Joint, code: str, low: str, high: str) -> tuple[Cell, ...]:
    return (
        code,
        joint.part,
        joint.copy_number,
        _hand(plan, joint),
        round(joint.station, 1),
        _mapped(plan, joint),
        round(joint.lap, 1),
        joint.slope,
        round(bevel_angle(joint.slope), 3) if joint.slope else None,
        round(glue_area(joint.width, joint.thickness, joint.slope) / 100, 1) if joint.slope else None,
        low,
        "back",
        high,
        "good face",
        round(visible_line(joint), 1),
        "; ".join(_distances(plan, joint)),
    )


def _hand(plan: Plan, joint: Joint) -> str:
    piece = next(piece for piece in plan.pieces if piece.id == joint.pieces[0])
    return piece.hand if isinstance(piece, PanelPiece) else ""


def _rows_of(plan: Plan, part: str) -> tuple[tuple[float, float], ...]:
    """Return a part's map to boat stations; strips have none."""
    return next((panel.boat_stations for panel in plan.job.panels if panel.name == part), ())


def _mapped(plan: Plan, joint: Joint) -> Cell:
    """Return the boat station of a joint whose panel has a map."""
    rows = _rows_of(plan, joint.part)
    return round(boat_station(joint.station, rows), 1) if rows else None


def _in_boat(plan: Plan, joint: Joint) -> float:
    return boat_station(joint.station, _rows_of(plan, joint.part))


def _distances(plan: Plan, joint: Joint) -> Iterator[str]:
    """Yield, for each neighbour, how far its nearest joint is along the boat, from middle to middle."""
    for neighbour in _neighbours(plan, joint.part):
        apart = [abs(_in_boat(plan, joint) - _in_boat(plan, other)) for other in plan.joints if other.part == neighbour]
        yield f"{neighbour}: {round(min(apart), 1):g}" if apart else f"{neighbour}: no joint"


def _neighbours(plan: Plan, part: str) -> Iterator[str]:
    for pair in plan.job.neighbours:
        if part in pair.between:
            yield pair.between[1] if part == pair.between[0] else pair.between[0]
