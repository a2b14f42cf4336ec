"""Whether what is used is the job's stock, no more of it than there is, and right for the parts cut from it."""

from collections import Counter
from collections.abc import Iterator, Sequence

from shapely.geometry import Polygon

from nesting.model import TOLERANCE, Length, Panel, Sheet, Strip, UsedLength, UsedSheet

from .findings import Finding
from .geometry import flattened, polygon, same_shape
from .long_planks import stock_of
from .planks import bought, planks
from .register import Register


def stock(register: Register) -> Iterator[Finding]:
    """Yield used sheets and lengths that differ from their stock, are too many, or don't suit their parts."""
    for sheet in register.used_sheets.values():
        yield from _used_sheet(sheet, register)
    for length in register.used_lengths.values():
        yield from _used_length(length, register)
    yield from planks(register)
    yield from _availability(register)
    yield from _panel_stock(register)
    yield from _strip_stock(register)


def whole_sheet(sheet: Sheet) -> Polygon | None:
    """Return the outline of a kind of sheet; None if it is not sound."""
    if sheet.outline is not None:
        return flattened(sheet.outline)
    length, width = sheet.size or (0.0, 0.0)
    return polygon(((0, 0), (length, 0), (length, width), (0, width)))


def trim_of(sheet: Sheet, register: Register) -> float:
    """Return what is taken off each edge: an offcut has no factory edges."""
    return register.job.workshop.trim if sheet.outline is None else 0.0


def _used_sheet(used: UsedSheet, register: Register) -> Iterator[Finding]:
    where = f'sheet "{used.id}"'
    sheet = register.sheets.get(used.stock)
    if sheet is None:
        yield Finding("unknown-stock", where, f'the job has no sheet "{used.stock}"')
        return
    if used.source != sheet.source:
        yield Finding("wrong-stock", where, f'its source is "{used.source}", that of its stock "{sheet.source}"')
    if abs(used.trim - trim_of(sheet, register)) > TOLERANCE:
        reason = f"its trim is {used.trim:g}, for this stock {trim_of(sheet, register):g}"
        yield Finding("wrong-stock", where, reason)
    there, whole = polygon(used.outline, used.holes), whole_sheet(sheet)
    if there is None or whole is None:
        yield Finding("bad-polygon", where, "its outline is no sound polygon")
    elif not same_shape(whole, there):
        yield Finding("wrong-stock", where, "its outline is not that of its stock")
    yield from _faults(where, used.faults, [fault.points for fault in sheet.faults])


def _faults(
    where: str, told: Sequence[Sequence[tuple[float, ...]]], known: Sequence[Sequence[tuple[float, ...]]]
) -> Iterator[Finding]:
    """Compare the faults of a used sheet with those of its stock, in their order."""
    there, true = [polygon(fault) for fault in told], [polygon(fault) for fault in known]
    if None in there or None in true:
        yield Finding("bad-polygon", where, "one of its faults is no sound polygon")
        return
    pairs = zip(true, there, strict=False)
    if len(there) != len(true) or any(a and b and not same_shape(a, b) for a, b in pairs):
        yield Finding("wrong-stock", where, "its faults are not those of its stock")


def _used_length(used: UsedLength, register: Register) -> Iterator[Finding]:
    where = f'length "{used.id}"'
    length = register.lengths.get(used.stock)
    if length is None:
        yield Finding("unknown-stock", where, f'the job has no length "{used.stock}"')
        return
    if used.source != length.source:
        yield Finding("wrong-stock", where, f'its source is "{used.source}", that of its stock "{length.source}"')
    if abs(used.length - length.length) > TOLERANCE:
        yield Finding("wrong-stock", where, f"it is {used.length:g} long, its stock {length.length:g}")
    if used.faults != length.faults:
        yield Finding("wrong-stock", where, "its faults are not those of its stock")


def _availability(register: Register) -> Iterator[Finding]:
    count = Counter(used.stock for used in bought(register))
    for name, item in register.stock.items():
        if item.available is not None and count[name] > item.available:
            reason = f"{count[name]} are used, {item.available} are there"
            yield Finding("too-many-used", f'stock "{name}"', reason)


def _panel_stock(register: Register) -> Iterator[Finding]:
    """Compare panels and straps with the sheet that they come from, or with every sheet of their blank."""
    for piece in register.sheet_pieces:
        panel = register.panels.get(piece.part)
        if panel is None:
            continue  # told among the names
        for sheet in register.sheets_under(piece.on):
            yield from _panel_on_sheet(f'piece "{piece.id}"', panel, sheet, register)


def _panel_on_sheet(where: str, panel: Panel, sheet: Sheet, register: Register) -> Iterator[Finding]:
    yield from _material_and_grade(where, panel, sheet, register)
    if abs(sheet.thickness - panel.thickness) > TOLERANCE:
        reason = f"it is to be {panel.thickness:g} thick, its sheet is {sheet.thickness:g}"
        yield Finding("wrong-thickness", where, reason)


def _strip_stock(register: Register) -> Iterator[Finding]:
    for piece in register.strip_pieces:
        strip, used, plank = (
            register.strips.get(piece.part),
            register.used_lengths.get(piece.on),
            register.long_sticks.get(piece.on),
        )
        length = stock_of(plank, register) if plank else register.lengths.get(used.stock) if used else None
        if strip is None or length is None:
            continue  # told among the names
        where = f'piece "{piece.id}"'
        yield from _material_and_grade(where, strip, length, register)
        if plank is not None or (used is not None and used.plank is not None):
            continue  # told among the planks
        if any(abs(a - b) > TOLERANCE for a, b in zip(strip.section, length.section, strict=True)):
            reason = f"its section is to be {_section(strip)}, its timber has {_section(length)}"
            yield Finding("wrong-section", where, reason)


def _material_and_grade(where: str, part: Panel | Strip, item: Sheet | Length, register: Register) -> Iterator[Finding]:
    if item.material != part.material:
        yield Finding("wrong-material", where, f'it is to be of "{part.material}", its stock is "{item.material}"')
    if register.rank(item.grade) < register.rank(part.grade):
        yield Finding("wrong-grade", where, f'it is to be "{part.grade}", its stock is "{item.grade or "of no grade"}"')


def _section(item: Strip | Length) -> str:
    return f"{item.section[0]:g} x {item.section[1]:g}"
