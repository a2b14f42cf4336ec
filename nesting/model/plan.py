"""The plan: what to buy, where every piece lies, where every joint goes, and how good that is."""

from decimal import Decimal
from typing import Annotated, Literal

from pydantic import Field

from .base import Money, Value
from .job import Job
from .long_plank import LongPlank, PlankWay

PlanPoint = tuple[float, float]
Polygon = tuple[PlanPoint, ...]
Hand = Literal["port", "starboard", ""]


class Purchase(Value):
    """One line of the shopping list: ``cost`` is ``count`` x ``price``, what each costs where so many are bought.

    More are bought than are used where that costs less.
    """

    stock: str
    count: int = Field(ge=1)
    price: Money
    cost: Money


class UsedSheet(Value):
    """One sheet that is cut; ``trim`` comes off each edge of ``outline`` before use."""

    kind: Literal["sheet"] = "sheet"
    id: str
    stock: str
    source: Literal["buy", "rack"]
    outline: Polygon
    holes: tuple[Polygon, ...] = ()
    faults: tuple[Polygon, ...] = ()
    trim: float


class UsedLength(Value):
    """One length of timber that is cut, or one stick of a plank that is ripped; no piece touches its faults.

    ``plank`` is the same text for all sticks of one plank, which is bought once: from one edge ``stick`` 1 to
    ``sticks``. None of a length that is not ripped.
    """

    kind: Literal["length"] = "length"
    id: str
    stock: str
    source: Literal["buy", "rack"]
    length: float
    faults: tuple[tuple[float, float], ...] = ()
    plank: str | None = None
    stick: int = Field(default=1, ge=1)
    sticks: int = Field(default=1, ge=1)

    @property
    def is_first(self) -> bool:
        """Whether it counts when lengths are counted: of a plank the first stick does."""
        return self.stick == 1


class PanelPiece(Value):
    """A piece of a panel as it lies on its sheet.

    A point ``p`` of the panel's own frame lies on the sheet at ``turn(mirror(p)) + (x, y)``: mirrored about the
    panel's x axis first if ``mirrored``, then turned by ``angle`` degrees anticlockwise about the origin.
    ``index`` counts the pieces of one copy from the low stations, from 1 to ``of``.
    """

    kind: Literal["panel"] = "panel"
    id: str
    part: str
    copy_number: int = Field(alias="copy", ge=1)
    hand: Hand
    index: int
    of: int
    on: str
    outline: Polygon
    holes: tuple[Polygon, ...] = ()
    x: float
    y: float
    angle: float
    mirrored: bool


class StripPiece(Value):
    """A piece of a strip as it lies on its length, from one cut to the other."""

    kind: Literal["strip"] = "strip"
    id: str
    part: str
    copy_number: int = Field(alias="copy", ge=1)
    index: int
    of: int
    on: str
    start: float = Field(alias="from")
    end: float = Field(alias="to")


class StrapPiece(Value):
    """The strap behind a butt, as it lies on its sheet: the panel's own outline half a strap to either side.

    It is placed as a ``PanelPiece`` is, from the panel's own frame; ``joint`` is the id of the butt that it covers.
    Behind the panel its good face is to look inwards, away from the panel, so it lies the other way round: ``mirrored``
    where the panel's own pieces are not.
    """

    kind: Literal["strap"] = "strap"
    id: str
    part: str
    copy_number: int = Field(alias="copy", ge=1)
    hand: Hand
    joint: str
    on: str
    outline: Polygon
    x: float
    y: float
    angle: float
    mirrored: bool


