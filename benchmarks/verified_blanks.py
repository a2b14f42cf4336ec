"""Checks the blanks of a ``plan.json``, and the joints of panels that are cut from them."""

from collections import Counter
from itertools import pairwise

from .plan_reading import (
    TOLERANCE,
    Item,
    Plan,
    differ,
    lap_of,
    lying,
    panels,
    polygon,
    sheets_under,
    true_thickness,
)


def faults_of_blanks(plan: Plan) -> list[str]:
    """Return what is wrong with how sheets are made into blanks, and with the joints that this gives the panels."""
    wrong = [each for blank in plan["blanks"] for each in (*_made(plan, blank), *_scarfs(plan, blank))]
    wrong += _sheets_used_otherwise(plan)
    return wrong + _crossings(plan)


def _made(plan: Plan, blank: Item) -> list[str]:
    """Lay the trimmed sheets one lap over one another and compare that with what is told."""
    name, sheets, trim = blank["id"], sheets_under(plan, blank["id"]), plan["job"]["workshop"]["trim"]
    if any(sheet["size"] is None or sheet["faults"] for sheet in sheets):
        return [f"{name} is made of offcuts, or of sheets with faults"]
    wrong = []
    for what in (lambda sheet: sheet["material"], true_thickness, lambda sheet: sheet["size"][1]):
        if len({what(sheet) for sheet in sheets}) > 1:
            wrong.append(f"{name} is made of unlike sheets")
    placed = []
    for member, sheet in zip(blank["members"], sheets, strict=True):
        length, width = sheet["size"]
        inner = polygon([(trim, trim), (length - trim, trim), (length - trim, width - trim), (trim, width - trim)])
        if differ(polygon(member["outline"]), inner) or member["angle"] or member["turned_over"]:
            wrong.append(f"{member['used']} is not laid in {name} as a trimmed sheet")
        placed.append((member["x"] + trim, member["x"] + length - trim, member["y"] + trim))
    lap = _lap(plan, blank)
    if any(abs(one[1] - other[0] - lap) > TOLERANCE for one, other in pairwise(placed)):
        wrong.append(f"the sheets of {name} don't overlap by {lap:g}")
    if abs(placed[0][0]) > TOLERANCE or any(abs(south) > TOLERANCE for _, _, south in placed):
        wrong.append(f"the sheets of {name} don't lie flush from its corner")
    (_, end, _), width = placed[-1], sheets[0]["size"][1] - 2 * trim
    if differ(polygon(blank["outline"]), polygon([(0, 0), (end, 0), (end, width), (0, width)])):
        wrong.append(f"the outline of {name} is not that of its sheets")
    longest = plan["job"]["workshop"]["longest_piece"]
    return [*wrong, f"{name} is too long"] if longest is not None and end > longest + TOLERANCE else wrong


def _lap(plan: Plan, blank: Item) -> float:
    rule = plan["job"]["joints"][blank["joint"]]
    return lap_of(rule, max(map(true_thickness, sheets_under(plan, blank["id"]))))


def _scarfs(plan: Plan, blank: Item) -> list[str]:
    """Compare each scarf with the end of one sheet, half a lap back, and its rule."""
    rule, lap = plan["job"]["joints"][blank["joint"]], _lap(plan, blank)
    if rule["kind"] != "scarf" or len(blank["scarfs"]) != len(blank["members"]) - 1:
        return [f"{blank['id']} is not scarfed between every two sheets"]
    wrong, trim = [], plan["job"]["workshop"]["trim"]
    for scarf, member, sheet in zip(blank["scarfs"], blank["members"], sheets_under(plan, blank["id"]), strict=False):
        line, width = member["x"] + sheet["size"][0] - trim - lap / 2, sheet["size"][1] - 2 * trim
        cost = float(rule["cost"]["each"]) + float(rule["cost"]["per_m"]) * width / 1000
        told = (scarf["at"], scarf["lap"], scarf["slope"], scarf["thickness"], scarf["width"])
        true = (line, lap, rule["slope"], true_thickness(sheet), width)
        if any(abs(a - b) > TOLERANCE for a, b in zip(told, true, strict=True)):
            wrong.append(f"{scarf['id']} is not the scarf between its sheets")
        if abs(float(scarf["cost"]) - cost) > 0.011:
            wrong.append(f"{scarf['id']} does not cost {cost:.2f}")
    return wrong


def _sheets_used_otherwise(plan: Plan) -> list[str]:
    count = Counter(member["used"] for blank in plan["blanks"] for member in blank["members"])
    wrong = [f"{used} is in {times} blanks" for used, times in count.items() if times > 1]
    taken = [piece["on"] for piece in plan["pieces"]] + [offcut["on"] for offcut in plan["offcuts"]]
    return wrong + [f"{used} is in a blank and cut on its own" for used in count if used in taken]


def _crossings(plan: Plan) -> list[str]:
    """Work out from lines and places which scarfs cross which panels, and compare that with the told joints."""
    wrong, known = [], panels(plan)
    told = {(joint["scarf"], joint["pieces"][0]): joint for joint in plan["joints"] if joint["scarf"] is not None}
    if len(told) != sum(joint["scarf"] is not None for joint in plan["joints"]):
        wrong.append("a joint in a blank is told twice")
    for blank in plan["blanks"]:
        lap = _lap(plan, blank)
        for piece in (piece for piece in plan["pieces"] if piece["on"] == blank["id"]):
            if piece["kind"] != "panel" or piece["of"] != 1:
                wrong.append(f"{piece['id']} on {blank['id']} is no whole panel")
                continue
            for scarf in blank["scarfs"]:
                joint = told.pop((scarf["id"], piece["id"]), None)
                wrong += _crossing(known[piece["part"]], piece, blank["joint"], scarf, lap, joint)
    return wrong + [f"{joint['id']} is not where scarf {scarf} is" for (scarf, _), joint in told.items()]


def _crossing(panel: Item, piece: Item, rule: str, scarf: Item, lap: float, joint: Item | None) -> list[str]:
    west, _, east, _ = lying(piece).bounds
    low, high = scarf["at"] - lap / 2, scarf["at"] + lap / 2
    if min(east, high) - max(west, low) <= TOLERANCE:
        return [] if joint is None else [f"{joint['id']} is told of a piece that {scarf['id']} does not cross"]
    if panel["joint"] != rule or piece["angle"] % 180 or west > low + TOLERANCE or east < high - TOLERANCE:
        return [f"{piece['id']} may not lie across {scarf['id']}"]
    if joint is None:
        return [f"no joint tells that {piece['id']} lies across {scarf['id']}"]
    station = (scarf["at"] - piece["x"]) * (-1 if piece["angle"] % 360 else 1)
    if abs(joint["station"] - station) > TOLERANCE or float(joint["cost"]):
        return [f"{joint['id']} should be at {station:g} and free"]
    return []
