"""Where in a TOML text each key and item stands."""

import tomllib
from collections.abc import Iterator, Mapping, Sequence
from functools import lru_cache
from typing import Any

import tree_sitter_toml
from tree_sitter import Language, Node, Parser

Path = tuple[str | int, ...]


def line_of(text: str, path: Sequence[str | int]) -> int | None:
    """Return the line, counted from 1, of the item at ``path``, or of its nearest parent that has one."""
    lines = _index(text)
    for length in range(len(path), 0, -1):
        if (line := lines.get(tuple(path[:length]))) is not None:
            return line
    return None


@lru_cache(maxsize=1)  # a job with a thousand problems is parsed once, not a thousand times
def _index(text: str) -> Mapping[Path, int]:
    """Return the line of every table, key and item; a table that is only implied begins with its first key."""
    stated = dict(_lines(text))
    implied: dict[Path, int] = {}
    for path, line in stated.items():
        for length in range(1, len(path)):
            implied.setdefault(path[:length], line)
    return implied | stated


def _lines(text: str) -> Iterator[tuple[Path, int]]:
    """Yield the path and line of every table, key and array item."""
    tree = Parser(Language(tree_sitter_toml.language())).parse(text.encode())
    counts: dict[Path, int] = {}
    for node in tree.root_node.named_children:
        if node.type == "pair":
            yield from _pair(node, ())
        elif node.type in ("table", "table_array_element"):
            yield from _table(node, counts)


def _table(node: Node, counts: dict[Path, int]) -> Iterator[tuple[Path, int]]:
    header, *pairs = [child for child in node.named_children if child.type != "comment"]
    *parents, last = _keys(header)
    path: Path = ()
    for key in parents:
        path = (*path, key)
        if path in counts:
            path = (*path, counts[path])
    path = (*path, last)
    if node.type == "table_array_element":
        counts[path] = counts.get(path, -1) + 1
        path = (*path, counts[path])
    yield path, node.start_point[0] + 1
    for pair in pairs:
        yield from _pair(pair, path)


def _pair(node: Node, parent: Path) -> Iterator[tuple[Path, int]]:
    if node.type != "pair" or len(node.named_children) < 2:
        return
    key, value = node.named_children[:2]
    path = (*parent, *_keys(key))
    yield path, node.start_point[0] + 1
    yield from _value(value, path)


def _value(node: Node, path: Path) -> Iterator[tuple[Path, int]]:
    if node.type == "inline_table":
        for pair in node.named_children:
            yield from _pair(pair, path)
    elif node.type == "array":
        items = [child for child in node.named_children if child.type != "comment"]
        for index, item in enumerate(items):
            yield (*path, index), item.start_point[0] + 1
            yield from _value(item, (*path, index))


def _keys(node: Node) -> list[str]:
    """Return the parts of a bare, quoted or dotted key."""
    if node.type == "dotted_key":
        return [key for child in node.named_children for key in _keys(child)]
    text: Any = node.text
    word = text.decode()
    return list(tomllib.loads(f"{word} = 0")) if node.type == "quoted_key" else [word]
