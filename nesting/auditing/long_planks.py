"""Whether long planks can be scarfed as told, ripped into their sticks, and give the strips that are cut from these."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from nesting.model import TOLERANCE, Joint, JointRule, Length, LengthOffcut, LongPlank, LongStick, StripPiece

from .findings import Finding
from .register import Register
from .rules import CENT, cost_of

Span = tuple[float, float]


def long_planks(register: Register) -> Iterator[Finding]:
    """Yield what is wrong with long planks, their sticks, and what is cut from them."""
    for plank in register.plan.long_planks:
        where = f'long plank "{plank.id}"'
        yield from _members(where, plank, register)
        yield from _pieces(plank, register)
        yield from _offcuts(plank, register)
        rule, stock = register.job.joints.get(plank.joint), stock_of(plank, register)
        if rule is None or rule.kind != "scarf":
            yield Finding("long-plank", where, f'"{plank.joint}" is no scarf of the job')
        elif stock is not None:
            yield from _scarfs(where, plank, rule, stock)
            yield from _sticks(where, plank, stock, register)


def stock_of(plank: LongPlank, register: Register) -> Length | None:
    """Return the kind of length that a long plank is made of, by its first part; None if that is unknown."""
    used = register.used_lengths.get(plank.members[0].used) if plank.members else None
    return None if used is None else register.lengths.get(used.stock)


def _members(where: str, plank: LongPlank, register: Register) -> Iterator[Finding]:
    used = [register.used_lengths[part.used] for part in plank.members if part.used in register.used_lengths]
    if len(plank.members) < 2:
        yield Finding("long-plank", where, "it is made of two planks or more")
    if len({each.stock for each in used}) > 1:
        yield Finding("long-plank", where, "its planks are of different stock")
    for each in used:
        if each.plank is not None:
            yield Finding("long-plank", where, f'"{each.id}" is a stick, and was ripped before')
    longest = register.job.workshop.longest_piece
    if longest is not None and plank.length > longest + TOLERANCE:
        yield Finding("piece-too-long", where, f"it is {plank.length:g} long, the longest is {longest:g}")


def _scarfs(where: str, plank: LongPlank, rule: JointRule, stock: Length) -> Iterator[Finding]:
    """Lay the parts one lap over the last, and compare length and scarfs."""
    width, thickness = stock.section
    lap, end, places = rule.slope * thickness, 0.0, []
    for part in plank.members:
        end += part.end - part.start
        places.append(end - lap / 2)
        end -= lap
        if part.end - part.start < lap - TOLERANCE:
            yield Finding("lap-short", where, f'its part of "{part.used}" is shorter than the lap of {lap:g}')
    if abs(end + lap - plank.length) > TOLERANCE:
        yield Finding("long-plank", where, f"with laps of {lap:g} it is {end + lap:g} long, not {plank.length:g}")
    if len(plank.scarfs) != len(plank.members) - 1:
        reason = f"{len(plank.members)} parts need {len(plank.members) - 1} scarfs, not {len(plank.scarfs)}"
        yield Finding("long-plank-scarf", where, reason)
    cost = cost_of(rule, width)
    for scarf, at in zip(plank.scarfs, places, strict=False):
        figures = {
            "place": (scarf.at, at),
            "lap": (scarf.lap, lap),
            "slope": (scarf.slope, rule.slope),
            "thickness": (scarf.thickness, thickness),
            "width": (scarf.width, width),
        }
        for name, (told, true) in figures.items():
            if abs(told - true) > TOLERANCE:
                yield Finding("long-plank-scarf", f'scarf "{scarf.id}"', f"its {name} is {told:g}, not {true:g}")
        if abs(scarf.cost - cost) > CENT:
            yield Finding("long-plank-scarf", f'scarf "{scarf.id}"', f"it costs {cost} by its rule, not {scarf.cost}")


def _sticks(where: str, plank: LongPlank, stock: Length, register: Register) -> Iterator[Finding]:
    (width, thickness), kerf = plank.section, register.job.workshop.kerf.rip
    if kerf is None:
        yield Finding("wrong-plank", where, "nothing is ripped in this workshop: it names no kerf for it")
        return
    if abs(thickness - stock.section[1]) > TOLERANCE:
        yield Finding("wrong-section", where, f"its sticks are {thickness:g} thick, its planks {stock.section[1]:g}")
    need = len(plank.sticks) * width + (len(plank.sticks) - 1) * kerf
    if need > stock.section[0] + TOLERANCE:
        reason = f"{len(plank.sticks)} sticks with the cuts between them take {need:g} of {stock.section[0]:g}"
        yield Finding("wrong-plank", where, reason)


def _pieces(plank: LongPlank, register: Register) -> Iterator[Finding]:
    for stick in plank.sticks:
        pieces = sorted((p for p in register.strip_pieces if p.on == stick.id), key=lambda piece: piece.start)
        yield from _apart([(piece.start, piece.end) for piece in pieces], stick, register)
        for piece in pieces:
            yield from _inside(f'piece "{piece.id}"', (piece.start, piece.end), plank)
            yield from _strip(piece, plank, stick, register)


def _inside(where: str, span: Span, plank: LongPlank) -> Iterator[Finding]:
    if not -TOLERANCE <= span[0] < span[1] <= plank.length + TOLERANCE:
        yield Finding("outside-length", where, f"it runs from {span[0]:g} to {span[1]:g} of {plank.length:g}")


def _apart(spans: Sequence[Span], stick: LongStick, register: Register) -> Iterator[Finding]:
    kerf = register.job.workshop.kerf.crosscut
    ordered = sorted(spans)
    for (_, end), (start, _) in pairwise(ordered):
        if start < end - TOLERANCE:
            yield Finding("pieces-overlap", f'stick "{stick.id}"', f"what is cut from it overlaps at {start:g}")
        elif start - end < kerf - TOLERANCE:
            reason = f"what is cut from it is {start - end:g} apart, the saw takes {kerf:g}"
            yield Finding("kerf-too-small", f'stick "{stick.id}"', reason)


def _strip(piece: StripPiece, plank: LongPlank, stick: LongStick, register: Register) -> Iterator[Finding]:
    """Compare one strip with its plank's section, rule and scarfs."""
    strip, where = register.strips.get(piece.part), f'piece "{piece.id}"'
    if strip is None:
        return  # told among the names
    if any(abs(a - b) > TOLERANCE for a, b in zip(strip.section, plank.section, strict=True)):
        yield Finding("wrong-section", where, "its section is not that of its stick")
    if piece.of != 1:
        yield Finding("long-plank-strip", where, "a strip from a long plank is in one piece")
    joints = {joint.scarf: joint for joint in register.joints.get((piece.part, piece.copy_number), ())}
    crossed = set()
    for scarf in plank.scarfs:
        low, high = scarf.at - scarf.lap / 2, scarf.at + scarf.lap / 2
        if high <= piece.start + TOLERANCE or low >= piece.end - TOLERANCE:
            continue
        crossed.add(scarf.id)
        if low < piece.start - TOLERANCE or high > piece.end + TOLERANCE:
            yield Finding("scarf-cut-into", where, f'it cuts into scarf "{scarf.id}"')
            continue
        if strip.joint != plank.joint:
            yield Finding(
                "joint-not-allowed", where, f'it lies across scarf "{scarf.id}", which is not by its own rule'
            )
        station = piece.end - scarf.at if stick.turned else scarf.at - piece.start
        yield from _told(where, piece, joints.get(scarf.id), scarf.id, station)
    for name in joints.keys() - crossed:
        yield Finding("joint-not-there", where, f'its joint tells of "{name}", which does not run across it')


