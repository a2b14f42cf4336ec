"""Reads offsets: a CSV table of ``edge, station, offset, corner``."""

import csv
import io
from pathlib import Path

from nesting.model import LONGEST, JobError, Outline, Problem, millimetres
from nesting.outlines import Nail, OutlineError, outline_from_offsets

from .inside import text_of

COLUMNS = ("edge", "station", "offset")
CORNER = {"": False, "no": False, "0": False, "yes": True, "1": True}


def read_offsets(file: Path) -> Outline:
    """Return the outline between the two edges that a file of offsets describes.

    ``edge`` is upper or lower, each with its own stations; ``corner`` marks a knuckle. Semicolons with decimal
    commas are read too.

    Raises
    ------
    JobError
        Naming the file, the line and what is wrong there.
    """
    rows = _rows(file)
    edges: dict[str, list[Nail]] = {"upper": [], "lower": []}
    for line, row in rows:
        edge, nail = _nail(row, file, line)
        _require_rising(edge, [*edges[edge][-1:], nail], file, line)
        edges[edge].append(nail)
    try:
        return outline_from_offsets(edges["upper"], edges["lower"])
    except OutlineError as error:
        raise JobError(
            Problem(code=error.code, where="offsets", file=file, reason=error.reason, remedy=error.remedy)
        ) from None


def _require_rising(edge: str, nails: list[Nail], file: Path, line: int) -> None:
    if nails[0] is not nails[-1] and nails[-1].station <= nails[0].station:
        reason = f"the {edge} edge's station {nails[-1].station:g} follows {nails[0].station:g}"
        raise _wrong(file, line, reason, "List each edge's stations in rising order, each once.", "stations-order")


def _rows(file: Path) -> list[tuple[int, dict[str, str]]]:
    text = text_of(file)
    header = text.partition("\n")[0]
    separator = ";" if ";" in header else ","
    reader = csv.DictReader(io.StringIO(text), delimiter=separator, strict=True, restkey="rest", restval="")
    try:
        names = [name.strip().lower() for name in reader.fieldnames or ()]
        reader.fieldnames = names
        if missing := [column for column in COLUMNS if column not in names]:
            raise _wrong(file, 1, f"the column {missing[0]} is missing", "Begin with: edge,station,offset,corner")
        return [(reader.line_num, row) for row in reader if _holds_something(row)]
    except csv.Error as error:
        raise _wrong(file, reader.line_num, f"it is not a CSV table ({error})", "Save it as plain CSV.") from None


def _holds_something(row: dict[str, str]) -> bool:
    return "rest" in row or any(text.strip() for text in row.values())


def _nail(row: dict[str, str], file: Path, line: int) -> tuple[str, Nail]:
    if "rest" in row:
        raise _wrong(file, line, "the row has more fields than the header", "Use decimal points with commas.")
    edge = row["edge"].strip().lower()
    if edge not in ("upper", "lower"):
        raise _wrong(file, line, f'edge "{edge}" is neither upper nor lower', "Write upper or lower.")
    corner = row.get("corner", "").strip().lower()
    if corner not in CORNER:
        raise _wrong(file, line, f'corner "{corner}" is not understood', "Write yes, or leave it empty.")
    return edge, Nail(_figure(row, "station", file, line), _figure(row, "offset", file, line), CORNER[corner])


def _figure(row: dict[str, str], column: str, file: Path, line: int) -> float:
    text = row[column].strip()
    try:
        value = millimetres(text.replace(",", "."))
    except ValueError:
        value = float("nan")
    if not abs(value) <= LONGEST:
        raise _wrong(file, line, f'{column} "{text}" is not a length', "Write a figure in the job's units.")
    return value


def _wrong(file: Path, line: int, reason: str, remedy: str, code: str = "offsets") -> JobError:
    return JobError(Problem(code=code, where="offsets", file=file, line=line, reason=reason, remedy=remedy))
