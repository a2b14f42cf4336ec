"""Says, in the builder's words, why a panel can't be made."""

import math
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence

from nesting.joints import Reach, least_joints
from nesting.model import Job, Panel, Problem, same_goods

from .joined import joined_variants
from .longer_blanks import longest_that_helps
from .parts import Part
from .pieces import PieceKind
from .reliefs_told import reliefs_told, zones_named
from .stock import Stock
from .variants import can_be_handled

#: Code of the problem that neighbours' joints can't be kept apart.
SHIFT = "shift"


def no_stock(index: int, panel: Panel, stocks: Sequence[Stock]) -> Problem:
    """Say that no sheet may serve a panel, and which come nearest."""
    like = [stock.sheet for stock in stocks if same_goods(stock.sheet, panel)]
    if like:
        reason = f'no sheet of {panel.material} {panel.thickness:g} mm has grade "{panel.grade}" or better'
        remedy = f"Add one, or ask for a grade that is there: {_listed(str(sheet.grade) for sheet in like)}."
        return _problem("no-grade", index, panel, reason, remedy)
    same = [s.sheet for s in stocks if s.sheet.material == panel.material]
    near = [f"{sheet.material} {sheet.thickness:g} mm" for sheet in same or [stock.sheet for stock in stocks]]
    reason = f"there is no sheet of {panel.material} {panel.thickness:g} mm"
    there = f"Sheets of this job: {_listed(near)}." if near else "The job has no sheets at all."
    return _problem("no-stock", index, panel, reason, f"Add one to [[sheets]]. {there}")


def no_variant(part: Part, job: Job) -> Problem:
    """Say why a panel for which there is material can't be made from it."""
    if part.rule is None and not can_be_handled(part, job):
        return _too_long_to_handle(part, job)
    if part.rule is None:
        return _too_large(part)
    least = least_joints(part.reach)
    return _no_station(part, job) if least is None else _too_wide(part, least, job)


def no_blank(part: Part, job: Job) -> Problem:
    """Say why a panel that could be divided lies on no blank, where the job allows nothing else."""
    reach, least = part.reach, least_joints(part.reach)
    divided = f'Divided it can be made, with {least} joint{"s" * (least != 1)}: write way = "both" or "divided".'
    if part.rule is not None and part.rule.kind == "butt":
        reason = "it can't be made in one piece, its joint is a butt, and sheets are only scarfed into blanks"
        return _problem("no-blank", part.index, part.panel, reason, divided)
    longest = job.workshop.longest_piece
    handled = f" no longer than the {longest:g} that can be handled" if longest else ""
    reason = (
        f"it is {reach.length:.1f} long and lies on no blank of whole sheets{handled} with every scarf off "
        f"its no-joint zones ({_zones_of(part, job)}) and {reach.spacing:g} from its ends{_limited(part)}"
    )
    longer = _longer_blanks(part, job)
    return _problem("no-blank", part.index, part.panel, reason, f"{divided} Or {longer}." if longer else divided)


def shifts_not_kept(job: Job) -> Problem:
    """Say that no joints were found that keep neighbours apart, which proves nothing."""
    names = {panel.name for panel in job.panels}
    pairs = "; ".join(
        f'"{n.between[0]}" and "{n.between[1]}" {n.shift:g}' for n in job.neighbours if names.issuperset(n.between)
    )
    return Problem(
        code=SHIFT,
        where="neighbours",
        path=("neighbours",),
        reason=f"no stations were found that keep all shifts between neighbours ({pairs})",
        remedy="Ask for a smaller shift, shorten a no-joint zone or the least piece, or offer a longer sheet.",
    )


def stock_ran_out(job: Job, left: Counter[PieceKind], stocks: Sequence[Stock]) -> list[Problem]:
    """Say which panels found no room on the sheets that there are, and by how much the area is short."""
    problems = []
    for index in sorted({kind.panel for kind in left}):
        panel = job.panels[index]
        missing = {kind: count for kind, count in left.items() if kind.panel == index}
        area = sum(kind.area * count for kind, count in missing.items())
        pieces = _counted(missing)
        serving = [s.sheet.name for s in stocks if any(s.index in kind.stocks for kind in missing)]
        reason = (
            f"stock ran out: {pieces}, {area / 1e6:.2f} m2 net, found no room on the sheets there are "
            f"({_listed(serving)}); that none was found proves nothing"
        )
        problems.append(_problem("stock-ran-out", index, panel, reason, "Raise available, or add another sheet."))
    return problems


