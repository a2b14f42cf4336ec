"""Timber by section, in pieces, metres and board feet."""

from collections import defaultdict
from dataclasses import dataclass

from nesting.drawing import tape_in
from nesting.model import Length, Plan, UsedLength

from .board_feet import board_feet, board_feet_as_sold
from .stock import length_of
from .table import Cell, Column, LengthColumn, Table, as_csv, on_tape

COLUMNS = (
    Column("material", "Material"),
    LengthColumn("section", "Section"),
    Column("source", "From"),
    Column("count", "Lengths"),
    Column("metres", "Metres"),
    Column("board_feet", "Board feet as sold"),
    Column("true_board_feet", "Board feet, true"),
)

#: Danforth, "Mechanical Processes" (1910s).
THIN_STOCK = (
    "A board foot is 144 cubic inches. As sold, stock under an inch thick counts as an inch (Danforth, "
    '"Mechanical Processes", 1910s); the true volume stands beside it. Ask your merchant which rule is his.'
)


@dataclass
class Tally:
    """What is taken of one section."""

    count: int = 0
    metres: float = 0.0
    as_sold: float = 0.0
    true: float = 0.0

    def add(self, length: Length) -> None:
        """Count one length."""
        size = (*length.section, length.length)
        self.count += 1
        self.metres += length.length / 1000
        self.as_sold += board_feet_as_sold(*size)
        self.true += board_feet(*size)


def timber_tally(plan: Plan) -> str:
    """Return the timber by section as CSV."""
    return as_csv(tally_table(plan))


def tally_table(plan: Plan) -> Table:
    """Return the timber that the plan uses, bought and from the rack; of a ripped plank the plank counts."""
    tallies: defaultdict[tuple[str, tuple[float, float], str], Tally] = defaultdict(Tally)
    for used in plan.used:
        if isinstance(used, UsedLength) and used.is_first:
            length = length_of(plan, used.stock)
            tallies[length.material, length.section, used.source].add(length)
    rows = [
        (material, tape_in(plan).figures(*section), "the rack" if source == "rack" else "merchant", *_figures(tally))
        for (material, section, source), tally in sorted(tallies.items())
    ]
    return on_tape(Table(caption="Timber tally", columns=COLUMNS, rows=tuple(rows)), tape_in(plan))


def _figures(tally: Tally) -> tuple[Cell, ...]:
    return tally.count, round(tally.metres, 2), round(tally.as_sold, 2), round(tally.true, 2)
