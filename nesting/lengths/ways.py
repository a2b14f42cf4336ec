"""The ways in which one copy of a strip can be cut from what lies on the bench."""

from collections.abc import Iterator

from .bench import Bench, Source
from .cutting import Member

#: Where each piece of a copy comes from, and how long it is.
Way = tuple[tuple[Source, int], ...]

#: Joints tried beyond the fewest: with one more, a copy can often be made up from what is left of begun bars.
MORE_JOINTS = 1


def ways(bench: Bench, member: Member) -> Iterator[Way]:
    """Yield ways with few joints, each piece but the last as long as its source and the rules let it be."""
    if member.least_joints == 0:
        yield from _in_one(bench, member)
    fewest = max(1, member.least_joints or 0)
    for joints in range(fewest, min(fewest + MORE_JOINTS, member.most_joints) + 1):
        if windows := member.windows(joints):
            yield from _joined(bench, member, windows, (), 0)


def _in_one(bench: Bench, member: Member) -> Iterator[Way]:
    for source in (*bench.roomiest_of_each(member), *bench.fresh(member, ())):
        if bench.cutting.longest_in(source.room) >= member.length:
            yield ((source, member.length),)


def _joined(
    bench: Bench, member: Member, windows: tuple[tuple[tuple[int, int], ...], ...], done: Way, start: int
) -> Iterator[Way]:
    """Yield the ways that go on from ``done``, whose next piece starts at ``start``."""
    taken = tuple(source for source, _ in done)
    fresh = bench.fresh(member, taken)
    if len(done) == len(windows):
        rest = member.length - start
        fitting = [source for source in fresh if bench.cutting.longest_in(source.room) >= rest]
        if bench.cutting.handles(rest):
            fitting = bench.best_fit(member, taken, rest + bench.cutting.kerf) + fitting
        yield from ((*done, (source, rest)) for source in fitting)
        return
    after = start + (member.half_lap if done else 0) + max(member.least_end, member.least_between)
    for source in (*bench.roomiest(member, taken), *fresh):
        before = start + bench.cutting.longest_in(source.room) - member.half_lap
        station = _furthest(windows[len(done)], after, before)
        if station is not None:
            piece = (source, station + member.half_lap - start)
            yield from _joined(bench, member, windows, (*done, piece), station - member.half_lap)


def _furthest(window: tuple[tuple[int, int], ...], after: int, before: int) -> int | None:
    """Return the last station of a window within two stations, ends included."""
    return max((min(b, before) for a, b in window if max(a, after) <= min(b, before)), default=None)
