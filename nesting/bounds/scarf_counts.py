"""How many scarfs the blanks of a choice have: what sheets they take, and what has room across them."""

import math
from collections.abc import Sequence
from typing import Any, NamedTuple

from ortools.sat.python import cp_model

from .crossing import Crossing
from .resources import PARTS, Resources

#: More than any job has.
PLENTY = 100_000

#: Parts of a sheet that are counted: halves, thirds, and halves of these.
TWELFTHS = 12

#: Steps to a millimetre in which chords are rounded down, and scarfs up.
FINE = 100


class ScarfCount(NamedTuple):
    """How many scarfs of one kind there are, and whether there are any."""

    count: Any
    some: Any


def scarf_counts(model: cp_model.CpModel, resources: Resources, sheets: Sequence[Any]) -> list[ScarfCount]:
    """Add the numbers of scarfs: of a blank's members all but the last are of whole length, and that one if ripped.

    So one with n scarfs takes n + 1 strips, or n and a half sheets at least; twelfths of a sheet are counted. If none
    shorter than n + 1 whole sheets carries a panel, half a sheet at the end will do from n + 1 scarfs on.
    """
    counts: list[ScarfCount] = []
    by_members: dict[tuple[int, ...], list[Any]] = {}
    for kind, scarf in enumerate(resources.scarfs):
        count = model.new_int_var(0, PLENTY, f"scarf {kind}")
        some = model.new_bool_var(f"any {kind}")
        more = model.new_bool_var(f"more {kind}")
        model.add(count <= PLENTY * some)
        model.add(count >= scarf.least * some + more)
        model.add(more <= some)
        half = TWELFTHS // scarf.strips // 2
        last = half * (2 * some if scarf.strips > 1 else 2 * some - more if scarf.whole else some)
        by_members.setdefault(scarf.members, []).append(2 * half * count + last)
        counts.append(ScarfCount(count, some))
    for members, taken in by_members.items():
        model.add(sum(taken) <= TWELFTHS * sum(sheets[k] for k in members))
    return counts


def give_room(
    model: cp_model.CpModel,
    resources: Resources,
    counts: Sequence[ScarfCount],
    across: Sequence[tuple[Crossing, Any]],
) -> None:
    """Let panels that cross several scarfs of a blank, so many copies of each, have room on the scarfs and between.

    A panel that crosses c scarfs one after the other crosses the c-th of its blank, or the 2 c-th, or another such
    one, and runs over as many less one of the sheets between two scarfs. Blanks of n scarfs in all have no more than
    n / c such scarfs, and n - 1 sheets between two at the most.
    """
    for kind, (count, some) in enumerate(counts):
        those = [(crossing, copies) for crossing, copies in across if crossing.kind == kind and crossing.least > 1]
        for least in sorted({crossing.least for crossing, _ in those}):
            as_many = [(crossing, copies) for crossing, copies in those if crossing.least >= least]
            scarfs = _every(model, least, count, f"scarfs {kind} {least}")
            sheets = _every(model, least - 1, count - some, f"sheets {kind} {least}")
            room = resources.scarfs[kind].chords
            _go_abreast(model, room, scarfs, [(crossing.at_scarf, copies) for crossing, copies in as_many])
            _go_abreast(model, room, sheets, [(crossing.between, copies) for crossing, copies in as_many])


def _every(model: cp_model.CpModel, step: int, count: Any, name: str) -> Any:
    """Return how many are left of a count if but one of so many is taken."""
    some = model.new_int_var(0, PLENTY, f"every of {name}")
    model.add(step * some <= count)
    return some


def _go_abreast(model: cp_model.CpModel, room: float, times: Any, chords: Sequence[tuple[float, Any]]) -> None:
    """Let chords, so many copies of each, go abreast across so many places, by width and by parts that they exceed."""
    taken = sum(math.floor(chord * FINE) * copies for chord, copies in chords)
    model.add(taken <= math.ceil(room * FINE) * times)
    for parts in PARTS:
        exceeded = [(max(0, math.ceil(chord * parts / room - 1e-9) - 1), copies) for chord, copies in chords]
        model.add(sum(many * copies for many, copies in exceeded) <= (parts - 1) * times)