def _told(where: str, piece: StripPiece, joint: Joint | None, scarf: str, station: float) -> Iterator[Finding]:
    if joint is None:
        yield Finding("joint-missing", where, f'it lies across scarf "{scarf}" at {station:g}: no joint tells of it')
        return
    if abs(joint.station - station) > TOLERANCE:
        reason = f"its station is {joint.station:g}, the scarf crosses the strip at {station:g}"
        yield Finding("joint-station", f'joint "{joint.id}"', reason)
    if joint.pieces != (piece.id,):
        reason = f"it names {' and '.join(joint.pieces)}, across the scarf lies {piece.id}"
        yield Finding("joint-pieces", f'joint "{joint.id}"', reason)


def _offcuts(plank: LongPlank, register: Register) -> Iterator[Finding]:
    """Look at kept offcuts of sticks: off the laps and a kerf from all else."""
    least = register.job.workshop.keep_length_from
    for stick in plank.sticks:
        offcuts = [o for o in register.plan.offcuts if isinstance(o, LengthOffcut) and o.on == stick.id and o.kept]
        if not offcuts:
            continue
        pieces = [(piece.start, piece.end) for piece in register.strip_pieces if piece.on == stick.id]
        yield from _apart([*pieces, *((offcut.start, offcut.end) for offcut in offcuts)], stick, register)
        for offcut in offcuts:
            where, span = f'offcut of "{stick.id}"', (offcut.start, offcut.end)
            on_lap = any(
                span[0] < scarf.at + scarf.lap / 2 - TOLERANCE and span[1] > scarf.at - scarf.lap / 2 + TOLERANCE
                for scarf in plank.scarfs
            )
            if on_lap or span[0] < -TOLERANCE or span[1] > plank.length + TOLERANCE:
                yield Finding("offcut-misplaced", where, f"from {span[0]:g} to {span[1]:g} it is not one clear piece")
            if span[1] - span[0] < least - TOLERANCE:
                yield Finding("offcut-too-small", where, f"it is {span[1] - span[0]:g} long, kept is {least:g} or more")
