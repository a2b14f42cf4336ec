"""In which line of a TOML text a key or an item stands."""

import json
import tomllib
from dataclasses import dataclass, field
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from nesting.files.places import line_of

TEXT = """\
title = "Skiff"            # line 1

[workshop]
kerf = { sheet = 2.0, crosscut = 3.0 }
keep_from = [
  400,   # along

  # a comment is no item
  200,
]

[joints."butt strap"]
slope = 8
cost.each = 2.00
"per m".'as text' = 1

[[sheets]]
name = "a"
faults = [
  { points = [[0, 0], [1, 0],
     [1, 1]] },
]

[[sheets]]
name = "b"
[sheets.extra.deep]
key = 1

[[panels]]
name = "p"
[[panels.marks]]
text = "one"
[[panels.marks]]
text = "two"
[[panels]]
name = "q"
[[panels.marks]]
text = "three"
"""


@pytest.mark.parametrize(
    ("path", "line"),
    [
        (("title",), 1),
        (("workshop",), 3),
        (("workshop", "kerf", "crosscut"), 4),
        (("workshop", "keep_from"), 5),
        (("workshop", "keep_from", 0), 6),
        (("workshop", "keep_from", 1), 9),
        (("joints", "butt strap"), 12),
        (("joints", "butt strap", "slope"), 13),
        (("joints", "butt strap", "cost", "each"), 14),
        (("joints", "butt strap", "per m", "as text"), 15),
        (("sheets", 0), 17),
        (("sheets", 0, "name"), 18),
        (("sheets", 0, "faults", 0, "points", 1, 0), 20),
        (("sheets", 0, "faults", 0, "points", 2), 21),
        (("sheets", 1, "name"), 25),
        (("sheets", 1, "extra", "deep", "key"), 27),
        (("panels", 0, "marks", 0, "text"), 32),
        (("panels", 0, "marks", 1, "text"), 34),
        (("panels", 1, "name"), 36),
        (("panels", 1, "marks", 0, "text"), 38),
    ],
)
def test_every_kind_of_key_is_found_in_its_line(path: tuple[str | int, ...], line: int) -> None:
    """Tables, arrays of tables within one another, inline tables, dotted and quoted keys, arrays over lines."""
    assert line_of(TEXT, path) == line


@pytest.mark.parametrize(
    ("path", "line"),
    [
        (("workshop", "trim"), 3),
        (("sheets", 1, "thickness"), 24),
        (("sheets", 1, "extra", "nothing"), 26),
        (("joints", "butt strap", "cost", "per_m"), 14),
        (("joints", "scarf"), 12),
        (("panels", 7), 29),
        (("strips",), None),
        ((), None),
    ],
)
def test_what_is_missing_is_told_at_its_nearest_parent(path: tuple[str | int, ...], line: int | None) -> None:
    """A missing key leads to its table; a table that is only implied begins with its first key."""
    assert line_of(TEXT, path) == line


def test_line_ends_of_windows_count_once() -> None:
    """A carriage return before the line feed changes no number."""
    assert line_of(TEXT.replace("\n", "\r\n"), ("panels", 1, "marks", 0, "text")) == 38


@dataclass
class Draft:
    """A TOML text in the making, with the line of everything that was put into it."""

    lines: list[str] = field(default_factory=list)
    places: dict[tuple[str | int, ...], int] = field(default_factory=dict)

    def begin(self, text: str = "") -> None:
        """Begin a new line."""
        self.lines.append(text)

    def add(self, text: str) -> None:
        """Go on in the line."""
        self.lines[-1] += text

    def mark(self, path: tuple[str | int, ...]) -> None:
        """Note that what comes next stands at ``path``."""
        self.places[path] = len(self.lines)


WORDS = st.text(alphabet="ab é.\"'#=[]\\", max_size=4)
SCALARS = st.integers(-9, 9) | st.booleans() | WORDS
VALUES = st.recursive(
    SCALARS, lambda inner: st.lists(inner, max_size=3) | st.dictionaries(WORDS, inner, max_size=3), max_leaves=6
)
INLINE = st.dictionaries(WORDS, VALUES, max_size=3)
TABLES = st.recursive(
    INLINE,
    lambda inner: st.tuples(
        INLINE, st.dictionaries(WORDS, inner | st.lists(inner, min_size=1, max_size=3), max_size=2)
    ),
    max_leaves=8,
)


@st.composite
def drafts(draw: st.DrawFn) -> Draft:
    """Return a TOML text of nested tables and arrays, with blank lines and comments wherever they may stand."""
    draft = Draft()
    _write_table(draw, draft, draw(TABLES), (), ())
    return draft


def _write_table(
    draw: st.DrawFn, draft: Draft, table: Any, path: tuple[str | int, ...], header: tuple[str, ...]
) -> None:
    """Write the pairs of a table, then the tables within it, each under a header of its own."""
    pairs, inner = table if isinstance(table, tuple) else (table, {})
    for key, value in pairs.items():
        _write_gap(draw, draft)
        draft.begin()
        _write_pair(draw, draft, key, value, path)
    for key, tables in inner.items():
        if key in pairs:
            continue
        name = (*header, key)
        dotted = ".".join(json.dumps(part) for part in name)
        for index, item in enumerate(tables if isinstance(tables, list) else [tables]):
            _write_gap(draw, draft)
            draft.begin(f"[[{dotted}]]" if isinstance(tables, list) else f"[ {dotted} ] # a table")
            place = (*path, key, index) if isinstance(tables, list) else (*path, key)
            draft.mark(place)
            _write_table(draw, draft, item, place, name)


def _write_gap(draw: st.DrawFn, draft: Draft) -> None:
    for _ in range(draw(st.integers(0, 2))):
        draft.begin(draw(st.sampled_from(["", "  ", '# x = 1, "', "\t# [x]"])))


def _write_pair(draw: st.DrawFn, draft: Draft, key: str, value: Any, path: tuple[str | int, ...]) -> None:
    draft.mark((*path, key))
    draft.add(f"{json.dumps(key)} = ")
    _write_value(draw, draft, value, (*path, key))


def _write_value(draw: st.DrawFn, draft: Draft, value: Any, path: tuple[str | int, ...]) -> None:
    """Write a value: arrays may break between their items, inline tables may not."""
    if isinstance(value, dict):
        draft.add("{ ")
        for index, (key, item) in enumerate(value.items()):
            draft.add(", " if index else "")
            _write_pair(draw, draft, key, item, path)
        draft.add(" }")
    elif isinstance(value, list):
        draft.add("[")
        for index, item in enumerate(value):
            if draw(st.booleans()):
                draft.add(" # and so on")
                draft.begin("  ")
            draft.mark((*path, index))
            _write_value(draw, draft, item, (*path, index))
            draft.add(",")
        draft.add("]")
    else:
        draft.add(json.dumps(value))


@given(drafts())
def test_whatever_is_written_into_a_text_is_found_in_its_line(draft: Draft) -> None:
    """The oracle notes the line of each key and item while it writes the text; the reader must find them all."""
    text = "\n".join(draft.lines)
    tomllib.loads(text)
    assert {path: line_of(text, path) for path in draft.places} == draft.places