class Joint(Value):
    """A scarf or butt within one copy of a part; ``station`` is its middle, in the part's own stations.

    ``pieces`` are the ids of the piece on the side of the low stations and of the other; of a panel cut from a blank
    it is the one piece that runs across the blank's ``scarf``, whose id stands there and which alone is paid for.
    ``thickness`` is what the bevel runs through, and ``width`` the length of the joint line across the part at
    ``station``; of a strip scarfed ``across`` its width the two are its width and its thickness. A butt has no ``lap``
    and no ``slope``, but a ``strap`` of that length behind it; a scarf has none.
    """

    id: str
    kind: Literal["scarf", "butt"] = "scarf"
    part: str
    copy_number: int = Field(alias="copy", ge=1)
    station: float
    lap: float
    slope: float | None
    strap: float = 0.0
    thickness: float
    across: Literal["thickness", "width"] = "thickness"
    width: float
    pieces: tuple[str] | tuple[str, str]
    scarf: str | None = None
    cost: Money


class Member(Value):
    """A sheet within a blank, or a part of one: the ``outline`` that is cut from it, in that sheet's own frame.

    A point ``p`` of the sheet lies in the blank at ``turn(mirror(p)) + (x, y)``: mirrored about the x axis first if the
    sheet is ``turned_over``, then turned by ``angle`` degrees anticlockwise about the origin.
    """

    used: str
    outline: Polygon
    x: float
    y: float
    angle: float = 0.0
    turned_over: bool = False


class BlankScarf(Value):
    """A scarf between members of a blank: right ``across`` it, square to the x axis, or ``along`` a column of it.

    The middle of its lap lies at x = ``at``, or at y = ``at`` if it runs along; along its line it reaches from
    ``begins`` over its ``width``.
    """

    id: str
    runs: Literal["across", "along"] = "across"
    at: float
    begins: float = 0.0
    lap: float
    slope: float
    thickness: float
    width: float
    cost: Money


class Blank(Value):
    """Sheets scarfed into one larger piece before parts are cut from it.

    ``members`` stand column by column along x, in each column from the low edge up. Those of a column are scarfed to
    one another along their edges, and the columns then end to end. ``scarfs`` are first those across, from the low end
    up, then those along, column by column; ``joint`` names the rule. Other parts may be cut from what is left of a
    sheet that is not wholly in it.
    """

    id: str
    joint: str
    outline: Polygon
    members: tuple[Member, ...] = Field(min_length=2)
    scarfs: tuple[BlankScarf, ...] = Field(min_length=1)


class SheetOffcut(Value):
    """A leftover of a sheet, as it lies there."""

    kind: Literal["sheet"] = "sheet"
    on: str
    outline: Polygon
    kept: bool
    value: Money = Decimal("0")


class LengthOffcut(Value):
    """A leftover of a length of timber, as it lies there."""

    kind: Literal["length"] = "length"
    on: str
    start: float = Field(alias="from")
    end: float = Field(alias="to")
    kept: bool
    value: Money = Decimal("0")


class SheetAreas(Value):
    """Square millimetres of all used sheets: ``used`` is the sum of the other six.

    ``parts`` is net area; ``laps`` the second layer within the scarfs, those of blanks over their whole width;
    ``straps`` what lies behind butts; ``rest`` holds kerf, faults and scrap.
    """

    used: float
    parts: float
    laps: float
    straps: float = 0.0
    trim: float
    offcuts: float
    rest: float


class TimberLengths(Value):
    """Millimetres of all used timber: ``used`` is the sum of the other four; of a plank each stick counts.

    So a plank that goes into a long plank counts as often as that has sticks, and what is left of it too; ``laps`` of
    long planks count on every stick.
    """

    used: float
    parts: float
    laps: float
    offcuts: float
    rest: float


class Totals(Value):
    """What it all comes to.

    ``objective`` = ``to_pay`` + ``joint_cost`` + ``rack_value`` - ``offcut_value``, the third what sheets from the rack
    are worth; no plan of the kinds in ``bound_scope`` has an objective below ``bound``. ``waste_percent`` is the share
    of the used sheets that is neither part nor kept offcut; laps and kerf count as waste. ``timber_waste_percent`` is
    the same of the used timber.
    """

    to_pay: Money
    joint_cost: Money
    rack_value: Money = Decimal("0")
    offcut_value: Money
    objective: Money
    bound: Money
    bound_reason: str
    bound_scope: Literal["joined", "divided", "any"]
    proven: bool
    sheets: int
    lengths: int
    joints: int
    scarfs_of_blanks: int = 0
    scarfs_of_planks: int = 0
    areas: SheetAreas
    timber: TimberLengths
    waste_percent: float
    timber_waste_percent: float


