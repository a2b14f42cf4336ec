"""Small timber jobs counted in hundreds of millimetres, and what must hold for every plan of one."""

from collections import Counter
from decimal import Decimal
from fractions import Fraction
from itertools import combinations, pairwise, product

from nesting.effort import Budget, Effort
from nesting.lengths import plan_lengths
from nesting.model import Bound, Job, Share

SECTION = (50, 25)


def length(units, price=100, **more):
    """A stock length of so many hundred millimetres."""
    return {
        "name": f"spruce {units}",
        "material": "spruce",
        "section": SECTION,
        "length": units * 100,
        "price": price,
        **more,
    }


def strip(units, quantity=1, joint=None, zones=(), **more):
    """A strip of so many hundred millimetres."""
    name = f"strip {units}"
    zones = [[a * 100, b * 100] for a, b in zones]
    ask = {"material": "spruce", "section": SECTION, "length": units * 100, "quantity": quantity}
    return {"name": name, "joint": joint, "no_joint": zones, **ask, **more}


def job(lengths, strips, kerf=0, lap=None, least=1, cost=0, shifts=(), **workshop):
    """A job; ``lap``, ``least`` and ``kerf`` in hundreds of millimetres, with a joint "scarf" if there is a lap.

    ``shifts`` are pairs of strips by name, and the shift in hundreds of millimetres.
    """
    joints = {}
    if lap is not None:
        joints["scarf"] = {"slope": lap * 100 / 25, "least_piece": least * 100, "cost": {"each": cost}}
    return Job(
        workshop={"kerf": {"crosscut": kerf * 100}, **workshop},
        joints=joints,
        lengths=lengths,
        strips=strips,
        neighbours=[{"between": [one, other], "shift": units * 100} for one, other, units in shifts],
        grades=["common", "clear"],
    )


def planned(a_job, effort=None) -> tuple[Decimal, Share, Bound]:
    """Plan a job, hold the plan against all rules, and return its cost, kept offcuts taken off, with it."""
    share, bound = plan_lengths(a_job, effort or Effort(Budget()))
    check(a_job, share)
    price = {stock.name: stock.price for stock in a_job.lengths}
    cost = sum((price[used.stock] for used in share.used), Decimal(0)) + sum(
        (joint.cost for joint in share.joints), Decimal(0)
    )
    cost -= sum((offcut.value for offcut in share.offcuts), Decimal(0))
    assert bound.amount <= cost
    return cost, share, bound


def check(a_job, share):
    """Assert every rule of timber with plain arithmetic, from the plan's figures alone."""
    check_bars(a_job, share)
    ids = [item.id for item in (*share.used, *share.pieces, *share.joints)]
    assert len(set(ids)) == len(ids)
    for a_strip in a_job.strips:
        for copy in range(1, a_strip.quantity + 1):
            check_strip(a_job, a_strip, copy, share)
        hands = [stations_of(a_strip.name, copy, share) for copy in range(1, a_strip.quantity + 1)]
        assert not a_strip.matched or hands[::2] == hands[1::2]
    assert len(share.pieces) == sum(a_strip.quantity for a_strip in a_job.strips) + len(share.joints)
    for pair in a_job.neighbours:
        check_shift(pair, share)


def stations_of(name, copy, share):
    """Return where the joints of one copy lie."""
    return sorted(joint.station for joint in share.joints if (joint.part, joint.copy_number) == (name, copy))


def check_shift(pair, share):
    """Assert that joints in two copies of neighbours are so far apart."""
    one, other = ([joint for joint in share.joints if joint.part == name] for name in pair.between)
    for a, b in product(one, other):
        if (a.part, a.copy_number) != (b.part, b.copy_number):
            assert abs(a.station - b.station) >= pair.shift - 1e-6


def check_bars(a_job, share):
    """Assert that pieces lie within their bars one kerf apart, that offcuts are what is left, and none is overdrawn."""
    stocks = {stock.name: stock for stock in a_job.lengths}
    offcuts = {(offcut.on, offcut.end): offcut for offcut in share.offcuts}
    for used in share.used:
        stock = stocks[used.stock]
        assert (used.length, used.source) == (stock.length, stock.source)
        pieces = sorted((piece for piece in share.pieces if piece.on == used.id), key=lambda piece: piece.start)
        assert pieces
        for start, end in clear_stretches(stock):
            here = [piece for piece in pieces if start <= piece.start <= end]
            check_stretch(a_job, stock, here, start, end, offcuts.pop((used.id, end), None))
            pieces = [piece for piece in pieces if piece not in here]
            for piece in here:
                check_stock(a_job, stock, a_job.strip(piece.part))
        assert not pieces
    assert not offcuts
    for name, count in Counter(used.stock for used in share.used).items():
        assert stocks[name].available is None or count <= stocks[name].available


