"""A table as it stands in the page: written straight away, as a large plan has a hundred thousand cells."""

from collections.abc import Sequence
from functools import lru_cache
from html import escape

from markupsafe import Markup

from .table import Cell, Table, is_figure, shown

#: A table of more rows than this stands in columns on paper, if it has fewer columns than that; a shorter one is not
#: divided between pages.
LONG_FROM, WIDE_FROM = 20, 7


def table_markup(table: Table, ticks: Sequence[str] = ()) -> Markup:
    """Return a table with its caption; ``ticks`` name its rows, each of which then begins with a box to tick."""
    caption = escape(table.caption)
    kept = " short" if len(table.rows) <= LONG_FROM else " long" if len(table.columns) < WIDE_FROM else ""
    headings = "".join(f'<th scope="col">{escape(column.heading)}</th>' for column in table.columns)
    names = ticks or [""] * len(table.rows)
    rows = "\n".join(_row(row, tick) for row, tick in zip(table.rows, names, strict=True))
    return Markup(
        f'<div class="scroll{kept}" role="region" tabindex="0" aria-label="{caption}">\n'
        f"<table>\n<caption>{caption}</caption>\n<thead><tr>{headings}</tr></thead>\n"
        f"<tbody>\n{rows}\n</tbody>\n</table>\n</div>\n"
    )


def _row(row: tuple[Cell, ...], tick: str) -> str:
    return f"<tr>{_first(row[0], tick)}{''.join(map(_cell, row[1:]))}</tr>"


def _first(cell: Cell, tick: str) -> str:
    """Return the cell that names its row, with a box if there is something to tick."""
    words = escape(shown(cell))
    if not tick:
        return f'<th scope="row">{words}</th>'
    box = f'<input type="checkbox" autocomplete="off" data-tick="{escape(tick)}">'
    return f'<th scope="row"><label>{box}{words}</label></th>'


def _cell(cell: Cell) -> str:
    if isinstance(cell, str):
        return f"<td>{_safe(cell)}</td>"
    return f'<td class="figure">{shown(cell)}</td>' if is_figure(cell) else "<td></td>"


@lru_cache(maxsize=10_000)
def _safe(words: str) -> str:
    """Return words for a page; most of those of a large plan stand in it many times."""
    return escape(words)