Used = Annotated[UsedSheet | UsedLength, Field(discriminator="kind")]
Piece = Annotated[PanelPiece | StrapPiece | StripPiece, Field(discriminator="kind")]
Offcut = Annotated[SheetOffcut | LengthOffcut, Field(discriminator="kind")]


class Way(Value):
    """What the whole job would come to if panels were joined in this way only, by the best plan found for it.

    ``objective`` is None where no plan was found; ``told`` says why in that case, and otherwise what it would take.
    ``tried`` is False if the budget was spent before it could be looked at.
    """

    way: Literal["joined", "divided", "mixed"]
    objective: Money | None
    told: str
    tried: bool = True


class Share(Value):
    """The share of a plan that comes from one kind of stock, sheets or timber, before totals are drawn.

    ``ways`` tells what the share would come to by each way of joining that was tried, ``plank_ways`` the same of
    planks.
    """

    used: tuple[Used, ...] = ()
    blanks: tuple[Blank, ...] = ()
    long_planks: tuple[LongPlank, ...] = ()
    pieces: tuple[Piece, ...] = ()
    joints: tuple[Joint, ...] = ()
    offcuts: tuple[Offcut, ...] = ()
    ways: tuple[Way, ...] = ()
    plank_ways: tuple[PlankWay, ...] = ()


class Bound(Value):
    """An amount that no plan's objective can be below, and what proves it."""

    amount: Money
    reason: str


class Plan(Value):
    """A whole plan; with its ``job`` it can be checked by anyone without this library.

    ``job`` holds resolved values: outlines are polygons (arcs flattened within 0.05 mm), nothing refers to a
    file. ``job_sha256`` is taken over its canonical JSON (keys sorted, no spaces). ``ways`` tells what each way of
    joining panels that was tried would come to; ``plank_ways`` the same for the timber of strips that planks serve.
    """

    format: Literal["nesting-plan"] = "nesting-plan"
    version: Literal[1] = 1
    seed: int
    work: int
    job: Job
    job_sha256: str
    totals: Totals
    purchases: tuple[Purchase, ...]
    used: tuple[Used, ...]
    blanks: tuple[Blank, ...] = ()
    long_planks: tuple[LongPlank, ...] = ()
    pieces: tuple[Piece, ...]
    joints: tuple[Joint, ...]
    offcuts: tuple[Offcut, ...]
    ways: tuple[Way, ...] = ()
    plank_ways: tuple[PlankWay, ...] = ()

    @property
    def cost(self) -> Decimal:
        """What is paid at the merchant's."""
        return self.totals.to_pay

    @property
    def waste(self) -> float:
        """Percent of the used sheets that is neither part nor kept offcut."""
        return self.totals.waste_percent

    def on(self, used_id: str) -> tuple[PanelPiece | StrapPiece | StripPiece, ...]:
        """Return the pieces that lie on one sheet, length, blank or stick of a long plank."""
        return tuple(piece for piece in self.pieces if piece.on == used_id)

    def summary(self) -> str:
        """Return the outcome in one sentence."""
        totals = self.totals
        verdict = "proven minimum" if totals.proven else f"no plan can be below {totals.bound:.2f}"
        return (
            f"{totals.sheets} sheets, {totals.lengths} lengths, {totals.joints} joints: "
            f"{totals.to_pay:.2f} {self.job.currency} to pay, objective {totals.objective:.2f} ({verdict}), "
            f"{totals.waste_percent:.1f} % of the sheets wasted"
        )
