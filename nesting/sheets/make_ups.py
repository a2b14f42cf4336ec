"""Which sheets make a blank, whole or in equal parts, and how these stand in it."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import chain, combinations_with_replacement, groupby

from nesting.joints import joined_length
from nesting.model import TOLERANCE, Job, JointRule, sheet_serves

from .parts import Part
from .stock import Stock

#: Columns of one blank at most, beyond the least number that is as long as the longest panel.
COLUMNS_MORE = 1

#: Sheets are ripped into so many strips at most, and cut across into so many lengths.
MOST_STRIPS, MOST_LENGTHS = 3, 2


@dataclass(frozen=True)
class MakeUp:
    """The sheets of a blank, column by column from its low end, each in rows from its low edge up.

    Attributes
    ----------
    columns : tuple of (Stock, int)
        The kind of sheet, and into how many equal lengths it is cut across for that column; 1 is the whole length.
    strips : tuple of int
        For each row into how many equal strips a sheet is ripped for it; 1 is the whole width.
    """

    columns: tuple[tuple[Stock, int], ...]
    strips: tuple[int, ...] = (1,)


def equal_part(size: float, count: int, kerf: float) -> float:
    """Return the size of each of equal parts into which something is cut."""
    return (size - (count - 1) * kerf) / count


def lap_of(rule: JointRule, members: Sequence[Stock]) -> float:
    """Return the lap between sheets, which are all of one true thickness."""
    return rule.lap(members[0].sheet.true_thickness)


def column_lengths(make_up: MakeUp, kerf: float) -> list[float]:
    """Return the length of each column."""
    return [equal_part(stock.size_usable[0], count, kerf) for stock, count in make_up.columns]


def alike(stocks: Sequence[Stock]) -> list[list[Stock]]:
    """Return whole and faultless sheets by what has to be the same for them to be joined."""
    return [list(group) for _, group in groupby(sorted(filter(_plain, stocks), key=_like), key=_like)]


def of_whole_sheets(job: Job, rule: JointRule, panels: Sequence[Part], stocks: Sequence[Stock]) -> Iterator[MakeUp]:
    """Yield whole sheets end to end that can be handled, the fewest first."""
    groups = _serving(job, panels, alike(stocks))
    counts = [_most_columns(group, rule, panels) for group in groups]
    for count in range(2, max(counts, default=1) + 1):
        for group, most in zip(groups, counts, strict=True):
            if count <= most:
                sheets = combinations_with_replacement(group, count)
                yield from _handled(job, rule, (MakeUp(tuple((sheet, 1) for sheet in several)) for several in sheets))


def of_cut_sheets(job: Job, rule: JointRule, panels: Sequence[Part], stocks: Sequence[Stock]) -> Iterator[MakeUp]:
    """Yield sheets of one kind end to end, ripped into strips or the last cut across, the fewest columns first."""
    sheets = [sheet for group in _serving(job, panels, alike(stocks)) for sheet in group]
    most = [_most_columns([sheet], rule, panels) for sheet in sheets]
    for count in range(2, max(most, default=1) + 1):
        those = [sheet for sheet, columns in zip(sheets, most, strict=True) if count <= columns]
        ripped = (MakeUp(((s, 1),) * count, (n,)) for s in those for n in range(2, MOST_STRIPS + 1))
        crosscut = (MakeUp((*((s, 1),) * (count - 1), (s, MOST_LENGTHS))) for s in those)
        yield from _handled(job, rule, chain(ripped, crosscut))


def for_wide_panels(job: Job, rule: JointRule, panels: Sequence[Part], stocks: Sequence[Stock]) -> Iterator[MakeUp]:
    """Yield sheets side by side and end to end for panels that are wider than any sheet, the fewest columns first."""
    groups = alike(stocks)
    for part in (part for part in panels if part.is_wide):
        for group in _serving(job, [part], groups):
            strips = strips_for(part.height + 2 * job.workshop.allowance, group[0].size_usable[1], job, rule, group)
            columns = _columns(group, _most_columns(group, rule, [part]))
            if strips is not None:
                yield from _handled(job, rule, (MakeUp(several, strips) for several in columns))


def strips_for(
    height: float, width: float, job: Job, rule: JointRule, group: Sequence[Stock]
) -> tuple[int, ...] | None:
    """Return the strips of the fewest rows that together are as wide as that, the last of the narrowest strips."""
    lap, kerf = lap_of(rule, group), job.workshop.kerf.sheet
    if width <= lap:
        return None
    rows = 1 + math.ceil((height - width - TOLERANCE) / (width - lap))
    needed = height - (rows - 1) * (width - lap)
    widths = {n: equal_part(width, n, kerf) for n in range(1, MOST_STRIPS + 1)}
    last = max(n for n, strip in widths.items() if n == 1 or (strip >= needed - TOLERANCE and strip > 2 * lap))
    return (1,) * (rows - 1) + (last,)


def _columns(group: Sequence[Stock], most: int) -> Iterator[tuple[tuple[Stock, int], ...]]:
    """Yield whole sheets, and for each kind some of which the last is cut across, the fewest first."""
    for count in range(1, most + 1):
        if count > 1:
            yield from (((*((sheet, 1),) * (count - 1), (sheet, MOST_LENGTHS))) for sheet in group)
        for several in combinations_with_replacement(group, count):
            yield tuple((sheet, 1) for sheet in several)


def _serving(job: Job, panels: Sequence[Part], groups: Sequence[list[Stock]]) -> list[list[Stock]]:
    return [group for group in groups if any(sheet_serves(job, s.sheet, p.panel) for s in group for p in panels)]


def _handled(job: Job, rule: JointRule, make_ups: Iterator[MakeUp]) -> Iterator[MakeUp]:
    """Yield what makes a blank that is no longer than can be handled."""
    longest, kerf = job.workshop.longest_piece or math.inf, job.workshop.kerf.sheet
    for make_up in make_ups:
        lap = lap_of(rule, [make_up.columns[0][0]])
        lengths = column_lengths(make_up, kerf)
        if min(lengths) > lap and joined_length(lengths, lap) <= longest + TOLERANCE:
            yield make_up


def _plain(stock: Stock) -> bool:
    """Whether a sheet is whole and without a fault: only such are joined."""
    return stock.sheet.size is not None and not stock.faults and (stock.sheet.available or 2) > 0


def _like(stock: Stock) -> tuple[str, float, float, float]:
    """What has to be the same for sheets to be joined: goods, true thickness and usable width."""
    sheet = stock.sheet
    return sheet.material, sheet.thickness, sheet.true_thickness, round(stock.size_usable[1], 3)


def _most_columns(group: Sequence[Stock], rule: JointRule, panels: Sequence[Part]) -> int:
    """Return with how many of the longest sheets a blank is as long as the longest panel, and some more."""
    lap, wanted = lap_of(rule, group), max(part.reach.length for part in panels)
    longest = max(stock.size_usable[0] for stock in group)
    least = max(1, math.ceil((wanted - lap) / (longest - lap))) if longest > lap else 1
    return least + COLUMNS_MORE
