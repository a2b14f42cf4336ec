"""Where things lie from a sheet's datum corner, its lower left."""

from dataclasses import dataclass

from nesting.model import PanelPiece, Plan, Polygon, UsedSheet

from .canvas import Point


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


def datum_corner(sheet: UsedSheet) -> Point:
    """Return the lower left corner of the rectangle that encloses the sheet."""
    return min(x for x, _ in sheet.outline), min(y for _, y in sheet.outline)


def extents(outline: Polygon, sheet: UsedSheet) -> Extents:
    """Return how far an outline on the sheet lies from its datum corner."""
    x0, y0 = datum_corner(sheet)
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


def panel_pieces(plan: Plan, used_id: str) -> tuple[PanelPiece, ...]:
    """Return the pieces on a sheet from the bottom up, each row from the left."""
    pieces = [piece for piece in plan.on(used_id) if isinstance(piece, PanelPiece)]
    return tuple(sorted(pieces, key=_lower_left))


def _lower_left(piece: PanelPiece) -> tuple[float, float, str]:
    return round(min(y for _, y in piece.outline), 1), round(min(x for x, _ in piece.outline), 1), piece.id
