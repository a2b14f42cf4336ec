"""Checks the blanks of a ``plan.json``, and the joints of panels that are cut from them."""

from collections import Counter
from itertools import combinations

from shapely import affinity, union_all
from shapely.geometry import Polygon, box

from .plan_reading import (
    TOLERANCE,
    Item,
    Plan,
    bites,
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
    """Lay the members one lap over one another and compare that with what is told."""
    name, sheets = blank["id"], sheets_under(plan, blank["id"])
    if any(sheet["size"] is None or sheet["faults"] for sheet in sheets):
        return [f"{name} is made of offcuts, or of sheets with faults"]
    wrong = []
    for what in (lambda sheet: sheet["material"], true_thickness, lambda sheet: sheet["size"][1]):
        if len({what(sheet) for sheet in sheets}) > 1:
            wrong.append(f"{name} is made of unlike sheets")
    for member, sheet in zip(blank["members"], sheets, strict=True):
        if not _is_part(plan, polygon(member["outline"]), sheet) or member["angle"] or member["turned_over"]:
            wrong.append(f"{member['used']} is not laid in {name} as a trimmed sheet, or an equal part of one")
    outline, boxes = polygon(blank["outline"]), _boxes(blank)
    if (
        differ(outline, box(*outline.bounds))
        or differ(union_all(boxes), outline)
        or min(outline.bounds[:2]) < -TOLERANCE
    ):
        wrong.append(f"the outline of {name} is not that of its sheets")
    longest, (west, _, east, _) = plan["job"]["workshop"]["longest_piece"], outline.bounds
    return [*wrong, f"{name} is too long"] if longest is not None and east - west > longest + TOLERANCE else wrong


def _boxes(blank: Item) -> list[Polygon]:
    """Return where the members lie."""
    return [affinity.translate(polygon(m["outline"]), m["x"], m["y"]) for m in blank["members"]]


def _is_part(plan: Plan, there: Polygon, sheet: Item) -> bool:
    """Whether it is the sheet less its trim, one of two equal lengths, or one of two or three equal strips of these."""
    trim, kerf = plan["job"]["workshop"]["trim"], plan["job"]["workshop"]["kerf"]["sheet"]
    sides = [_equal_parts(size - 2 * trim, most, kerf) for size, most in zip(sheet["size"], (2, 3), strict=True)]
    whole = (
        box(west + trim, south + trim, east + trim, north + trim)
        for west, east in sides[0]
        for south, north in sides[1]
    )
    return any(not differ(part, there) for part in whole)


def _equal_parts(size: float, most: int, kerf: float) -> list[tuple[float, float]]:
    """Return the ends of each of one, two and so on equal parts with a cut between every two."""
    step = {n: (size + kerf) / n for n in range(1, most + 1)}
    return [(k * step[n], (k + 1) * step[n] - kerf) for n in step for k in range(n)]


def _lap(plan: Plan, blank: Item) -> float:
    rule = plan["job"]["joints"][blank["joint"]]
    return lap_of(rule, max(map(true_thickness, sheets_under(plan, blank["id"]))))


def _scarfs(plan: Plan, blank: Item) -> list[str]:
    """Compare the laps told of with where members lie over one another, and each scarf with its rule."""
    rule, lap, boxes = plan["job"]["joints"][blank["joint"]], _lap(plan, blank), _boxes(blank)
    if rule["kind"] != "scarf":
        return [f"{blank['id']} is not scarfed"]
    bands = [_band(scarf) for scarf in blank["scarfs"]]
    over = [one.intersection(other) for one, other in combinations(boxes, 2)]
    wrong = []
    if differ(union_all(bands), union_all(over)):
        wrong.append(f"the scarfs of {blank['id']} are not where its sheets lie over one another")
    layers = sum(member.area for member in boxes) - polygon(blank["outline"]).area
    if abs(layers - sum(band.area for band in bands)) > 1:
        wrong.append(f"the scarfs of {blank['id']} are not each told once")
    thickness = max(map(true_thickness, sheets_under(plan, blank["id"])))
    for scarf in blank["scarfs"]:
        cost = float(rule["cost"]["each"]) + float(rule["cost"]["per_m"]) * scarf["width"] / 1000
        told, true = (scarf["lap"], scarf["slope"], scarf["thickness"]), (lap, rule["slope"], thickness)
        if any(abs(a - b) > TOLERANCE for a, b in zip(told, true, strict=True)):
            wrong.append(f"{scarf['id']} is not the scarf between its sheets")
        if abs(float(scarf["cost"]) - cost) > 0.011:
            wrong.append(f"{scarf['id']} does not cost {cost:.2f}")
    return wrong


def _band(scarf: Item) -> Polygon:
    """Return where the lap of a scarf lies in its blank."""
    low, high = scarf["at"] - scarf["lap"] / 2, scarf["at"] + scarf["lap"] / 2
    begins, ends = scarf["begins"], scarf["begins"] + scarf["width"]
    return box(low, begins, high, ends) if scarf["runs"] == "across" else box(begins, low, ends, high)


def _sheets_used_otherwise(plan: Plan) -> list[str]:
    """Tell of sheets in two blanks, and of what is cut from one less than a kerf from another part of it."""
    kerf = plan["job"]["workshop"]["kerf"]["sheet"]
    count = Counter(used for blank in plan["blanks"] for used in {member["used"] for member in blank["members"]})
    wrong = [f"{used} is in {times} blanks" for used, times in count.items() if times > 1]
    members = [(m["used"], polygon(m["outline"])) for blank in plan["blanks"] for m in blank["members"]]
    kept = [(offcut["on"], polygon(offcut["outline"])) for offcut in plan["offcuts"] if "outline" in offcut]
    cut = [(piece["on"], lying(piece)) for piece in plan["pieces"] if piece["on"] in count]
    for k, (used, member) in enumerate(members):
        others = [shape for on, shape in (*members[:k], *kept, *cut) if on == used]
        if any(member.distance(shape) < kerf - TOLERANCE or bites(shape, member) for shape in others):
            wrong.append(f"{used} is in a blank and cut on its own")
    return wrong


def _crossings(plan: Plan) -> list[str]:
    """Work out from lines and places which scarfs cross which panels, and compare that with the told joints."""
    wrong, known = [], panels(plan)
    in_blanks = [joint for joint in plan["joints"] if joint["scarf"] is not None and joint["part"] in known]
    told = {(joint["scarf"], joint["pieces"][0]): joint for joint in in_blanks}
    if len(told) != len(in_blanks):
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
    if scarf["runs"] == "along":
        return _over_seam(panel, piece, rule, scarf, joint)
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


def _over_seam(panel: Item, piece: Item, rule: str, scarf: Item, joint: Item | None) -> list[str]:
    """Check that a panel over a scarf along its blank reaches over the whole lap; no joint tells of it."""
    if joint is not None:
        return [f"{joint['id']} is told of {scarf['id']}, which runs along"]
    _, south, _, north = lying(piece).bounds
    half = scarf["lap"] / 2
    whole = south <= scarf["at"] - half + TOLERANCE and north >= scarf["at"] + half - TOLERANCE
    over = bites(lying(piece), _band(scarf))
    return [f"{piece['id']} may not lie over {scarf['id']}"] if over and (panel["joint"] != rule or not whole) else []
