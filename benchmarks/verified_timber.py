"""Checks the timber of a ``plan.json``: each length, and each strip with its laps, zones and distances."""

from decimal import Decimal
from itertools import pairwise, product

from .plan_reading import TOLERANCE, Item, Plan
from .verified_long_planks import faults_of_long_planks, sticks_of, stock_under


def faults_of_timber(plan: Plan) -> list[str]:
    """Return what is wrong with the lengths, and with the strips that are cut and scarfed from them."""
    wrong = [each for used in plan["used"] if used["kind"] == "length" for each in _length(plan, used)]
    wrong += [*_shifts(plan), *_matched(plan), *_planks(plan), *_offcuts(plan)]
    wrong += faults_of_long_planks(plan)
    for strip in plan["job"]["strips"]:
        for copy in range(1, strip["quantity"] + 1):
            wrong += [f"{strip['name']} {copy} {fault}" for fault in _copy(plan, strip, copy)]
    return wrong


def _shifts(plan: Plan) -> list[str]:
    """Compare the stations of joints in different copies of neighbouring strips."""
    strips = {strip["name"] for strip in plan["job"]["strips"]}
    return [
        f"joints of {' and '.join(pair['between'])} are less than {pair['shift']:g} apart"
        for pair in plan["job"]["neighbours"]
        if strips.issuperset(pair["between"])
        and any(
            [one["part"], other["part"]] == pair["between"]
            and (one["part"], one["copy"]) != (other["part"], other["copy"])
            and abs(one["station"] - other["station"]) < pair["shift"] - TOLERANCE
            for one, other in product(plan["joints"], repeat=2)
        )
    ]


def _matched(plan: Plan) -> list[str]:
    """Compare the stations of joints in each pair of copies of a matched strip."""
    wrong = []
    for strip in (strip for strip in plan["job"]["strips"] if strip["matched"]):
        own = [joint for joint in plan["joints"] if joint["part"] == strip["name"]]
        hands = [sorted(j["station"] for j in own if j["copy"] == k + 1) for k in range(strip["quantity"])]
        for one, other in zip(hands[::2], hands[1::2], strict=True):
            if len(one) != len(other) or any(abs(a - b) > TOLERANCE for a, b in zip(one, other, strict=True)):
                wrong.append(f"two copies of {strip['name']} are not matched")
    return wrong


def _offcuts(plan: Plan) -> list[str]:
    """Work out what kept offcuts are worth, from their stock's value for the metre, and add that up."""
    wrong, total = [], Decimal(0)
    a_metre = {stock["name"]: float(stock["offcut_value"]) for stock in plan["job"]["lengths"]}
    used = {each["id"]: (each["stock"], each["sticks"]) for each in plan["used"] if each["kind"] == "length"}
    used |= {name: (stock_under(plan, plank)["name"], len(plank["sticks"])) for name, plank in sticks_of(plan).items()}
    for offcut in (each for each in plan["offcuts"] if each["kept"]):
        total += Decimal(offcut["value"])
        of = used.get(offcut["on"])
        if of is None:
            continue
        true = (offcut["to"] - offcut["from"]) / 1000 * a_metre[of[0]] / of[1]
        if not true - 0.0101 < float(offcut["value"]) < true + 0.0001:
            wrong.append(f"an offcut of {offcut['on']} is worth {true:.2f}, not {offcut['value']}")
    if total != Decimal(plan["totals"]["offcut_value"]):
        wrong.append(f"kept offcuts are worth {total}, not {plan['totals']['offcut_value']}")
    return wrong


def _planks(plan: Plan) -> list[str]:
    """Measure the sticks that are ripped from each plank, and compare other strips with their timber."""
    wrong, kerf = [], plan["job"]["workshop"]["kerf"]["rip"]
    sections = {strip["name"]: strip["section"] for strip in plan["job"]["strips"]}
    wholes = {length["name"]: length["section"] for length in plan["job"]["lengths"]}
    for used in (used for used in plan["used"] if used["kind"] == "length"):
        width, thickness = wholes[used["stock"]]
        cut = [sections[piece["part"]] for piece in plan["pieces"] if piece["on"] == used["id"]]
        if used["plank"] is None:
            fits = all(abs(a - width) < TOLERANCE and abs(b - thickness) < TOLERANCE for a, b in cut)
        else:
            count = sum(other.get("plank") == used["plank"] for other in plan["used"])
            across = [count * a + (count - 1) * kerf for a, _ in cut] if kerf is not None else [float("inf")]
            fits = max(across, default=0.0) <= width + TOLERANCE and all(abs(b - thickness) < TOLERANCE for _, b in cut)
        if not fits:
            wrong.append(f"strips from {used['id']} are not of its section")
    return wrong


