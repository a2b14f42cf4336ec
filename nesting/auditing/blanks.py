"""Whether every blank is made of sheets that may be scarfed, of its right size, with its scarfs where they must be."""

from collections import Counter
from collections.abc import Iterator
from itertools import combinations

import shapely
from shapely.geometry import Polygon

from nesting.model import TOLERANCE, Blank, BlankScarf, Member, Sheet, SheetOffcut

from .findings import Finding
from .geometry import laid_shape, polygon, reaches_into, same_shape
from .member_parts import MOST_LENGTHS, MOST_STRIPS, part_of_sheet, usable_size
from .register import Register
from .rules import CENT, cost_of
from .true_blank import TrueBlank, TrueScarf, true_blank, true_thickness


def blanks(register: Register) -> Iterator[Finding]:
    """Yield blanks that can't be made as they are told, and sheets in them that are used for something else too."""
    for blank in register.plan.blanks:
        yield from _rule(blank, register)
        yield from _members(blank, register)
        true = true_blank(blank, register)
        if true is not None:
            yield from _lengths(true, register)
            yield from _places(true)
            yield from _size(true, register.job.workshop.longest_piece)
            yield from _scarfs(true)
    yield from _members_used_otherwise(register)


def _rule(blank: Blank, register: Register) -> Iterator[Finding]:
    rule = register.job.joints.get(blank.joint)
    if rule is None or rule.kind != "scarf":
        kind = "no joint of the job" if rule is None else f"a {rule.kind}"
        yield Finding("blank-rule", _where(blank), f'its sheets are to be scarfed, "{blank.joint}" is {kind}')


def _members(blank: Blank, register: Register) -> Iterator[Finding]:
    if len(blank.members) < 2:
        yield Finding("blank-member", _where(blank), "a blank is made of two sheets or more")
    for member in blank.members:
        sheet = register.sheet_of(member.used)
        if sheet is not None:
            yield from _member(blank, member, sheet, register)
    yield from _differences(blank, register.members(blank), register)


def _member(blank: Blank, member: Member, sheet: Sheet, register: Register) -> Iterator[Finding]:
    where = f'{_where(blank)}, sheet "{member.used}"'
    if sheet.size is None or sheet.faults:
        yield Finding("blank-member", where, "a blank is made of whole sheets without faults")
        return
    if member.angle or member.turned_over:
        yield Finding("blank-member", where, "a sheet in a blank is neither turned nor turned over")
    length, width = usable_size(sheet, register)
    rule = register.job.joints.get(blank.joint)
    least = rule.slope * true_thickness(sheet) if rule is not None and rule.kind == "scarf" else 0.0
    if length <= least or width <= 0:
        yield Finding("blank-member", where, "less its trim it is too small to be scarfed")
        return
    there = polygon(member.outline)
    if there is None:
        yield Finding("bad-polygon", where, "its outline is no sound polygon")
    elif (part := part_of_sheet(member, sheet, register)) is None or not same_shape(shapely.box(*part), there):
        reason = (
            "its outline is not that of the sheet less its trim, nor of an equal part of it: "
            f"{MOST_STRIPS} strips or {MOST_LENGTHS} lengths at most"
        )
        yield Finding("blank-member", where, reason)


def _differences(blank: Blank, sheets: list[Sheet], register: Register) -> Iterator[Finding]:
    for sheet in sheets[1:]:
        first = sheets[0]
        figures = {
            "thickness": (first.thickness, sheet.thickness),
            "true thickness": (true_thickness(first), true_thickness(sheet)),
        }
        if first.size and sheet.size:
            figures["usable width"] = usable_size(first, register)[1], usable_size(sheet, register)[1]
        if sheet.material != first.material:
            yield Finding("blank-members-differ", _where(blank), f'"{first.material}" is joined to "{sheet.material}"')
        for name, (one, other) in figures.items():
            if abs(one - other) > TOLERANCE:
                yield Finding("blank-members-differ", _where(blank), f"its sheets' {name} is {one:g} and {other:g}")


def _lengths(true: TrueBlank, register: Register) -> Iterator[Finding]:
    """Check that none but the last column is cut across, and that the members of a column are of one length."""
    sheets = register.members(true.told)
    for place, (member, sheet) in enumerate(zip(true.told.members, sheets, strict=True)):
        column = place // true.rows
        length = true.parts[place][2] - true.parts[place][0]
        where = f'{_where(true.told)}, sheet "{member.used}"'
        if abs(length - true.lengths[column]) > TOLERANCE:
            yield Finding(
                "blank-members-differ", where, f"it is {length:g} long beside one of {true.lengths[column]:g}"
            )
        elif column < len(true.lengths) - 1 and length < usable_size(sheet, register)[0] - TOLERANCE:
            yield Finding("blank-member", where, "it is cut across, which only the last of a blank may be")


