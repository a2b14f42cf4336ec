"""Blanks that may be made: whole sheets scarfed end to end, offered beside the sheets themselves."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import combinations_with_replacement, groupby

from shapely.geometry import box

from nesting.joints import blank_scarfs, joined_length, offsets_on_blank
from nesting.model import TOLERANCE, Job, JointRule, sheet_serves
from nesting.outlines import shrunk
from nesting.packing import Container

from .parts import Part
from .stock import LAP, Blank, Stock

#: Sheets of one blank at most, beyond the least number that is as long as the longest panel.
SHEETS_MORE = 1

#: Kinds of blank made by one rule at most, those of the fewest sheets first.
MOST_BLANKS = 16


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


def _by_rule(job: Job, name: str, rule: JointRule, panels: Sequence[Part], stocks: Sequence[Stock]) -> list[Stock]:
    blanks = (_blank(job, name, rule, members) for members in _joinable(job, rule, panels, stocks))
    useful = (blank for blank in blanks if any(_carries(job, blank, part) for part in panels))
    return [blank for blank, _ in zip(useful, range(MOST_BLANKS), strict=False)]


def _joinable(
    job: Job, rule: JointRule, panels: Sequence[Part], stocks: Sequence[Stock]
) -> Iterator[tuple[Stock, ...]]:
    """Yield sheets that can be joined and handled, the fewest first."""
    longest = job.workshop.longest_piece or math.inf
    wanted = max(part.reach.end - part.reach.start for part in panels)
    alike = [list(group) for _, group in groupby(sorted(filter(_plain, stocks), key=_like), key=_like)]
    alike = [group for group in alike if any(sheet_serves(job, s.sheet, p.panel) for s in group for p in panels)]
    counts = {id(group): _least_count(group, rule, wanted) + SHEETS_MORE for group in alike}
    for count in range(2, max(counts.values(), default=1) + 1):
        for group in alike:
            if count <= counts[id(group)]:
                for members in combinations_with_replacement(group, count):
                    if joined_length([m.size_usable[0] for m in members], _lap(rule, members)) <= longest + TOLERANCE:
                        yield members


def _plain(stock: Stock) -> bool:
    """Whether a sheet is whole and without a fault: only such are joined."""
    return stock.sheet.size is not None and not stock.faults and (stock.sheet.available or 2) > 0


def _like(stock: Stock) -> tuple[str, float, float, float]:
    """What has to be the same for sheets to be joined: goods, true thickness and usable width."""
    sheet = stock.sheet
    return sheet.material, sheet.thickness, sheet.true_thickness, round(stock.size_usable[1], 3)


def _least_count(group: Sequence[Stock], rule: JointRule, wanted: float) -> int:
    """Return with how many of the longest sheets a blank is as long as the longest panel."""
    lap = _lap(rule, group)
    return max(1, math.ceil((wanted - lap) / (max(stock.size_usable[0] for stock in group) - lap)))


def _lap(rule: JointRule, members: Sequence[Stock]) -> float:
    return rule.lap(members[0].sheet.true_thickness)


def _blank(job: Job, name: str, rule: JointRule, members: tuple[Stock, ...]) -> Stock:
    """Return the blank that sheets make, scarfed end to end in this order."""
    lap, width = _lap(rule, members), members[0].size_usable[1]
    lengths = [member.size_usable[0] for member in members]
    scarfs = blank_scarfs(lengths, lap)
    whole = box(0, 0, joined_length(lengths, lap), width)
    bands = tuple((LAP, box(x - lap / 2, 0, x + lap / 2, width)) for x in scarfs)
    cost = int(rule.cost.of(width) * 100)
    return Stock(
        index=-1,  # numbered once all are known
        sheet=members[0].sheet,
        whole=whole,
        trim=0.0,
        usable=whole,
        faults=(),
        container=Container(shrunk(whole, job.workshop.allowance), (), bands, scarfs),
        rank=min(member.rank for member in members),
        blank=Blank(name, members, rule.slope, lap, scarfs, cost),
    )


def _carries(job: Job, blank: Stock, part: Part) -> bool:
    """Whether a panel of the blank's rule can lie somewhere along it, across a scarf if it is long enough."""
    if blank.blank is None or not _serves(job, blank, part):
        return False
    reach = replace(part.reach, lap=blank.blank.lap)
    return bool(offsets_on_blank(reach, blank.lines, blank.size[0]))


def _serves(job: Job, blank: Stock, part: Part) -> bool:
    return all(sheet_serves(job, member.sheet, part.panel) for member in blank.members)
