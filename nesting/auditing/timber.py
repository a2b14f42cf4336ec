"""Whether the pieces on each length lie within it and a kerf apart; and what is kept of it."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from nesting.model import TOLERANCE, LengthOffcut, UsedLength

from .findings import Code, Finding
from .register import Register


@dataclass(frozen=True)
class Span:
    """A stretch of a length of timber that a piece or a kept offcut takes."""

    start: float
    end: float
    where: str
    is_piece: bool


def timber(register: Register) -> Iterator[Finding]:
    """Yield pieces and kept offcuts of timber that lie where they must not."""
    for used in register.used_lengths.values():
        stock = register.lengths.get(used.stock)
        whole = stock.length if stock else used.length
        spans = sorted(_spans(used, register), key=lambda span: (span.start, span.end))
        yield from _inside(spans, whole)
        yield from _off_faults(spans, stock.faults if stock else used.faults)
        yield from _gaps(spans, register.job.workshop.kerf.crosscut)
    yield from _too_short(register)


def _spans(used: UsedLength, register: Register) -> Iterator[Span]:
    for piece in register.strip_pieces:
        if piece.on == used.id:
            yield Span(piece.start, piece.end, f'piece "{piece.id}"', True)
    for plank in register.plan.long_planks:
        for part in plank.members:
            if part.used == used.id:
                yield Span(part.start, part.end, f'part of long plank "{plank.id}"', True)
    for offcut in register.plan.offcuts:
        if isinstance(offcut, LengthOffcut) and offcut.on == used.id and offcut.kept:
            yield Span(offcut.start, offcut.end, f'offcut of length "{used.id}"', False)


def _inside(spans: list[Span], whole: float) -> Iterator[Finding]:
    for span in spans:
        if not -TOLERANCE <= span.start < span.end <= whole + TOLERANCE:
            code: Code = "outside-length" if span.is_piece else "offcut-misplaced"
            yield Finding(code, span.where, f"it runs from {span.start:g} to {span.end:g} of {whole:g}")


def _off_faults(spans: list[Span], faults: Sequence[tuple[float, float]]) -> Iterator[Finding]:
    for span in spans:
        for start, end in faults:
            if span.start < end - TOLERANCE and span.end > start + TOLERANCE:
                code: Code = "on-fault" if span.is_piece else "offcut-misplaced"
                reason = f"it runs from {span.start:g} to {span.end:g}, over the fault from {start:g} to {end:g}"
                yield Finding(code, span.where, reason)


def _gaps(spans: list[Span], kerf: float) -> Iterator[Finding]:
    """Compare each span with the one before it that reaches furthest."""
    if not spans:
        return
    furthest = spans[0]
    for span in spans[1:]:
        gap = span.start - furthest.end
        if gap < kerf - TOLERANCE:
            reason = f"it starts {gap:g} after the end of {furthest.where}, the kerf is {kerf:g}"
            yield Finding(_code(furthest, span, gap), span.where, reason)
        furthest = max(furthest, span, key=lambda each: each.end)


def _code(one: Span, other: Span, gap: float) -> Code:
    if not (one.is_piece and other.is_piece):
        return "offcut-overlap"
    return "pieces-overlap" if gap < -TOLERANCE else "kerf-too-small"


def _too_short(register: Register) -> Iterator[Finding]:
    least = register.job.workshop.keep_length_from
    for offcut in register.plan.offcuts:
        if isinstance(offcut, LengthOffcut) and offcut.kept and offcut.end - offcut.start < least - TOLERANCE:
            reason = f"{offcut.end - offcut.start:g} is less than is worth keeping"
            yield Finding("offcut-too-small", f'offcut of length "{offcut.on}"', reason)
