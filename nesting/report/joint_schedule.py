"""Every joint: where it lies, how it is bevelled, and how far from its neighbours' joints."""

from collections import defaultdict
from collections.abc import Iterator

from nesting.drawing import joint_codes, once_for_a_plan, piece_codes, tape_in, visible_line
from nesting.joints import bevel_angle
from nesting.model import Joint, PanelPiece, Plan, StrapPiece, StripPiece
from nesting.outlines import boat_station

from .gluing import seam_area
from .table import Cell, Column, LengthColumn, Table, as_csv, on_tape

COLUMNS = (
    Column("joint", "Joint"),
    Column("kind", "Kind"),
    Column("part", "Part"),
    Column("copy", "Copy"),
    Column("hand", "Hand"),
    LengthColumn("station", "Station"),
    LengthColumn("boat_station", "Boat station"),
    LengthColumn("lap", "Lap"),
    Column("slope", "Slope, to 1"),
    LengthColumn("strap", "Strap"),
    Column("scarf_of_blank", "Scarf of blank or plank"),
    Column("bevel_angle", "Bevel, degrees"),
    Column("glue_area_cm2", "Glue area, cm²"),
    Column("low_side", "Low side piece"),
    Column("low_side_bevel", "its bevel on"),
    Column("high_side", "High side piece"),
    Column("high_side_bevel", "its bevel on"),
    LengthColumn("visible_line", "Line on good face at"),
    LengthColumn("neighbours", "Nearest joint of neighbours"),
)


#: On what the bevels of a scarf are, by the measure of the section that they run through: low side, high side.
FACES = {"thickness": ("back", "good face"), "width": ("lower edge", "upper edge")}


def joint_schedule(plan: Plan) -> str:
    """Return all joints as CSV."""
    return as_csv(joint_table(plan))


@once_for_a_plan
def joint_table(plan: Plan) -> Table:
    """Return all joints; the glue area takes the width at the station for all of the lap or strap.

    A scarf through the width of a strip shows no line square across its face, as it slants through the lap. A joint at
    a scarf of a blank or long plank has one piece, on its low side, and no bevel of its own.
    """
    return on_tape(Table(caption="Joint schedule", columns=COLUMNS, rows=tuple(_rows(plan))), tape_in(plan))


def _rows(plan: Plan) -> Iterator[tuple[Cell, ...]]:
    joints, codes = joint_codes(plan), piece_codes(plan)
    pieces = {piece.id: piece for piece in plan.pieces if not isinstance(piece, StrapPiece)}
    for joint in plan.joints:
        row = _row(plan, joint, pieces[joint.pieces[0]], _sides(joint, codes))
        yield (joints[joint.id], *row)


def _row(plan: Plan, joint: Joint, low: PanelPiece | StripPiece, sides: tuple[Cell, ...]) -> tuple[Cell, ...]:
    return (
        joint.kind,
        joint.part,
        joint.copy_number,
        low.hand if isinstance(low, PanelPiece) else "",
        joint.station,
        _mapped(plan, joint),
        joint.lap if joint.slope else None,
        joint.slope,
        joint.strap if joint.strap else None,
        joint.scarf,
        round(bevel_angle(joint.slope), 3) if joint.slope else None,
        round(seam_area(joint) / 100, 1),
        *sides,
        visible_line(joint, low) if joint.across == "thickness" else None,
        "; ".join(_distances(plan, joint)),
    )


def _sides(joint: Joint, codes: dict[str, str]) -> tuple[Cell, ...]:
    """Return the piece on the low side and the face of its bevel, then those of the other side."""
    low, high = (codes[piece] for piece in (joint.pieces[0], joint.pieces[-1]))
    if joint.scarf:
        return low, None, None, None
    faces = FACES[joint.across] if joint.kind == "scarf" else ("square", "square")
    return low, faces[0], high, faces[1]


def _maps(plan: Plan) -> dict[str, tuple[tuple[float, float], ...]]:
    """Return the maps to boat stations by their panels; strips have none."""
    return {panel.name: panel.boat_stations for panel in plan.job.panels if panel.boat_stations}


def _mapped(plan: Plan, joint: Joint) -> Cell:
    """Return the boat station of a joint whose panel has a map."""
    return _in_boat(plan)[joint.id] if joint.part in _maps(plan) else None


@once_for_a_plan
def _in_boat(plan: Plan) -> dict[str, float]:
    """Return the boat station of each joint by its id."""
    maps = _maps(plan)
    return {joint.id: boat_station(joint.station, maps.get(joint.part, ())) for joint in plan.joints}


@once_for_a_plan
def _by_part(plan: Plan) -> dict[str, list[Joint]]:
    found: dict[str, list[Joint]] = defaultdict(list)
    for joint in plan.joints:
        found[joint.part].append(joint)
    return found


def _distances(plan: Plan, joint: Joint) -> Iterator[str]:
    """Yield, for each neighbour, how far its nearest joint is along the boat, from middle to middle."""
    places, own = _in_boat(plan), (joint.part, joint.copy_number)
    for neighbour in _neighbours(plan, joint.part):
        others = (other for other in _by_part(plan).get(neighbour, ()) if (other.part, other.copy_number) != own)
        apart = min((abs(places[joint.id] - places[other.id]) for other in others), default=None)
        yield f"{neighbour}: no joint" if apart is None else f"{neighbour}: {tape_in(plan).figure(apart)}"


def _neighbours(plan: Plan, part: str) -> Iterator[str]:
    for pair in plan.job.neighbours:
        if part in pair.between:
            yield pair.between[1] if part == pair.between[0] else pair.between[0]