def check_stretch(a_job, stock, pieces, start, end, offcut):
    """Assert that pieces lie in a clear stretch from its start, one kerf apart, and that the offcut is what is left."""
    kerf = a_job.workshop.kerf.crosscut
    assert not pieces or pieces[0].start == start
    assert all(abs(after.start - before.end - kerf) < 1e-6 for before, after in pairwise(pieces))
    assert not pieces or pieces[-1].end <= end + 1e-9
    rest = end - pieces[-1].end - kerf if pieces else end - start
    assert (offcut is not None) == (rest > 1e-6)
    if offcut is not None:
        assert abs(offcut.end - offcut.start - rest) < 1e-6
        assert offcut.kept == (rest >= a_job.workshop.keep_length_from)
        assert offcut.value == (offcut_value(a_job, stock, rest) if offcut.kept else 0)


def offcut_value(a_job, stock, rest):
    """Return what a kept offcut is worth, in whole cents; for figures that floats hold exactly."""
    if rest < a_job.workshop.keep_length_from:
        return Fraction(0)
    return Fraction(int(Fraction(stock.offcut_value) * Fraction(rest) / 10), 100)


def clear_stretches(stock):
    """Return the stretches between the faults of a length; faults must not overlap."""
    ends = [0, *(end for fault in sorted(stock.faults) for end in fault), stock.length]
    return [(a, b) for a, b in zip(ends[::2], ends[1::2], strict=True) if a < b]


def check_stock(a_job, stock, a_strip):
    """Assert that a length may serve a strip."""
    assert stock.material == a_strip.material
    assert stock.section == a_strip.section
    assert a_job.rank(stock.grade) >= a_job.rank(a_strip.grade)


def check_strip(a_job, a_strip, copy, share):
    """Assert that one copy adds up to its length, and that its joints keep their rules."""
    pieces = [piece for piece in share.pieces if (piece.part, piece.copy_number) == (a_strip.name, copy)]
    pieces.sort(key=lambda piece: piece.index)
    joints = [joint for joint in share.joints if (joint.part, joint.copy_number) == (a_strip.name, copy)]
    assert [(piece.index, piece.of) for piece in pieces] == [(i + 1, len(pieces)) for i in range(len(pieces))]
    assert [joint.pieces for joint in joints] == [(before.id, after.id) for before, after in pairwise(pieces)]
    sizes = [piece.end - piece.start for piece in pieces]
    longest = a_job.workshop.longest_piece
    assert longest is None or max(sizes) <= longest + 1e-6
    assert abs(sum(sizes) - sum(joint.lap for joint in joints) - a_strip.length) < 1e-6
    if joints:
        check_joints(a_job.joints[a_strip.joint], a_strip, joints, sizes)


def check_joints(rule, a_strip, joints, sizes):
    """Assert that each joint stands where the pieces meet, off the zones, and far enough from all else."""
    lap = rule.slope * a_strip.section[0 if a_strip.scarf_across == "width" else 1]
    end = 0.0
    for joint, size in zip(joints, sizes, strict=False):
        end += size
        assert joint.lap == lap
        assert abs(joint.station - (end - lap / 2)) < 1e-6
        end -= lap
        for start, stop in a_strip.no_joint:
            assert joint.station + lap / 2 <= start + 1e-6 or joint.station - lap / 2 >= stop - 1e-6
    places = [0.0, *(joint.station for joint in joints), a_strip.length]
    assert a_strip.most_joints is None or len(joints) <= a_strip.most_joints
    least = max(a_strip.least_piece or rule.least_piece, lap)
    assert all(after - before >= least - 1e-6 for before, after in pairwise(places))


