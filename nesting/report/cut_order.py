"""An order in which a sheet or blank can be sawn, from long straight cuts to the lines of single pieces."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from nesting.drawing import (
    Container,
    Extents,
    Tape,
    container,
    extents,
    parts_of_blanks,
    piece_codes,
    sheet_pieces,
    tape_in,
)
from nesting.model import TOLERANCE, Plan, SheetOffcut

from .table import Cell, Column, Table


@dataclass(frozen=True)
class Item:
    """What is to come off in one, with the wood it needs: a piece by its code, a part of a blank, an offcut to keep."""

    name: str
    place: Extents
    is_piece: bool


@dataclass(frozen=True, kw_only=True)
class StraightCut:
    """A cut right across what is left: along the grain (a rip), or across it, with the blade between two places."""

    along: bool
    blade: tuple[float, float]
    run: tuple[float, float]
    below: tuple[str, ...]
    above: tuple[str, ...]


@dataclass(frozen=True)
class CutOut:
    """The rest of one piece's outline, sawn along its line."""

    name: str


Step = StraightCut | CutOut


def cut_order_table(plan: Plan, name: str) -> Table:
    """Return an order in which all that is on a blank or sheet can be sawn.

    First come straight cuts from edge to edge that touch no piece and no offcut to keep: whichever way they are longer,
    from the datum edge or end; then each of the parts so made is cut in the same way. Where no straight cut passes,
    pieces are sawn out along their lines one by one, those nearest to the datum end first, so that a jigsaw comes from
    the free end to each.

    Raises
    ------
    ValueError
        If the plan has no such blank or sheet.
    """
    on, tape = container(plan, name), tape_in(plan)
    unit = "mm" if tape.unit == "mm" else "ft in"
    columns = (
        Column("step", "Step"),
        Column("cut", "Cut"),
        Column("blade", f"Blade between, {unit}"),
        Column("run", f"Running from and to, {unit}"),
        Column("frees", "Parts"),
    )
    rows = tuple((number, *_cells(step, tape)) for number, step in enumerate(cut_order(plan, on), 1))
    return Table(caption=f"Cut order of {name}", columns=columns, rows=rows)


def cut_order(plan: Plan, on: Container) -> tuple[Step, ...]:
    """Return the steps of that order; distances are from the datum corner, millimetres."""
    return tuple(_steps(_items(plan, on), extents(on.outline, on), plan.job.workshop.kerf.sheet))


def _items(plan: Plan, on: Container) -> tuple[Item, ...]:
    codes, allowance, tape = piece_codes(plan), plan.job.workshop.allowance, tape_in(plan)
    pieces = (Item(codes[p.id], _grown(extents(p.outline, on), allowance), True) for p in sheet_pieces(plan, on.id))
    kept = (offcut for offcut in plan.offcuts if isinstance(offcut, SheetOffcut) and offcut.on == on.id and offcut.kept)
    places = (extents(offcut.outline, on) for offcut in kept)
    parts = ((blank.id, extents(member.outline, on)) for blank, member in parts_of_blanks(plan, on.id))
    members = (Item(f"for blank {name} {tape.figures(*place.size)}", place, False) for name, place in parts)
    return (*pieces, *members, *(Item(f"keep {tape.figures(*place.size)}", place, False) for place in places))


def _grown(place: Extents, by_much: float) -> Extents:
    return Extents(
        left=place.left - by_much,
        bottom=place.bottom - by_much,
        right=place.right + by_much,
        top=place.top + by_much,
    )


def _steps(items: Sequence[Item], region: Extents, kerf: float) -> Iterator[Step]:
    for along in _ways(region):
        strips = _strips(items, along, kerf)
        if len(strips) > 1:
            yield from _straight_cuts(strips, region, along)
            for strip, part in zip(strips, _parted(strips, region, along), strict=True):
                yield from _steps(strip, part, kerf)
            return
    yield from (CutOut(item.name) for item in sorted(items, key=_from_datum_end) if item.is_piece)


def _ways(region: Extents) -> tuple[bool, bool]:
    """Return whether cuts go along the grain or across it, the longer ones first."""
    length, width = region.size
    return (True, False) if length >= width else (False, True)


def _strips(items: Sequence[Item], along: bool, kerf: float) -> list[list[Item]]:
    """Return the items between which a blade passes straight across, from the datum."""
    strips: list[list[Item]] = []
    for item in sorted(items, key=lambda item: (_reach(item.place, along), item.name)):
        low = _reach(item.place, along)[0]
        if not strips or low - _top(strips[-1], along) >= kerf - TOLERANCE:
            strips.append([item])
        else:
            strips[-1].append(item)
    return strips


def _straight_cuts(strips: Sequence[Sequence[Item]], region: Extents, along: bool) -> Iterator[StraightCut]:
    for below, above in pairwise(strips):
        yield StraightCut(
            along=along,
            blade=(_top(below, along), _bottom(above, along)),
            run=_reach(region, not along),
            below=tuple(item.name for item in below),
            above=tuple(item.name for item in above),
        )


def _parted(strips: Sequence[Sequence[Item]], region: Extents, along: bool) -> Iterator[Extents]:
    """Yield the parts of a region that straight cuts between strips leave, each less the strip's own waste."""
    starts = [_reach(region, along)[0], *(_bottom(strip, along) for strip in strips[1:])]
    ends = [*(_top(strip, along) for strip in strips[:-1]), _reach(region, along)[1]]
    for low, high in zip(starts, ends, strict=True):
        if along:
            yield Extents(left=region.left, right=region.right, bottom=low, top=high)
        else:
            yield Extents(left=low, right=high, bottom=region.bottom, top=region.top)


def _reach(place: Extents, along: bool) -> tuple[float, float]:
    """Return from where to where a place reaches across the cuts."""
    return (place.bottom, place.top) if along else (place.left, place.right)


def _top(items: Iterable[Item], along: bool) -> float:
    return max(_reach(item.place, along)[1] for item in items)


def _bottom(items: Iterable[Item], along: bool) -> float:
    return min(_reach(item.place, along)[0] for item in items)


def _from_datum_end(item: Item) -> tuple[float, float, str]:
    return round(item.place.left, 1), round(item.place.bottom, 1), item.name


def _cells(step: Step, tape: Tape) -> tuple[Cell, ...]:
    if isinstance(step, CutOut):
        return "out, along its line", None, None, step.name
    low, high = (tape.shown(place) for place in step.blade)
    start, end = (tape.shown(place) for place in step.run)
    way = "rip, straight along" if step.along else "straight across"
    return way, f"{low} and {high}", f"{start} to {end}", f"{', '.join(step.below)} | {', '.join(step.above)}"