def _counted(missing: Mapping[PieceKind, int]) -> str:
    """Return how many pieces and straps of a panel these are, in words."""
    straps = sum(count for kind, count in missing.items() if kind.is_strap)
    pieces = sum(missing.values()) - straps
    told = [f"{pieces} of its pieces"] * (pieces > 0) + [f"{straps} of its straps"] * (straps > 0)
    return " and ".join(told)


def _too_long_to_handle(part: Part, job: Job) -> Problem:
    length, longest = part.reach.length, job.workshop.longest_piece or 0.0
    reason = f"in one piece it is {length:.1f} long, and the longest piece that can be handled is {longest:g}"
    remedy = f"Give it a joint, so that it may be divided, or raise longest_piece to {math.ceil(length)}."
    return _problem("too-long", part.index, part.panel, reason, remedy)


def _too_large(part: Part) -> Problem:
    west, south, east, north = part.shape.bounds
    sizes = _listed(f"{s.size[0]:g} x {s.size[1]:g}" for s in part.stocks)
    grain = _grain(part.panel)
    reason = f"in one piece it is {east - west:.1f} x {north - south:.1f}, {grain}, and fits no sheet (usable: {sizes})"
    remedy = "Give it a joint, so that it may be divided, or add a larger sheet."
    return _problem("too-large", part.index, part.panel, reason, remedy)


def _grain(panel: Panel) -> str:
    """Tell how the grain may run."""
    if panel.grain == "any":
        return "grain either way"
    within = f" within {panel.grain_tolerance:g} degrees" if panel.grain_tolerance else ""
    return f"grain {panel.grain}{within}"


def _no_station(part: Part, job: Job) -> Problem:
    reach = part.reach
    zones = _zones_of(part, job)
    reason = (
        f"it is {reach.length:.1f} long, the longest piece {reach.usable:.1f} {_joined_by(reach)}; "
        f"no-joint zones ({zones}) and a least piece of {reach.spacing:g} leave no station for a joint"
        f"{_limited(part)}"
    )
    helps = reliefs_told(part, job)
    remedy = f"Any one of these helps: {'; '.join(helps)}." if helps else "Ease two of these rules together."
    return _problem("no-station", part.index, part.panel, reason, remedy)


def _zones_of(part: Part, job: Job) -> str:
    return _listed(zones_named(part, job)) or "none"


def _limited(part: Part) -> str:
    """Tell how many joints there may be, if that is limited."""
    most = part.panel.most_joints
    return "" if most is None else f", where it may have {most} joint{'s' * (most != 1)} at the most"


def _longer_blanks(part: Part, job: Job) -> str:
    """Tell how long a blank has to be on which a panel lies, if it only can't be handled; else nothing."""
    length = longest_that_helps(job, [part], lambda longer, parts: bool(joined_variants(parts[0], longer)))
    return "" if length is None else f"raise longest_piece to {length} (now {job.workshop.longest_piece:g})"


def _joined_by(reach: Reach) -> str:
    return f"and each strap {reach.strap:g}" if reach.strap else f"with its laps of {reach.lap:g}"


def _too_wide(part: Part, least: int, job: Job) -> Problem:
    widest = max(min(stock.size) if part.panel.grain == "any" else stock.size[1] for stock in part.stocks)
    high = f"it is {part.height:.1f} high over all; the widest sheet leaves {widest:.1f}"
    reason = (
        f"divided by {least} joint{'s' * (least != 1)} or one more it still has a piece that fits no sheet ({high})"
    )
    if not part.is_wide or part.rule is None:
        return _problem("too-wide", part.index, part.panel, reason, "Add a wider sheet, or divide the panel yourself.")
    if part.rule.kind == "butt":
        remedy = 'Add a wider sheet, or name a joint of kind = "scarf": sheets are scarfed edge to edge, never butted.'
    elif job.workshop.way == "divided":
        remedy = (
            'Add a wider sheet, or write way = "both": sheets are then scarfed edge to edge, and it is cut from these.'
        )
    else:
        reason = f"no sheets scarfed edge to edge and end to end hold it within its joint's rules ({high})"
        ease = _longer_blanks(part, job) or "ease its no-joint zones or its least piece"
        remedy = f"Add a wider sheet, or {ease}."
    return _problem("too-wide", part.index, part.panel, reason, remedy)


def _problem(code: str, index: int, panel: Panel, reason: str, remedy: str) -> Problem:
    return Problem(code=code, where=f'panel "{panel.name}"', path=("panels", index), reason=reason, remedy=remedy)


def _listed(words: Iterable[str]) -> str:
    return ", ".join(dict.fromkeys(words))
