"""Long planks in the words of the plan: their planks and scarfs, their sticks, and what is cut from these."""

from collections import Counter
from collections.abc import Iterator, Sequence
from decimal import Decimal

from nesting.model import (
    Job,
    Joint,
    LengthOffcut,
    LongPlank,
    LongStick,
    PlankPart,
    PlankScarf,
    Share,
    Strip,
    StripPiece,
    UsedLength,
)

from .bars import in_order, offcuts_of, spans, used_of
from .long_planks import Scarfed
from .long_sticks import LongPlankCut, LongStickCut, StripCut
from .measure import Measure


def with_long_planks(job: Job, share: Share, chosen: Sequence[Scarfed], measure: Measure) -> Share:
    """Return the share with strips from long planks added; their planks are numbered on."""
    copies = Counter(piece.part for piece in share.pieces if isinstance(piece, StripPiece) and piece.index == 1)
    for scarfed in chosen:
        share = _Writing(job, scarfed, measure, share, copies).share()
    return share


class _Writing:
    """Writes the strips from long planks of one kind."""

    def __init__(self, job: Job, scarfed: Scarfed, measure: Measure, share: Share, copies: Counter[str]) -> None:
        self._job, self._scarfed, self._measure, self._before, self._copies = job, scarfed, measure, share, copies
        self._first = sum(isinstance(used, UsedLength) and used.is_first for used in share.used)
        self._layout = in_order(scarfed.layout)

    def share(self) -> Share:
        """Return what was there before with all this added."""
        before, job, stocks = self._before, self._job, self._scarfed.wide.stocks
        planks = self._scarfed.planks
        bars = enumerate(self._layout.bars, start=self._first + 1)
        used = tuple(each for bar, index in bars for each in used_of(job, f"L{bar}", stocks[index]))
        rests = tuple(offcuts_of(job, self._layout, stocks, self._measure, self._first))
        made = list(self._planks(planks))
        pieces, joints = self._strips(planks)
        return before.model_copy(
            update={
                "used": before.used + used,
                "long_planks": before.long_planks + tuple(made),
                "pieces": before.pieces + pieces,
                "joints": before.joints + joints,
                "offcuts": before.offcuts + rests + tuple(self._offcuts(planks)),
            }
        )

    def _name(self, number: int) -> str:
        return f"LP{len(self._before.long_planks) + number}"

    def _planks(self, planks: Sequence[LongPlankCut]) -> Iterator[LongPlank]:
        places = {
            (cut.member, cut.copy, cut.index): (bar, start, end)
            for bar in range(len(self._layout.bars))
            for cut, start, end in spans(self._layout, bar, self._scarfed.wide.stocks)
        }
        section = self._strip(planks[0].sticks[0].strips[0]).section
        for number, plank in enumerate(planks, start=1):
            parts = (places[plank.member, plank.copy, index] for index in range(len(plank.scarfs) + 1))
            yield LongPlank(
                id=self._name(number),
                joint=self._scarfed.use.joint,
                members=tuple(self._part(*part) for part in parts),
                scarfs=tuple(self._scarf(number, k, at) for k, at in enumerate(plank.scarfs, start=1)),
                length=self._measure.millimetres(plank.length),
                section=section,
                sticks=tuple(
                    LongStick(id=f"{self._name(number)}-{k}", turned=stick.turned)
                    for k, stick in enumerate(plank.sticks, start=1)
                ),
            )

    def _part(self, bar: int, start: int, end: int) -> PlankPart:
        millimetres = self._measure.millimetres
        return PlankPart(used=f"L{self._first + bar + 1}", start=millimetres(start), end=millimetres(end))

    def _scarf(self, number: int, place: int, at: int) -> PlankScarf:
        use = self._scarfed.use
        rule, (width, thickness) = self._job.joints[use.joint], self._job.lengths[use.planks.index].section
        return PlankScarf(
            id=f"{self._name(number)}/F{place}",
            at=self._measure.millimetres(at),
            lap=rule.lap(thickness),
            slope=rule.slope,
            thickness=thickness,
            width=width,
            cost=rule.cost.of(width),
        )

    def _strips(self, planks: Sequence[LongPlankCut]) -> tuple[tuple[StripPiece, ...], tuple[Joint, ...]]:
        """Return pieces and joints; matched copies, which lie the same way in one plank, follow one another."""
        pieces: list[StripPiece] = []
        joints: list[Joint] = []
        for number, plank in enumerate(planks, start=1):
            for k, stick in sorted(enumerate(plank.sticks, start=1), key=lambda each: (each[1].turned, each[0])):
                for cut in stick.strips:
                    piece = self._piece(f"{self._name(number)}-{k}", cut)
                    pieces.append(piece)
                    joints += self._joints(number, plank, stick, cut, piece)
        return tuple(pieces), tuple(joints)

    def _strip(self, cut: StripCut) -> Strip:
        return self._job.strips[self._scarfed.strips[cut.place].index]

    def _piece(self, on: str, cut: StripCut) -> StripPiece:
        name = self._strip(cut).name
        self._copies[name] += 1
        return StripPiece(
            id=f"{name}-{self._copies[name]}-1",
            part=name,
            copy_number=self._copies[name],
            index=1,
            of=1,
            on=on,
            start=self._measure.millimetres(cut.start),
            end=self._measure.millimetres(cut.end),
        )

    def _joints(
        self, number: int, plank: LongPlankCut, stick: LongStickCut, cut: StripCut, piece: StripPiece
    ) -> Iterator[Joint]:
        strip, rule = self._strip(cut), self._job.joints[self._scarfed.use.joint]
        across = sorted((stick.station(cut, at), k) for k, at in plank.within(cut))
        for place, (station, k) in enumerate(across, start=1):
            yield Joint(
                id=f"{piece.part}-{piece.copy_number}/J{place}",
                part=piece.part,
                copy_number=piece.copy_number,
                station=self._measure.millimetres(station),
                lap=rule.lap(strip.bevelled),
                slope=rule.slope,
                thickness=strip.bevelled,
                width=strip.joint_width,
                pieces=(piece.id,),
                scarf=f"{self._name(number)}/F{k}",
                cost=Decimal(0),
            )

    def _offcuts(self, planks: Sequence[LongPlankCut]) -> Iterator[LengthOffcut]:
        for number, plank in enumerate(planks, start=1):
            for k, stick in enumerate(plank.sticks, start=1):
                for start, end, value in self._scarfed.rests(plank, stick):
                    millimetres = self._measure.millimetres
                    yield LengthOffcut(
                        on=f"{self._name(number)}-{k}",
                        start=millimetres(start),
                        end=millimetres(end),
                        kept=millimetres(end - start) >= self._job.workshop.keep_length_from,
                        value=Decimal(value).scaleb(-2),
                    )
