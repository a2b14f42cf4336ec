"""Whether a plan of cut and spliced timber is one, by the rules that the study states."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise, product

from benchmarks.data import SpliceInstance

Copy = tuple[int, int]


@dataclass(frozen=True)
class CutPiece:
    """The ``order``-th piece, counted from 0 at the end from which stations run, of a copy (strip, copy) of a
    strip; it is cut from ``start`` to ``end`` of its length.
    """

    strip: int
    copy: int
    order: int
    start: float
    end: float

    @property
    def long(self) -> float:
        """Length of the piece."""
        return self.end - self.start


@dataclass(frozen=True)
class SplicedLength:
    """One length of stock, by the index of its kind, and what is cut from it."""

    stock: int
    pieces: tuple[CutPiece, ...]


#: Millimetres; the study is in whole ones.
TOLERANCE = 1e-6


def splicing_faults(instance: SpliceInstance, plan: Sequence[SplicedLength]) -> list[str]:
    """Return what is wrong with a plan: stock, kerf, faults, lengths, least pieces, joints, zones, shift.

    A strip that is whole may be shorter than ``least_piece``: the rule is for what is joined (strips of the study
    are shorter than it).
    """
    return [*_stock(instance, plan), *_cuts(instance, plan), *_strips(instance, plan), *_shift(instance, plan)]


def splicing_cost(instance: SpliceInstance, plan: Sequence[SplicedLength]) -> int:
    """Return what the lengths and joints cost, in cents."""
    prices = sum(instance.stock[length.stock].price for length in plan)
    joints = sum(len(pieces) - 1 for pieces in _by_copy(plan).values())
    return prices + instance.joint_cost * joints


def _stock(instance: SpliceInstance, plan: Sequence[SplicedLength]) -> Iterator[str]:
    for kind, used in Counter(length.stock for length in plan).items():
        available = instance.stock[kind].available
        if available is not None and used > available:
            yield f"{used} of stock {kind} are used, {available} are there"


def _cuts(instance: SpliceInstance, plan: Sequence[SplicedLength]) -> Iterator[str]:
    """Every piece but the last costs one kerf, and none lies on a fault."""
    for number, length in enumerate(plan):
        stock = instance.stock[length.stock]
        pieces = sorted(length.pieces, key=lambda piece: piece.start)
        for piece in pieces:
            if piece.start < -TOLERANCE or piece.end > stock.length + TOLERANCE or piece.long <= 0:
                yield f"length {number}: a piece from {piece.start:g} to {piece.end:g} is not within it"
            if any(piece.start < end - TOLERANCE and piece.end > start + TOLERANCE for start, end in stock.faults):
                yield f"length {number}: a piece from {piece.start:g} to {piece.end:g} lies on a fault"
        for one, other in pairwise(pieces):
            if other.start - one.end < instance.kerf - TOLERANCE:
                yield f"length {number}: pieces are not a kerf apart at {one.end:g}"


def _strips(instance: SpliceInstance, plan: Sequence[SplicedLength]) -> Iterator[str]:
    made = _by_copy(plan)
    wanted = {(index, copy) for index, strip in enumerate(instance.strips) for copy in range(strip.quantity)}
    yield from (f"copy {copy} of strip {strip} is not asked for" for strip, copy in sorted(made.keys() - wanted))
    yield from (f"copy {copy} of strip {strip} is missing" for strip, copy in sorted(wanted - made.keys()))
    for copy in sorted(made.keys() & wanted):
        for fault in _strip(instance, copy, made[copy]):
            yield f"strip {copy[0]}, copy {copy[1]}: {fault}"


def _strip(instance: SpliceInstance, copy: Copy, pieces: Sequence[CutPiece]) -> Iterator[str]:
    strip, joints = instance.strips[copy[0]], len(pieces) - 1
    made = sum(piece.long for piece in pieces) - joints * instance.lap
    if [piece.order for piece in pieces] != list(range(len(pieces))):
        yield "its pieces are not counted one by one"
    if abs(made - strip.length) > TOLERANCE:
        yield f"comes out {made:g} long, not {strip.length}"
    if joints > strip.most_joints:
        yield f"has {joints} joints, not at most {strip.most_joints}"
    if joints and min(piece.long for piece in pieces) < instance.least_piece - TOLERANCE:
        yield f"a piece is shorter than {instance.least_piece}"
    for start in _laps(instance, pieces):
        if any(start < to - TOLERANCE and start + instance.lap > begin + TOLERANCE for begin, to in strip.no_joint):
            yield f"the lap that starts at {start:g} reaches into a no-joint stretch"


def _shift(instance: SpliceInstance, plan: Sequence[SplicedLength]) -> Iterator[str]:
    made = _by_copy(plan)
    for rule in instance.shift:
        laps = (_laps(instance, made.get(copy, ())) for copy in (rule.a, rule.b))
        for one, other in product(*laps):
            if abs(one - other) < rule.distance - TOLERANCE:
                yield f"laps of {rule.a} and {rule.b} start {abs(one - other):g} apart, not {rule.distance}"


def _laps(instance: SpliceInstance, pieces: Sequence[CutPiece]) -> list[float]:
    """Return where each lap of a copy starts, from the end from which stations run."""
    starts, reached = [], 0.0
    for piece in pieces[:-1]:
        reached += piece.long - instance.lap
        starts.append(reached)
    return starts


def _by_copy(plan: Sequence[SplicedLength]) -> dict[Copy, list[CutPiece]]:
    found: dict[Copy, list[CutPiece]] = {}
    for length in plan:
        for piece in length.pieces:
            found.setdefault((piece.strip, piece.copy), []).append(piece)
    return {copy: sorted(pieces, key=lambda piece: piece.order) for copy, pieces in found.items()}
