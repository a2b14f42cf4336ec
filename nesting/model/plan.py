"""The plan: what to buy, where every piece lies, where every joint goes, and how good that is."""

from decimal import Decimal
from typing import Annotated, Literal

from pydantic import Field

from .base import Money, Value
from .job import Job

PlanPoint = tuple[float, float]
Polygon = tuple[PlanPoint, ...]
Hand = Literal["port", "starboard", ""]


class Purchase(Value):
    """One line of the shopping list: ``cost`` is ``count`` x ``price``."""

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
    """One length of timber that is cut; no piece touches its faults."""

    kind: Literal["length"] = "length"
    id: str
    stock: str
    source: Literal["buy", "rack"]
    length: float
    faults: tuple[tuple[float, float], ...] = ()


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


class Joint(Value):
    """A scarf within one copy of a part; ``station`` is the middle of its lap, in the part's own stations.

    ``pieces`` are the ids of the piece on the side of the low stations and of the other. ``width`` is the
    length of the joint line across the part at ``station``.
    """

    id: str
    kind: Literal["scarf"] = "scarf"
    part: str
    copy_number: int = Field(alias="copy", ge=1)
    station: float
    lap: float
    slope: float
    thickness: float
    width: float
    pieces: tuple[str, str]
    scarf: str | None = None
    cost: Money


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
    """Square millimetres of all used sheets: ``used`` is the sum of the other five.

    ``parts`` is net area; ``laps`` the second layer within the scarfs; ``rest`` holds kerf, faults and scrap.
    """

    used: float
    parts: float
    laps: float
    trim: float
    offcuts: float
    rest: float


class TimberLengths(Value):
    """Millimetres of all used timber: ``used`` is the sum of the other four."""

    used: float
    parts: float
    laps: float
    offcuts: float
    rest: float


class Totals(Value):
    """What it all comes to.

    ``objective`` = ``to_pay`` + ``joint_cost`` - ``offcut_value``; no plan of the kinds in ``bound_scope`` has an
    objective below ``bound``. ``waste_percent`` is the share of the used sheets that is neither part nor kept
    offcut; laps and kerf count as waste. ``timber_waste_percent`` is the same of the used timber.
    """

    to_pay: Money
    joint_cost: Money
    offcut_value: Money
    objective: Money
    bound: Money
    bound_reason: str
    bound_scope: Literal["joined", "divided", "any"]
    proven: bool
    sheets: int
    lengths: int
    joints: int
    areas: SheetAreas
    timber: TimberLengths
    waste_percent: float
    timber_waste_percent: float


Used = Annotated[UsedSheet | UsedLength, Field(discriminator="kind")]
Piece = Annotated[PanelPiece | StripPiece, Field(discriminator="kind")]
Offcut = Annotated[SheetOffcut | LengthOffcut, Field(discriminator="kind")]


class Share(Value):
    """The share of a plan that comes from one kind of stock, sheets or timber, before totals are drawn."""

    used: tuple[Used, ...] = ()
    pieces: tuple[Piece, ...] = ()
    joints: tuple[Joint, ...] = ()
    offcuts: tuple[Offcut, ...] = ()


class Bound(Value):
    """An amount that no plan's objective can be below, and what proves it."""

    amount: Money
    reason: str


class Plan(Value):
    """A whole plan; with its ``job`` it can be checked by anyone without this library.

    ``job`` holds resolved values: outlines are polygons (arcs flattened within 0.05 mm), nothing refers to a
    file. ``job_sha256`` is taken over its canonical JSON (keys sorted, no spaces).
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
    blanks: tuple[()] = ()
    pieces: tuple[Piece, ...]
    joints: tuple[Joint, ...]
    offcuts: tuple[Offcut, ...]

    @property
    def cost(self) -> Decimal:
        """What is paid at the merchant's."""
        return self.totals.to_pay

    @property
    def waste(self) -> float:
        """Percent of the used sheets that is neither part nor kept offcut."""
        return self.totals.waste_percent

    def on(self, used_id: str) -> tuple[PanelPiece | StripPiece, ...]:
        """Return the pieces that lie on one sheet or length."""
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
