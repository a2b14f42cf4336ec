"""Blanks that may be made: sheets scarfed end to end, and edge to edge, offered beside the sheets themselves."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import islice, pairwise

from shapely.geometry import Polygon, box

from nesting.joints import blank_scarfs, joined_length, offsets_on_blank
from nesting.model import TOLERANCE, Job, JointRule, sheet_serves
from nesting.outlines import shrunk
from nesting.packing import Container

from .blank import Blank, Cut, Scarf
from .make_ups import (
    MakeUp,
    column_lengths,
    equal_part,
    for_wide_panels,
    lap_of,
    of_cut_sheets,
    of_whole_sheets,
)
from .parts import Part
from .stock import LAP, LEFT, SEAM, Stock

#: Kinds of blank made by one rule at most, those of the fewest sheets first: of whole sheets, of cut ones, and for
#: each panel wider than any sheet.
MOST_WHOLE, MOST_CUT, MOST_WIDE = 16, 6, 6

#: Millimetres, beyond two gaps, between a blank and what is left beside it in its container.
APART = 10.0


def blanks_of(job: Job, parts: Sequence[Part], stocks: Sequence[Stock]) -> tuple[Stock, ...]:
    """Return the blanks on which at least one panel can lie across a scarf; their indices follow the sheets'."""
    found: list[Stock] = []
    for name, rule in job.joints.items():
        panels = [part for part in parts if part.panel.joint == name and part.panel.grain != "across"]
        if rule.kind == "scarf" and panels:
            found += _by_rule(job, name, rule, panels, stocks)
    return tuple(replace(blank, index=len(stocks) + k) for k, blank in enumerate(found))


def with_blanks(part: Part, blanks: Sequence[Stock], job: Job) -> Part:
    """Return a part that knows the blanks from which it may be cut."""
    serving = (blank for blank in blanks if _serves(job, blank, part))
    return replace(part, blanks=tuple(serving))


def has_room_for(part: Part, blank: Stock) -> bool:
    """Whether a panel may lie across the scarfs of a blank as far as their widths go.

    Over a scarf along the blank lie only panels that are wider than any sheet, and their whole width does.
    """
    if blank.blank is None:
        return False
    seams, height = blank.blank.seams, part.height
    if height > blank.size[1] + TOLERANCE:
        return False
    if not seams:
        return True
    _, low, _, high = blank.blank.room.bounds
    half = blank.blank.lap / 2
    below, above = high - height <= seams[0] - half + TOLERANCE, low + height >= seams[-1] + half - TOLERANCE
    return part.is_wide and below and above


def _by_rule(job: Job, name: str, rule: JointRule, panels: Sequence[Part], stocks: Sequence[Stock]) -> list[Stock]:
    long = [part for part in panels if part.reach.length > _shortest(part) and not part.is_wide]
    wide = [part for part in panels if part.is_wide]
    whole = _useful(job, name, rule, of_whole_sheets(job, rule, panels, stocks), panels, MOST_WHOLE)
    cut = _useful(job, name, rule, of_cut_sheets(job, rule, long, stocks), long, MOST_CUT) if long else {}
    found = {**whole, **cut}
    for part in wide:  # each has its share, for what serves one may serve no other
        found |= _useful(job, name, rule, for_wide_panels(job, rule, [part], stocks), [part], MOST_WIDE)
    return list(found.values())


def _shortest(part: Part) -> float:
    """Return the length of the shortest sheet that serves: what is no longer needs no joint."""
    return min(stock.size[0] for stock in part.stocks)


def _useful(
    job: Job, name: str, rule: JointRule, make_ups: Iterable[MakeUp], panels: Sequence[Part], most: int
) -> dict[MakeUp, Stock]:
    """Return the first few blanks that carry one of the panels."""
    blanks = ((make_up, _blank(job, name, rule, make_up)) for make_up in make_ups)
    useful = ((how, blank) for how, blank in blanks if any(_carries(job, blank, part) for part in panels))
    return dict(islice(useful, most))


def _blank(job: Job, name: str, rule: JointRule, make_up: MakeUp) -> Stock:
    """Return the blank that sheets so cut make, scarfed in this order."""
    kerf, allowance = job.workshop.kerf.sheet, job.workshop.allowance
    sheets = [stock for stock, _ in make_up.columns]
    lap, lengths = lap_of(rule, sheets), column_lengths(make_up, kerf)
    widths = [equal_part(sheets[0].size_usable[1], count, kerf) for count in make_up.strips]
    whole = box(0, 0, joined_length(lengths, lap), joined_length(widths, lap))
    used, members, left = _cuts(make_up, lap, kerf)
    left = tuple(_beside(whole, left, 2 * job.workshop.gap + APART))
    blank = Blank(
        joint=name,
        sheets=used,
        members=members,
        slope=rule.slope,
        lap=lap,
        scarfs=tuple(_scarfs(rule, lengths, widths, lap)),
        left=left,
        room=shrunk(whole, allowance),
    )
    return Stock(
        index=-1,  # numbered once all are known
        sheet=sheets[0].sheet,
        whole=whole,
        trim=0.0,
        usable=whole,
        faults=(),
        container=_container(blank, whole, allowance),
        rank=min(sheet.rank for sheet in sheets),
        blank=blank,
    )


