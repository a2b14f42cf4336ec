"""Whether every blank is made of sheets that may be scarfed, of its right size, with its scarfs where they must be."""

from collections import Counter
from collections.abc import Iterator

import shapely

from nesting.model import TOLERANCE, Blank, BlankScarf, Member, Sheet

from .findings import Finding
from .geometry import polygon, same_shape
from .register import Register
from .rules import CENT, cost_of
from .stock import trim_of
from .true_blank import TrueBlank, true_blank, true_thickness, usable_size


def blanks(register: Register) -> Iterator[Finding]:
    """Yield blanks that can't be made as they are told, and sheets in them that are used for something else too."""
    for blank in register.plan.blanks:
        yield from _rule(blank, register)
        yield from _members(blank, register)
        true = true_blank(blank, register)
        if true is not None:
            yield from _places(true, register)
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
    trim, there = trim_of(sheet, register), polygon(member.outline)
    if there is None:
        yield Finding("bad-polygon", where, "its outline is no sound polygon")
    elif not same_shape(shapely.box(trim, trim, trim + length, trim + width), there):
        yield Finding("blank-member", where, "its outline is not that of the sheet less its trim")


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


def _places(true: TrueBlank, register: Register) -> Iterator[Finding]:
    """Check that the trimmed sheets lie flush, each one lap over the last."""
    for member, sheet, start in zip(true.told.members, register.members(true.told), true.starts, strict=True):
        trim = trim_of(sheet, register)
        if abs(member.x + trim - start) > TOLERANCE or abs(member.y + trim) > TOLERANCE:
            reason = (
                f"with its trim off it begins at {member.x + trim:g}, {member.y + trim:g}; "
                f"with laps of {true.lap:g} at {start:g}, 0"
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
    if len(true.told.scarfs) != len(true.lines):
        reason = f"{len(true.lengths)} sheets need {len(true.lines)} scarfs, not {len(true.told.scarfs)}"
        yield Finding("blank-scarf", _where(true.told), reason)
    for scarf, line in zip(true.told.scarfs, true.lines, strict=False):
        yield from _scarf(scarf, line, true)


def _scarf(scarf: BlankScarf, line: float, true: TrueBlank) -> Iterator[Finding]:
    where = f'scarf "{scarf.id}"'
    figures = {
        "place": (scarf.at, line),
        "lap": (scarf.lap, true.lap),
        "slope": (scarf.slope, true.rule.slope),
        "thickness": (scarf.thickness, true.thickness),
        "width": (scarf.width, true.width),
    }
    for name, (told, figure) in figures.items():
        if abs(told - figure) > TOLERANCE:
            yield Finding("blank-scarf", where, f"its {name} is {told:g}, it must be {figure:g}")
    cost = cost_of(true.rule, true.width)
    if abs(scarf.cost - cost) > CENT:
        yield Finding("blank-scarf-cost", where, f"it is said to cost {scarf.cost}, by its rule {cost}")


def _members_used_otherwise(register: Register) -> Iterator[Finding]:
    count = Counter(member.used for blank in register.plan.blanks for member in blank.members)
    for name, times in count.items():
        if times > 1:
            yield Finding("member-twice", f'sheet "{name}"', f"it stands {times} times in blanks")
    for piece in register.sheet_pieces:
        if piece.on in count:
            yield Finding("on-member", f'piece "{piece.id}"', f'it is cut from sheet "{piece.on}", which is in a blank')
    for offcut in register.plan.offcuts:
        if offcut.on in count:
            yield Finding("on-member", f'offcut of sheet "{offcut.on}"', "the sheet is in a blank: it is of the blank")


def _where(blank: Blank) -> str:
    return f'blank "{blank.id}"'
