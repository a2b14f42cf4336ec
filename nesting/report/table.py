"""Tables of figures and names, written as CSV or set into a page."""

import csv
import io
from collections.abc import Callable
from dataclasses import dataclass, replace
from decimal import Decimal

from nesting.drawing import Tape

Cell = str | int | float | Decimal | None

#: What a spreadsheet takes for the start of a formula.
FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r")


@dataclass(frozen=True)
class Column:
    """A column by its name in CSV and its heading on a page."""

    name: str
    heading: str


@dataclass(frozen=True)
class LengthColumn(Column):
    """A column of lengths in millimetres, which a tape is to read off; words in it have been read off already."""


@dataclass(frozen=True)
class ThicknessColumn(Column):
    """A column of thicknesses in millimetres, which are told more finely than lengths."""


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


def on_tape(table: Table, tape: Tape) -> Table:
    """Return the table with its lengths as a tape shows them, and their unit in the headings."""
    columns = tuple(_with_unit(column, tape) for column in table.columns)
    readings = [_reading(column, tape) for column in table.columns]
    rows = tuple(tuple(read(cell) for read, cell in zip(readings, row, strict=True)) for row in table.rows)
    return replace(table, columns=columns, rows=rows)


def _with_unit(column: Column, tape: Tape) -> Column:
    if isinstance(column, LengthColumn | ThicknessColumn):
        return Column(column.name, f"{column.heading}, {tape.unit}")
    return column


def _reading(column: Column, tape: Tape) -> Callable[[Cell], Cell]:
    """Return how the cells of a column are read off a tape: on one in millimetres figures stay figures."""
    write, places = (tape.thickness, 2) if isinstance(column, ThicknessColumn) else (tape.figure, 1)

    def read(cell: Cell) -> Cell:
        if not isinstance(cell, int | float):
            return cell
        return round(cell, places) if tape.is_metric else write(cell)

    return read if isinstance(column, LengthColumn | ThicknessColumn) else lambda cell: cell


def filled(table: Table) -> Table:
    """Return the table without the columns that are empty in every row: less to scroll through on a page."""
    return _with_columns(
        table, [n for n in range(len(table.columns)) if any(row[n] not in (None, "") for row in table.rows)]
    )


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
