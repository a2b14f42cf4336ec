"""What would help where strips can't be cut from the lengths there are: one rule or limit changed as little as does."""

from collections.abc import Callable, Iterator
from dataclasses import replace

from nesting.model import Job

from .cutting import Cutting, length_of
from .layout import Layout
from .measure import Measure

#: Halvings of a shift until the largest that can be kept is told.
HALVINGS = 7

Planning = Callable[[Cutting], Layout | None]


def changes_that_help(job: Job, cutting: Cutting, measure: Measure, planned: Planning) -> Iterator[str]:
    """Yield in words, for each limit and each shift, the least change of it alone with which a plan was found."""
    yield from _more_lengths(job, cutting, planned)
    for place, shift in enumerate(cutting.shifts):
        found = _largest_shift(cutting, place, planned)
        if found is not None:
            names = (job.strips[cutting.members[member].index].name for member in (shift.one, shift.other))
            told = " and ".join(f'"{name}"' for name in dict.fromkeys(names))
            yield f"a shift of {measure.millimetres(found):g} for {told} can be kept"


def _more_lengths(job: Job, cutting: Cutting, planned: Planning) -> Iterator[str]:
    for index, stock in cutting.stocks.items():
        if stock.available is None:
            continue
        unlimited = replace(cutting, stocks={**cutting.stocks, index: replace(stock, available=None)})
        layout = planned(unlimited)
        if layout is not None and layout.bars.count(index) > stock.available:
            yield f'{layout.bars.count(index)} of "{length_of(job, index).name}" would do, {stock.available} are there'


def _largest_shift(cutting: Cutting, place: int, planned: Planning) -> int | None:
    """Return the largest shift found that can be kept in place of one; None if none at all."""
    most, least = cutting.shifts[place].distance, 0
    if planned(_with_shift(cutting, place, 0)) is None:
        return None
    for _ in range(HALVINGS):
        middle = (least + most) // 2
        if middle == least:
            break
        if planned(_with_shift(cutting, place, middle)) is None:
            most = middle
        else:
            least = middle
    return least


def _with_shift(cutting: Cutting, place: int, distance: int) -> Cutting:
    shifts = tuple(replace(s, distance=distance) if k == place else s for k, s in enumerate(cutting.shifts))
    return replace(cutting, shifts=shifts)
