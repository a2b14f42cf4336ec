"""Whether the areas of the sheets and the lengths of the timber add up."""

from collections.abc import Iterator, Mapping

from nesting.model import LengthOffcut, SheetOffcut

from .findings import Code, Finding
from .geometry import drawn_in, flattened, polygon
from .register import Register
from .stock import trim_of, whole_sheet
from .true_blank import true_blank

#: Areas are told to the square millimetre.
AREA_TOLERANCE = 0.5

#: Millimetres; sums of many lengths, each told within the tolerance of the model.
LENGTH_TOLERANCE = 0.01

PERCENT_TOLERANCE = 1e-6


def areas(register: Register) -> Iterator[Finding]:
    """Yield areas, lengths and percentages that don't follow from the layout."""
    totals = register.plan.totals
    sheet, timber = _true_areas(register), _true_lengths(register)
    yield from _compare("wrong-area", "totals, areas", totals.areas, sheet, AREA_TOLERANCE)
    yield from _compare("wrong-length", "totals, timber", totals.timber, timber, LENGTH_TOLERANCE)
    yield from _waste("wrong-area", "totals, waste_percent", totals.waste_percent, sheet)
    yield from _waste("wrong-length", "totals, timber_waste_percent", totals.timber_waste_percent, timber)


def _compare(code: Code, where: str, told: object, true: Mapping[str, float], tolerance: float) -> Iterator[Finding]:
    for name, figure in true.items():
        if abs(getattr(told, name) - figure) > tolerance:
            yield Finding(code, f"{where}, {name}", f"said to be {getattr(told, name):.3f}, it is {figure:.3f}")
    if true["rest"] < -tolerance:
        yield Finding(
            code, where, f"parts, laps, straps, trim and offcuts are {-true['rest']:.3f} more than what is used"
        )


def _waste(code: Code, where: str, told: float, true: Mapping[str, float]) -> Iterator[Finding]:
    wasted = true["used"] - true["parts"] - true["offcuts"]
    percent = 100 * wasted / true["used"] if true["used"] else 0.0
    if abs(told - percent) > PERCENT_TOLERANCE:
        yield Finding(code, where, f"said to be {told:.6f}, it is {percent:.6f}")


def _true_areas(register: Register) -> dict[str, float]:
    stock = [register.sheets[used.stock] for used in register.used_sheets.values() if used.stock in register.sheets]
    wholes = [(sheet, whole) for sheet in stock if (whole := whole_sheet(sheet)) is not None]
    used = sum(whole.area for _, whole in wholes)
    trim = sum(whole.area - drawn_in(whole, trim_of(sheet, register)).area for sheet, whole in wholes)
    outlines = [(panel.quantity, flattened(panel.outline)) for panel in register.job.panels]
    parts = sum(quantity * shape.area for quantity, shape in outlines if shape is not None)
    pieces = [polygon(piece.outline, piece.holes) for piece in register.panel_pieces]
    cut = sum(shape.area for shape in pieces if shape is not None)
    straps = sum(shape.area for strap in register.straps if (shape := polygon(strap.outline)) is not None)
    blanks = [true for blank in register.plan.blanks if (true := true_blank(blank, register)) is not None]
    scarfs = sum(blank.lap * scarf.width for blank in blanks for scarf in blank.scarfs)
    offcuts = [polygon(o.outline) for o in register.plan.offcuts if isinstance(o, SheetOffcut) and o.kept]
    kept = sum(shape.area for shape in offcuts if shape is not None)
    return {
        "used": used,
        "parts": parts,
        "laps": cut - parts + scarfs,
        "straps": straps,
        "trim": trim,
        "offcuts": kept,
        "rest": used - cut - scarfs - straps - trim - kept,
    }


def _true_lengths(register: Register) -> dict[str, float]:
    planks = register.plan.long_planks
    times = {part.used: len(plank.sticks) for plank in planks for part in plank.members}
    stock = ((used.id, register.lengths.get(used.stock)) for used in register.used_lengths.values())
    used = sum(length.length * times.get(name, 1) for name, length in stock if length is not None)
    parts = sum(strip.quantity * strip.length for strip in register.job.strips)
    cut = sum(piece.end - piece.start for piece in register.strip_pieces)
    offcuts = (offcut for offcut in register.plan.offcuts if isinstance(offcut, LengthOffcut) and offcut.kept)
    kept = sum((offcut.end - offcut.start) * times.get(offcut.on, 1) for offcut in offcuts)
    scarfs = sum(len(plank.sticks) * scarf.lap for plank in planks for scarf in plank.scarfs)
    laps = cut - parts + scarfs
    return {"used": used, "parts": parts, "laps": laps, "offcuts": kept, "rest": used - parts - laps - kept}