def cheapest(a_job):
    """Return the least cost of stock and joints by trying everything; None if there is no plan.

    All figures must be whole hundreds of millimetres, laps an even number of them.
    """
    named = {name for pair in a_job.neighbours for name in pair.between}
    choices = {((), Fraction(0), ())}
    for a_strip in a_job.strips:
        for _ in range(a_strip.quantity):
            divisions = set(_divisions(a_job, a_strip))
            choices = {
                (tuple(sorted((*p, *q))), c + d, (*s, (a_strip.name, t)) if a_strip.name in named else s)
                for p, c, s in choices
                for q, d, t in divisions
                if all(_apart(a_job, (a_strip.name, t), other) for other in s)
            }
    least = {}
    for pieces, cost, _ in choices:
        least[pieces] = min(cost, least.get(pieces, cost))
    best = None
    for pieces, cost in sorted(least.items(), key=lambda item: item[1]):
        if best is None or cost < best:
            stock = _packed(a_job, pieces[::-1], [], {}, None if best is None else best - cost)
            best = best if stock is None else stock + cost
    return best


def _apart(a_job, one, other):
    """Whether two copies, each with its strip and its stations in hundreds of millimetres, keep their shift."""
    return all(
        abs(a - b) * 100 >= pair.shift
        for pair in a_job.neighbours
        if sorted(pair.between) == sorted((one[0], other[0]))
        for a in one[1]
        for b in other[1]
    )


def _divisions(a_job, a_strip):
    """Yield the pieces (length, rank) into which a strip may be divided, the cost of its joints, and their stations."""
    total, rank = int(a_strip.length // 100), a_job.rank(a_strip.grade)
    longest = (a_job.workshop.longest_piece or 1e9) / 100
    if total <= longest:
        yield ((total, rank),), Fraction(0), ()
    if a_strip.joint is None:
        return
    rule = a_job.joints[a_strip.joint]
    across = a_strip.scarf_across == "width"
    lap = int(rule.slope * a_strip.section[0 if across else 1] // 100)
    spacing, half = max((a_strip.least_piece or rule.least_piece) / 100, lap), lap // 2
    zones = [(a / 100, b / 100) for a, b in a_strip.no_joint]
    free = [s for s in range(total) if all(s + half <= a or s - half >= b for a, b in zones)]
    most = int(total // spacing) if a_strip.most_joints is None else a_strip.most_joints + 1
    for count in range(1, min(most, int(total // spacing))):
        for stations in combinations(free, count):
            places = [0, *stations, total]
            sizes = [b - a + (half if a else 0) + (half if b < total else 0) for a, b in pairwise(places)]
            if all(b - a >= spacing for a, b in pairwise(places)) and max(sizes) <= longest:
                cost = count * Fraction(rule.cost.of(a_strip.section[1 if across else 0]))
                yield tuple(sorted((size, rank) for size in sizes)), cost, stations


def _packed(a_job, pieces, rooms, taken, limit):  # noqa: C901  (as plain as trying everything can be)
    """Return the least cost of further stock for the pieces, below a limit; None if there is no such.

    ``rooms`` are clear stretches with a kerf at their end, each with its stock. Fresh stock is paid for less what it
    would be worth uncut, and every cut for what it takes of that: so no step costs less than nothing.
    """
    if not pieces:
        return Fraction(0)
    kerf = int(a_job.workshop.kerf.crosscut // 100)
    (size, rank), rest = pieces[0], pieces[1:]
    best = limit
    found = None

    def worth(room, stock):
        return offcut_value(a_job, stock, (room - kerf) * 100)

    def cut(rooms, place, taken, paid):
        nonlocal best, found
        room, stock = rooms[place]
        after = (room - size - kerf, stock)
        paid += worth(room, stock) - worth(*after)
        if best is None or paid < best:
            others = [*rooms[:place], after, *rooms[place + 1 :]]
            cost = _packed(a_job, rest, others, taken, None if best is None else best - paid)
            if cost is not None and (best is None or cost + paid < best):
                best = found = cost + paid

    for place, (room, stock) in enumerate(rooms):
        alike = [(other, a_job.rank(kind.grade), kind.offcut_value) for other, kind in rooms[:place]]
        own = (room, a_job.rank(stock.grade), stock.offcut_value)
        if size + kerf <= room and rank <= own[1] and own not in alike:
            cut(rooms, place, taken, Fraction(0))
    for stock in a_job.lengths:
        fresh = sorted((int((b - a) // 100) + kerf for a, b in clear_stretches(stock)), reverse=True)
        free = stock.available is None or taken.get(stock.name, 0) < stock.available
        paid = Fraction(stock.price) - sum(worth(room, stock) for room in fresh)
        for place, room in enumerate(fresh if free and rank <= a_job.rank(stock.grade) else ()):
            if size + kerf <= room and room not in fresh[:place]:
                more = {**taken, stock.name: taken.get(stock.name, 0) + 1}
                cut([(other, stock) for other in fresh] + rooms, place, more, paid)
    return found
