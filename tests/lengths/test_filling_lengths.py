"""The knapsacks that fill one length, against trying every filling; as compiled, and as plain Python."""

from itertools import product

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from nesting.compiling import interpreted
from nesting.lengths.filling import exact_fill_values, fill_listed, fill_table, filling

#: Value, size and copies of each kind: with copies to spare for the room, and with fewer.
kinds = st.lists(st.tuples(st.integers(0, 9), st.integers(1, 6), st.integers(0, 14)), min_size=1, max_size=4)
either = pytest.mark.parametrize("how", [lambda kernel: kernel, interpreted])


def arrays(given_kinds):
    """Return values, sizes and copies."""
    return [np.array(column, dtype=np.int64) for column in zip(*given_kinds, strict=True)]


def fillings(sizes, copies, room):
    """Return every choice of copies that fits."""
    most = [range(min(int(n), room // int(size)) + 1) for n, size in zip(copies, sizes, strict=True)]
    return [counts for counts in product(*most) if np.dot(counts, sizes) <= room]


@either
@given(given_kinds=kinds, room=st.integers(0, 14))
def test_a_table_holds_the_best_filling_of_every_room(how, given_kinds, room):
    """And what it says is taken fits, and is worth that."""
    values, sizes, copies = arrays(given_kinds)
    best, taken = how(fill_table)(values, sizes, copies, room)
    for y in range(room + 1):
        assert best[y] == max(np.dot(counts, values) for counts in fillings(sizes, copies, y))
        counts = np.array(filling(taken, sizes, y))
        assert (counts <= copies).all()
        assert counts @ sizes <= y
        assert counts @ values == best[y]


@either
@given(given_kinds=kinds, room=st.integers(0, 14))
def test_a_search_by_lists_finds_the_same(how, given_kinds, room):
    """With kinds in the order of falling value for their size."""
    values, sizes, copies = arrays(given_kinds)
    order = np.argsort(-(values / sizes), kind="stable")
    value, counts, finished = how(fill_listed)(values[order], sizes[order], copies[order], room, 10_000)
    assert finished
    assert value == counts @ values[order] == max(np.dot(c, values) for c in fillings(sizes, copies, room))


@either
@given(given_kinds=kinds, room=st.integers(0, 14), backwards=st.booleans())
def test_values_kind_by_kind_are_exact_forwards_and_within_the_room_backwards(how, given_kinds, room, backwards):
    """Forwards of the kinds before each, and far below nought where they can't fill a room."""
    values, sizes, copies = arrays(given_kinds)
    tables = how(exact_fill_values)(values, sizes, copies, room, backwards)
    for kind, y in product(range(len(values) + 1), range(room + 1)):
        own = np.arange(len(values)) >= kind if backwards else np.arange(len(values)) < kind
        found = [c for c in fillings(sizes, np.where(own, copies, 0), y) if backwards or np.dot(c, sizes) == y]
        best = max((np.dot(c, values) for c in found), default=None)
        assert tables[kind, y] == best if best is not None else tables[kind, y] < -(2**59)
