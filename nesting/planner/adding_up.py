"""What a plan comes to: counts, money and areas, all worked out from what is laid."""

from collections import Counter
from collections.abc import Iterator, Sequence
from decimal import Decimal
from typing import Literal, NamedTuple

from shapely.geometry import Polygon

from nesting.model import (
    BlankScarf,
    Bound,
    Job,
    Length,
    LengthOffcut,
    PanelPiece,
    Purchase,
    Share,
    Sheet,
    SheetAreas,
    SheetOffcut,
    StrapPiece,
    StripPiece,
    TimberLengths,
    Totals,
    UsedLength,
    UsedSheet,
)
from nesting.outlines import shrunk

CENT = Decimal("0.01")

#: Plans of which kinds the bound speaks, by the ways of joining that a job allows.
SCOPES: dict[str, Literal["joined", "divided", "any"]] = {"joined": "joined", "divided": "divided", "both": "any"}


def purchases(job: Job, share: Share) -> tuple[Purchase, ...]:
    """Return the shopping list, in the order of the job's stock; what is on the rack is not bought."""
    bought = Counter(used.stock for used in share.used if used.source == "buy" and _counts(used))
    stocks: tuple[Sheet | Length, ...] = (*job.sheets, *job.lengths)
    used = [(stock.name, *stock.bought_for(bought[stock.name])) for stock in stocks if bought[stock.name]]
    return tuple(Purchase(stock=name, count=count, price=price, cost=count * price) for name, count, price in used)


def _counts(used: UsedSheet | UsedLength) -> bool:
    """Whether something used is bought for itself: of the sticks of a plank the first is."""
    return isinstance(used, UsedSheet) or used.is_first


def totals(job: Job, share: Share, bound: Bound) -> Totals:
    """Return the totals of a plan; ``bound`` is on its objective."""
    money = money_of(job, share)
    areas, timber = sheet_areas(job, share), timber_lengths(job, share)
    return Totals(
        to_pay=money.to_pay.quantize(CENT),
        joint_cost=money.joint_cost.quantize(CENT),
        rack_value=money.rack_value.quantize(CENT),
        offcut_value=money.offcut_value.quantize(CENT),
        objective=money.objective.quantize(CENT),
        bound=bound.amount.quantize(CENT),
        bound_reason=bound.reason,
        bound_scope=SCOPES[job.workshop.way],
        proven=bound.amount == money.objective,
        sheets=sum(isinstance(used, UsedSheet) for used in share.used),
        lengths=sum(isinstance(used, UsedLength) and _counts(used) for used in share.used),
        joints=len(share.joints),
        scarfs_of_blanks=sum(len(blank.scarfs) for blank in share.blanks),
        scarfs_of_planks=sum(len(plank.scarfs) for plank in share.long_planks),
        areas=areas,
        timber=timber,
        waste_percent=_percent(areas.used - areas.parts - areas.offcuts, areas.used),
        timber_waste_percent=_percent(timber.used - timber.parts - timber.offcuts, timber.used),
    )


class Money(NamedTuple):
    """What a share of a plan costs, is weighed at, takes from the rack, and leaves."""

    to_pay: Decimal
    joint_cost: Decimal
    rack_value: Decimal
    offcut_value: Decimal

    @property
    def objective(self) -> Decimal:
        """What the search makes as small as it can."""
        return self.to_pay + self.joint_cost + self.rack_value - self.offcut_value


def money_of(job: Job, share: Share) -> Money:
    """Return what a share of a plan comes to in money."""
    worth = {sheet.name: sheet.price for sheet in job.sheets if sheet.source == "rack"}
    return Money(
        to_pay=sum((purchase.cost for purchase in purchases(job, share)), Decimal(0)),
        joint_cost=sum(_joint_costs(share), Decimal(0)),
        rack_value=sum((worth.get(used.stock, Decimal(0)) for used in share.used), Decimal(0)),
        offcut_value=sum((offcut.value for offcut in share.offcuts if offcut.kept), Decimal(0)),
    )


def _joint_costs(share: Share) -> Iterator[Decimal]:
    """Yield what is weighed for each joint, and for each scarf of blanks and of long planks."""
    yield from (joint.cost for joint in share.joints)
    yield from (scarf.cost for scarf in _scarfs(share))
    yield from (scarf.cost for plank in share.long_planks for scarf in plank.scarfs)


def _scarfs(share: Share) -> list[BlankScarf]:
    return [scarf for blank in share.blanks for scarf in blank.scarfs]


def sheet_areas(job: Job, share: Share) -> SheetAreas:
    """Return where the area of all used sheets went."""
    sheets = [used for used in share.used if isinstance(used, UsedSheet)]
    wholes = [Polygon(sheet.outline, sheet.holes) for sheet in sheets]
    used = sum(whole.area for whole in wholes)
    trim = sum(whole.area - shrunk(whole, sheet.trim).area for whole, sheet in zip(wholes, sheets, strict=True))
    parts = sum(panel.quantity * _area(panel.outline.points, panel.outline.holes) for panel in job.panels)
    cut = sum(_area(piece.outline, piece.holes) for piece in share.pieces if isinstance(piece, PanelPiece))
    straps = sum(_area(piece.outline, ()) for piece in share.pieces if isinstance(piece, StrapPiece))
    kept = sum(_area(o.outline, ()) for o in share.offcuts if isinstance(o, SheetOffcut) and o.kept)
    of_blanks = sum(scarf.lap * scarf.width for scarf in _scarfs(share))
    laps = cut - parts + of_blanks
    rest = used - parts - laps - straps - trim - kept
    return SheetAreas(used=used, parts=parts, laps=laps, straps=straps, trim=trim, offcuts=kept, rest=rest)


def timber_lengths(job: Job, share: Share) -> TimberLengths:
    """Return where the length of all used timber went."""
    times = _sticks_of_planks(share)
    used = sum(length.length * times.get(length.id, 1) for length in share.used if isinstance(length, UsedLength))
    parts = sum(strip.quantity * strip.length for strip in job.strips)
    cut = sum(piece.end - piece.start for piece in share.pieces if isinstance(piece, StripPiece))
    offcuts = (offcut for offcut in share.offcuts if isinstance(offcut, LengthOffcut) and offcut.kept)
    kept = sum((offcut.end - offcut.start) * times.get(offcut.on, 1) for offcut in offcuts)
    within = sum(scarf.lap * len(plank.sticks) for plank in share.long_planks for scarf in plank.scarfs)
    laps = cut - parts + within
    return TimberLengths(used=used, parts=parts, laps=laps, offcuts=kept, rest=used - parts - laps - kept)


def _sticks_of_planks(share: Share) -> dict[str, int]:
    """Return how many sticks each plank is ripped into that goes into long planks, by its id."""
    return {part.used: len(plank.sticks) for plank in share.long_planks for part in plank.members}


def _area(ring: Sequence[tuple[float, ...]], holes: Sequence[Sequence[tuple[float, ...]]]) -> float:
    return float(Polygon(ring, holes).area)


def _percent(part: float, whole: float) -> float:
    return 100 * part / whole if whole else 0.0