def _length(plan: Plan, used: Item) -> list[str]:
    kerf, name = plan["job"]["workshop"]["kerf"]["crosscut"], used["id"]
    cuts = sorted((piece["from"], piece["to"]) for piece in plan["pieces"] if piece["on"] == name)
    ends = [-kerf, *(to for _, to in cuts)]
    wrong = [f"{name} is too short"] if ends[-1] > used["length"] + TOLERANCE else []
    if any(start - end < kerf - TOLERANCE for (start, _), end in zip(cuts, ends, strict=False)):
        wrong.append(f"pieces on {name} are not a kerf apart")
    spoilt = [
        stretch for stock in plan["job"]["lengths"] if stock["name"] == used["stock"] for stretch in stock["faults"]
    ]
    if any(start < to - TOLERANCE and end > begin + TOLERANCE for start, end in cuts for begin, to in spoilt):
        wrong.append(f"a piece on {name} lies on a fault")
    return wrong


def _copy(plan: Plan, strip: Item, copy: int) -> list[str]:
    """Put the pieces of a copy end to end, each a lap before the end of the last, and look at every joint."""
    pieces = [piece for piece in plan["pieces"] if (piece["part"], piece["copy"]) == (strip["name"], copy)]
    pieces.sort(key=lambda piece: int(piece["index"]))
    joints = [joint for joint in plan["joints"] if (joint["part"], joint["copy"]) == (strip["name"], copy)]
    lap = _lap(plan, strip)
    if len(pieces) == 1 and pieces[0]["on"] in sticks_of(plan):  # its joints are its plank's scarfs, looked at there
        size, places = pieces[0]["to"] - pieces[0]["from"], sorted(joint["station"] for joint in joints)
        wrong = [] if abs(size - strip["length"]) <= TOLERANCE else [f"comes out {size:.3f} long"]
        wrong += [f"has a lap of {j['lap']:g}" for j in joints if abs(j["lap"] - lap) > TOLERANCE]
        return [*wrong, *_rules(plan, strip, [0.0, *places, strip["length"]], lap)]
    if len(joints) != len(pieces) - 1 or (joints and strip["joint"] is None):
        return [f"has {len(joints)} joints between {len(pieces)} pieces"]
    end, stations = 0.0, []
    for piece in pieces:
        end += piece["to"] - piece["from"]
        stations.append(end - lap / 2)
        end -= lap if piece is not pieces[-1] else 0.0
    wrong = [] if abs(end - strip["length"]) <= TOLERANCE else [f"comes out {end:.3f} long"]
    told = sorted((joint["station"], joint["lap"]) for joint in joints)
    if any(abs(a - c) > TOLERANCE or abs(b - lap) > TOLERANCE for (a, b), c in zip(told, stations, strict=False)):
        wrong.append(f"is not told to be joined by laps of {lap:g} where its pieces meet")
    return [*wrong, *_rules(plan, strip, [0.0, *stations[:-1], strip["length"]], lap)]


def _lap(plan: Plan, strip: Item) -> float:
    """Return slope x what the bevel runs through; nothing for a strip in one piece."""
    if strip["joint"] is None:
        return 0.0
    width, thickness = strip["section"]
    through = width if strip["scarf_across"] == "width" else thickness
    return float(plan["job"]["joints"][strip["joint"]]["slope"] * through)


def _rules(plan: Plan, strip: Item, places: list[float], lap: float) -> list[str]:
    """Look at the distances between the ends and the joints, at the zones, and at the number of joints."""
    stations = places[1:-1]
    if not stations:
        return []
    rule = plan["job"]["joints"][strip["joint"]]
    least = max(strip["least_piece"] or rule["least_piece"], lap)
    wrong = []
    if any(after - before < least - TOLERANCE for before, after in pairwise(places)):
        wrong.append(f"has joints less than {least:g} apart or from an end")
    if any(
        s - lap / 2 < to - TOLERANCE and s + lap / 2 > begin + TOLERANCE
        for s in stations
        for begin, to in strip["no_joint"]
    ):
        wrong.append("has a joint in a no-joint zone")
    if strip["most_joints"] is not None and len(stations) > strip["most_joints"]:
        wrong.append(f"has {len(stations)} joints")
    return wrong
