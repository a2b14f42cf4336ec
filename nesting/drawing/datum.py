"""Where things lie from the datum corner, the lower left, of the sheet or blank that they are on."""

from dataclasses import dataclass

from nesting.model import Blank, Member, PanelPiece, Plan, Polygon, StrapPiece, UsedSheet

from .canvas import Point
from .lying_on import by_what_they_lie_on
from .remembering import once_for_a_plan

#: What pieces of panels are cut from, and what is cut from it.
Container = UsedSheet | Blank
SheetPiece = PanelPiece | StrapPiece


@dataclass(frozen=True, kw_only=True)
class Extents:
    """Least and greatest distances from the datum corner: ``left`` and ``right`` along x, the others along y."""

    left: float
    bottom: float
    right: float
    top: float

    @property
    def size(self) -> tuple[float, float]:
        """Length along x and width along y."""
        return self.right - self.left, self.top - self.bottom


def datum_corner(container: Container) -> Point:
    """Return the lower left corner of the rectangle that encloses a sheet or blank."""
    return min(x for x, _ in container.outline), min(y for _, y in container.outline)


def extents(outline: Polygon, container: Container) -> Extents:
    """Return how far an outline on a sheet or blank lies from its datum corner."""
    x0, y0 = datum_corner(container)
    xs, ys = [x - x0 for x, _ in outline], [y - y0 for _, y in outline]
    return Extents(left=min(xs), bottom=min(ys), right=max(xs), top=max(ys))


def used_sheet(plan: Plan, used_id: str) -> UsedSheet:
    """Return a used sheet by its id.

    Raises
    ------
    ValueError
        If the plan uses no such sheet.
    """
    for used in plan.used:
        if isinstance(used, UsedSheet) and used.id == used_id:
            return used
    raise ValueError(f"the plan uses no sheet {used_id}")


def made_blank(plan: Plan, blank_id: str) -> Blank:
    """Return a blank by its id.

    Raises
    ------
    ValueError
        If the plan makes no such blank.
    """
    for blank in plan.blanks:
        if blank.id == blank_id:
            return blank
    raise ValueError(f"the plan makes no blank {blank_id}")


def container(plan: Plan, name: str) -> Container:
    """Return a blank or used sheet by its id.

    Raises
    ------
    ValueError
        If the plan has neither.
    """
    is_blank = any(blank.id == name for blank in plan.blanks)
    return made_blank(plan, name) if is_blank else used_sheet(plan, name)


@once_for_a_plan
def containers(plan: Plan) -> tuple[Container, ...]:
    """Return what pieces of panels, or parts of blanks, are cut from: blanks, then sheets not wholly in a blank."""
    sheets = (used for used in plan.used if isinstance(used, UsedSheet))
    return (*plan.blanks, *(used for used in sheets if not _is_wholly_in_a_blank(plan, used)))


def _is_wholly_in_a_blank(plan: Plan, used: UsedSheet) -> bool:
    """Whether nothing is cut off a sheet but its trim before it goes into a blank."""
    length, width = extents(used.outline, used).size
    trimmed = (length - 2 * used.trim) * (width - 2 * used.trim)
    sizes = (extents(member.outline, used).size for _, member in parts_of_blanks(plan, used.id))
    return any(x * y >= trimmed - 1.0 for x, y in sizes)  # square millimetres


def parts_of_blanks(plan: Plan, used_id: str) -> tuple[tuple[Blank, Member], ...]:
    """Return the blanks into which parts of a sheet go, with each part."""
    return tuple((blank, member) for blank in plan.blanks for member in blank.members if member.used == used_id)


def sheet_pieces(plan: Plan, name: str) -> tuple[SheetPiece, ...]:
    """Return the pieces and straps on a sheet or blank from the bottom up, each row from the left."""
    return _all_sheet_pieces(plan).get(name, ())


@once_for_a_plan
def _all_sheet_pieces(plan: Plan) -> dict[str, tuple[SheetPiece, ...]]:
    return by_what_they_lie_on((piece for piece in plan.pieces if isinstance(piece, SheetPiece)), _lower_left)


def _lower_left(piece: SheetPiece) -> tuple[float, float, str]:
    return round(min(y for _, y in piece.outline), 1), round(min(x for x, _ in piece.outline), 1), piece.id
