"""Tables of figures and names, written as CSV or set into a page."""

import csv
import io
from dataclasses import dataclass, replace
from decimal import Decimal

Cell = str | int | float | Decimal | None

#: What a spreadsheet takes for the start of a formula.
FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r")


@dataclass(frozen=True)
class Column:
    """A column by its name in CSV and its heading on a page."""

    name: str
    heading: str


@dataclass(frozen=True, kw_only=True)
class Table:
    """Rows of cells below named columns; the first cell of a row names it."""

    caption: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]


def as_csv(table: Table) -> str:
    r"""Return the table after RFC 4180, but with lines ended by ``\n``.

    Texts come from whoever wrote the job: one that a spreadsheet would take for a formula gets an apostrophe before
    it.
    """
    written = io.StringIO()
    writer = csv.writer(written, lineterminator="\n")
    writer.writerow([column.name for column in table.columns])
    writer.writerows([_harmless(cell) if isinstance(cell, str) else shown(cell) for cell in row] for row in table.rows)
    return written.getvalue()


def filled(table: Table) -> Table:
    """Return the table without the columns that are empty in every row: less to scroll through on a page."""
    return _with_columns(table, [n for n in range(len(table.columns)) if any(shown(row[n]) for row in table.rows)])


def without(table: Table, *names: str) -> Table:
    """Return the table without some columns, by their names in CSV."""
    return _with_columns(table, [n for n, column in enumerate(table.columns) if column.name not in names])


def led_by(table: Table, name: str) -> Table:
    """Return the table with one column, by its name in CSV, moved to the front."""
    place = next(n for n, column in enumerate(table.columns) if column.name == name)
    return _with_columns(table, [place, *(n for n in range(len(table.columns)) if n != place)])


def _with_columns(table: Table, kept: list[int]) -> Table:
    columns = tuple(table.columns[place] for place in kept)
    return replace(table, columns=columns, rows=tuple(tuple(row[place] for place in kept) for row in table.rows))


def shown(cell: Cell) -> str:
    """Return a cell as it is read: money with its cents, other figures without needless zeros."""
    if cell is None:
        return ""
    if isinstance(cell, Decimal):
        return f"{cell:.2f}"
    if isinstance(cell, float):
        return f"{cell + 0.0:.3f}".rstrip("0").rstrip(".")
    return str(cell)


def is_figure(cell: Cell) -> bool:
    """Whether a cell belongs to the right of its column."""
    return isinstance(cell, int | float | Decimal)


def _harmless(text: str) -> str:
    return "'" + text if text.startswith(FORMULA_STARTS) else text
