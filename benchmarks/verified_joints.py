"""Checks the joints of a ``plan.json``: laps, butts, straps, zones, distances, and the shift of neighbours."""

from collections import Counter, defaultdict
from itertools import pairwise, product

from .plan_reading import (
    TOLERANCE,
    Item,
    Plan,
    band_of,
    boat_station,
    differ,
    in_own_frame,
    lap_of,
    outline_of,
    panels,
    sheets_under,
    stretch,
    thickest,
    true_thickness,
)


def faults_of_joints(plan: Plan) -> list[str]:
    """Return what is wrong with the joints of panels; those in blanks are compared with their scarfs elsewhere."""
    known = panels(plan)
    joints = [joint for joint in plan["joints"] if joint["part"] in known]
    wrong = [each for joint in joints for each in _by_rule(plan, known[joint["part"]], joint)]
    wrong += [each for joint in joints for each in _pieces(plan, known[joint["part"]], joint)]
    return [*wrong, *_counts(plan), *_straps(plan), *_spacing(plan), *_shifts(plan)]


def _rule(plan: Plan, panel: Item) -> Item:
    rule: Item = plan["job"]["joints"][panel["joint"]]
    return rule


def _thickness(plan: Plan, panel: Item, joint: Item) -> float:
    """Return what a lap is taken from: a blank's own sheets, or the thickest that any piece may come from."""
    places = [piece["on"] for piece in plan["pieces"] if piece["id"] in joint["pieces"]]
    if joint["scarf"] is None or not places:
        return thickest(plan, panel)
    return max(map(true_thickness, sheets_under(plan, places[0])))


def _by_rule(plan: Plan, panel: Item, joint: Item) -> list[str]:
    if panel["joint"] is None:
        return [f"{joint['id']} is in a panel that must be in one piece"]
    rule, thickness = _rule(plan, panel), _thickness(plan, panel, joint)
    lap, band = lap_of(rule, thickness), band_of(rule, thickness)
    wrong = []
    if joint["kind"] != rule["kind"] or max(abs(joint["lap"] - lap), abs(joint["strap"] + lap - band)) > TOLERANCE:
        wrong.append(f"{joint['id']} is not the {rule['kind']} of its rule")
    start, end = joint["station"] - band / 2, joint["station"] + band / 2
    if any(start < to - TOLERANCE and end > begin + TOLERANCE for begin, to in _zones(plan, panel)):
        wrong.append(f"{joint['id']} reaches into a no-joint zone")
    return wrong


def _zones(plan: Plan, panel: Item) -> list[tuple[float, float]]:
    """Return where no lap may lie: the panel's own zones, and about each frame that it names."""
    there = [frame for frame in plan["job"]["frames"] if frame["name"] in panel["frames"]]
    rows = [(boat, own) for own, boat in panel["boat_stations"]]
    places = [(boat_station(frame["station"], rows), frame["clear"]) for frame in there]
    return [*panel["no_joint"], *((at - clear, at + clear) for at, clear in places)]


def _pieces(plan: Plan, panel: Item, joint: Item) -> list[str]:
    """Compare the stretch that two joined pieces share with the full lap; those of a butt only meet."""
    pieces = {piece["id"]: piece for piece in plan["pieces"]}
    if panel["joint"] is None or len(joint["pieces"]) != 2 or not pieces.keys() >= set(joint["pieces"]):
        return []  # from a blank, or a piece is missing: both are looked at elsewhere
    lap = lap_of(_rule(plan, panel), thickest(plan, panel))
    low, high = (in_own_frame(pieces[name]) for name in joint["pieces"])
    start, end = joint["station"] - lap / 2, joint["station"] + lap / 2
    full = stretch(outline_of(panel), start, end)
    if abs(low.bounds[2] - end) > TOLERANCE or abs(high.bounds[0] - start) > TOLERANCE:
        return [f"{joint['id']} is not a full lap of {lap:g}"]
    return [f"{joint['id']} is not a full lap of {lap:g}"] if lap and differ(low.intersection(high), full) else []


def _counts(plan: Plan) -> list[str]:
    """Compare the number of joints between pieces with the number of pieces of every copy of a panel."""
    pieces = Counter((piece["part"], piece["copy"]) for piece in plan["pieces"] if piece["kind"] == "panel")
    joints = Counter((joint["part"], joint["copy"]) for joint in plan["joints"] if joint["scarf"] is None)
    return [
        f"{name} {copy} has {joints[name, copy]} joints between {number} pieces"
        for (name, copy), number in pieces.items()
        if joints[name, copy] != number - 1
    ]


def _straps(plan: Plan) -> list[str]:
    """Look for one strap behind every butt, of the panel's shape there, turned over."""
    butts = {joint["id"]: joint for joint in plan["joints"] if joint["kind"] == "butt"}
    straps = [piece for piece in plan["pieces"] if piece["kind"] == "strap"]
    if Counter(strap["joint"] for strap in straps) != Counter(butts.keys()):
        return ["butts and straps are not one to one"]
    wrong, known = [], panels(plan)
    for strap in straps:
        butt = butts[strap["joint"]]
        half = butt["strap"] / 2
        full = stretch(outline_of(known[butt["part"]]), butt["station"] - half, butt["station"] + half)
        hands = {piece["hand"] for piece in plan["pieces"] if piece["id"] in butt["pieces"]}
        if (strap["part"], strap["copy"]) != (butt["part"], butt["copy"]) or {strap["hand"]} != hands:
            wrong.append(f"{strap['id']} is not of its butt's panel")
        if differ(in_own_frame(strap), full):
            wrong.append(f"{strap['id']} is not the panel's outline behind its butt")
        if strap["mirrored"] == (strap["hand"] == "starboard"):
            wrong.append(f"{strap['id']} is not turned over")
    return wrong


def _spacing(plan: Plan) -> list[str]:
    """Measure from end to joint, joint to joint, and joint to end of every copy of a panel."""
    wrong, known, copies = [], panels(plan), defaultdict(list)
    for joint in plan["joints"]:
        if joint["part"] in known and known[joint["part"]]["joint"] is not None:
            copies[joint["part"], joint["copy"]].append(joint)
    for (name, copy), joints in copies.items():
        panel = known[name]
        rule = _rule(plan, panel)
        least = max(rule["least_piece"], *(band_of(rule, _thickness(plan, panel, joint)) for joint in joints))
        west, _, east, _ = outline_of(panel).bounds
        places = [west, *sorted(joint["station"] for joint in joints), east]
        if any(after - before < least - TOLERANCE for before, after in pairwise(places)):
            wrong.append(f"{name} {copy} has joints less than {least:g} apart or from an end")
        if panel["most_joints"] is not None and len(joints) > panel["most_joints"]:
            wrong.append(f"{name} {copy} has {len(joints)} joints")
    return wrong


def _shifts(plan: Plan) -> list[str]:
    wrong, known = [], panels(plan)
    for pair in (pair for pair in plan["job"]["neighbours"] if known.keys() >= set(pair["between"])):
        first, second = (
            {boat_station(j["station"], known[name]["boat_stations"]) for j in plan["joints"] if j["part"] == name}
            for name in pair["between"]
        )
        if any(abs(one - other) < pair["shift"] - TOLERANCE for one, other in product(first, second)):
            wrong.append(f"joints of {' and '.join(pair['between'])} are less than {pair['shift']:g} apart")
    return wrong