def _places(true: TrueBlank) -> Iterator[Finding]:
    """Check that members lie flush, each one lap over the last and over the one below."""
    for member, (west, south, _, _), (x, y) in zip(true.told.members, true.parts, true.corners, strict=True):
        told = west + member.x, south + member.y
        if abs(told[0] - x) > TOLERANCE or abs(told[1] - y) > TOLERANCE:
            reason = (
                f"cut as it must be it begins at {told[0]:g}, {told[1]:g}; with laps of {true.lap:g} at {x:g}, {y:g}"
            )
            yield Finding("blank-lap", f'{_where(true.told)}, sheet "{member.used}"', reason)


def _size(true: TrueBlank, longest: float | None) -> Iterator[Finding]:
    there = polygon(true.told.outline)
    if there is None:
        yield Finding("bad-polygon", _where(true.told), "its outline is no sound polygon")
    elif not same_shape(true.outline, there):
        reason = f"its outline is not {true.length:g} x {true.width:g} from its lower left corner"
        yield Finding("blank-outline", _where(true.told), reason)
    if longest is not None and true.length > longest + TOLERANCE:
        reason = f"it is {true.length:g} long, the longest is {longest:g}"
        yield Finding("blank-too-long", _where(true.told), reason)


def _scarfs(true: TrueBlank) -> Iterator[Finding]:
    if len(true.told.scarfs) != len(true.scarfs):
        reason = f"{len(true.parts)} members need {len(true.scarfs)} scarfs, not {len(true.told.scarfs)}"
        yield Finding("blank-scarf", _where(true.told), reason)
    for scarf, must in zip(true.told.scarfs, true.scarfs, strict=False):
        yield from _scarf(scarf, must, true)


def _scarf(scarf: BlankScarf, must: TrueScarf, true: TrueBlank) -> Iterator[Finding]:
    where = f'scarf "{scarf.id}"'
    if scarf.runs != must.runs:
        yield Finding("blank-scarf", where, f"it is said to run {scarf.runs}, it must run {must.runs}")
    figures = {
        "place": (scarf.at, must.at),
        "beginning": (scarf.begins, must.begins),
        "lap": (scarf.lap, true.lap),
        "slope": (scarf.slope, true.rule.slope),
        "thickness": (scarf.thickness, true.thickness),
        "width": (scarf.width, must.width),
    }
    for name, (told, figure) in figures.items():
        if abs(told - figure) > TOLERANCE:
            yield Finding("blank-scarf", where, f"its {name} is {told:g}, it must be {figure:g}")
    cost = cost_of(true.rule, must.width)
    if abs(scarf.cost - cost) > CENT:
        yield Finding("blank-scarf-cost", where, f"it is said to cost {scarf.cost}, by its rule {cost}")


def _members_used_otherwise(register: Register) -> Iterator[Finding]:
    """Tell of sheets in two blanks, and of what is cut from a sheet less than a kerf away from a member of it."""
    names = Counter(name for blank in register.plan.blanks for name in {member.used for member in blank.members})
    for name, times in names.items():
        if times > 1:
            yield Finding("member-twice", f'sheet "{name}"', f"it stands in {times} blanks")
    for blank in register.plan.blanks:
        for one, other in combinations(blank.members, 2):
            if one.used == other.used and _too_near(polygon(one.outline), polygon(other.outline), register):
                yield Finding(
                    "member-twice", f'sheet "{one.used}"', "two members are cut from it less than a kerf apart"
                )
    for name in names:
        yield from _cut_beside(name, register)


def _cut_beside(name: str, register: Register) -> Iterator[Finding]:
    allowance = register.job.workshop.allowance
    of_sheet = [member for blank in register.plan.blanks for member in blank.members if member.used == name]
    members = [polygon(member.outline) for member in of_sheet]
    for piece in register.sheet_pieces:
        if piece.on == name and any(_too_near(laid_shape(piece), there, register, allowance) for there in members):
            reason = f'it is cut from sheet "{name}", less than a kerf away from what of it is in a blank'
            yield Finding("on-member", f'piece "{piece.id}"', reason)
    for offcut in register.plan.offcuts:
        if offcut.on != name or not isinstance(offcut, SheetOffcut) or not offcut.kept:
            continue
        if any(_too_near(polygon(offcut.outline), there, register) for there in members):
            yield Finding("on-member", f'offcut of sheet "{name}"', "it is less than a kerf away from a blank's member")


def _too_near(one: Polygon | None, other: Polygon | None, register: Register, allowance: float = 0.0) -> bool:
    """Whether two shapes leave no room for the saw between them, and for the allowance of one."""
    if one is None or other is None:
        return False
    gap = register.job.workshop.kerf.sheet + allowance
    return reaches_into(one, other) or bool(one.distance(other) < gap - TOLERANCE)


def _where(blank: Blank) -> str:
    return f'blank "{blank.id}"'