def _cuts(make_up: MakeUp, lap: float, kerf: float) -> tuple[tuple[Stock, ...], tuple[Cut, ...], tuple[Cut, ...]]:
    """Return the sheets that are taken, the members cut from them, and what is left of them where it lies."""
    sheets: list[Stock] = []
    begun: dict[tuple[int, int, int], tuple[int, int]] = {}  # by kind of sheet and its parts: sheet, parts taken
    members: list[Cut] = []
    x = 0.0
    for stock, lengths in make_up.columns:
        y = 0.0
        for strips in make_up.strips:
            key = stock.index, lengths, strips
            sheet, taken = begun.get(key, (0, lengths * strips))
            if taken == lengths * strips:
                sheet, taken = len(sheets), 0
                sheets.append(stock)
            begun[key] = sheet, taken + 1
            shape = _parts(stock, lengths, strips, kerf, (taken // strips, taken % strips))
            west, south, east, north = shape.bounds
            members.append(Cut(sheet, shape, x - west, y - south))
            y += north - south - lap
        x += east - west - lap
    left = [
        Cut(sheet, shape, 0.0, 0.0)
        for (_, lengths, strips), (sheet, taken) in begun.items()
        for shape in _remaining(sheets[sheet], lengths, strips, kerf, taken)
    ]
    return tuple(sheets), tuple(members), tuple(left)


def _parts(
    stock: Stock, lengths: int, strips: int, kerf: float, first: tuple[int, int], last: tuple[int, int] | None = None
) -> Polygon:
    """Return the part of a sheet, or the parts from one to another, counted along the sheet and across."""
    west, south, *_ = stock.usable.bounds
    length, width = (equal_part(s, n, kerf) for s, n in zip(stock.size_usable, (lengths, strips), strict=True))
    (i, j), (k, m) = first, last or first
    return box(
        west + i * (length + kerf),
        south + j * (width + kerf),
        west + k * (length + kerf) + length,
        south + m * (width + kerf) + width,
    )


def _remaining(stock: Stock, lengths: int, strips: int, kerf: float, taken: int) -> Iterator[Polygon]:
    """Yield what is left of a sheet when so many of its parts are taken, column by column."""
    column, row = divmod(taken, strips)
    if row:
        yield _parts(stock, lengths, strips, kerf, (column, row), (column, strips - 1))
        column += 1
    if column < lengths:
        yield _parts(stock, lengths, strips, kerf, (column, 0), (lengths - 1, strips - 1))


def _beside(whole: Polygon, left: Sequence[Cut], apart: float) -> Iterator[Cut]:
    """Yield what is left of sheets, laid one above another beside the blank."""
    top = whole.bounds[3] + apart
    for cut in left:
        west, south, _, north = cut.shape.bounds
        yield replace(cut, x=-west, y=top - south)
        top += north - south + apart


def _scarfs(rule: JointRule, lengths: Sequence[float], widths: Sequence[float], lap: float) -> Iterator[Scarf]:
    """Yield the scarfs right across the blank, then those along each column."""
    width = joined_length(widths, lap)
    for at in blank_scarfs(lengths, lap):
        yield Scarf("across", at, 0.0, width, int(rule.cost.of(width) * 100))
    begins = 0.0
    for length in lengths:
        for at in blank_scarfs(widths, lap):
            yield Scarf("along", at, begins, length, int(rule.cost.of(length) * 100))
        begins += length - lap


def _container(blank: Blank, whole: Polygon, allowance: float) -> Container:
    """Return the blank with what is left of its sheets beside it, all else in the way, and its laps marked."""
    left = [room for cut in blank.left if not (room := shrunk(cut.there, allowance)).is_empty]
    rooms = [blank.room, *left]
    west, south, _, _ = blank.room.bounds
    east, north = max(room.bounds[2] for room in rooms), rooms[-1].bounds[3]
    between = [box(west, one.bounds[3], east, other.bounds[1]) for one, other in pairwise(rooms)]
    beyond = [box(r.bounds[2], r.bounds[1], east, r.bounds[3]) for r in rooms if r.bounds[2] < east]
    _, _, length, width = whole.bounds
    half = blank.lap / 2
    laps = [(LAP, box(x - half, 0, x + half, width)) for x in blank.lines]
    seams = [(SEAM, box(0, y - half, length, y + half)) for y in blank.seams]
    marked = (*laps, *seams, *((LEFT, room) for room in left))
    return Container(box(west, south, east, north), (*between, *beyond), marked, blank.lines)


def _carries(job: Job, blank: Stock, part: Part) -> bool:
    """Whether a panel of the blank's rule can lie somewhere along it, across a scarf if it is long enough."""
    if blank.blank is None or not _serves(job, blank, part) or not has_room_for(part, blank):
        return False
    reach = replace(part.reach, lap=blank.blank.lap)
    return bool(offsets_on_blank(reach, blank.lines, blank.size[0]))


def _serves(job: Job, blank: Stock, part: Part) -> bool:
    return all(sheet_serves(job, member.sheet, part.panel) for member in blank.members)
