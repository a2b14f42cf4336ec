"""Checks a ``plan.json`` with shapely and plain arithmetic alone: nothing of the library is imported.

It reads nothing but the plan file, and so shows that the file alone is enough to verify a plan.
"""

import json
from collections import Counter
from decimal import Decimal
from itertools import combinations
from pathlib import Path
from typing import Any

from shapely import affinity
from shapely.geometry import Polygon, box

#: Millimetres within which two places are the same.
TOLERANCE = 0.001


def faults(file: Path) -> list[str]:
    """Return what is wrong with a plan: parts, joints, stock, gaps, edges, money."""
    plan = json.loads(file.read_text(encoding="utf-8"))
    return [*_parts(plan), *_laps(plan), *_stock(plan), *_sheets(plan), *_timber(plan), *_money(plan)]


def _parts(plan: dict[str, Any]) -> list[str]:
    """Put the pieces of each copy of each panel together again and compare them with its outline."""
    wrong = []
    for panel in plan["job"]["panels"]:
        outline = _polygon(panel["outline"]["points"], panel["outline"]["holes"])
        for copy in range(1, panel["quantity"] + 1):
            pieces = [p for p in plan["pieces"] if p["part"] == panel["name"] and p["copy"] == copy]
            together = Polygon()
            for piece in pieces:
                together = together.union(_in_own_frame(piece))
            if together.symmetric_difference(outline).area > TOLERANCE * outline.length:
                wrong.append(f"{panel['name']} {copy}: its pieces don't make up its outline")
    return wrong


def _laps(plan: dict[str, Any]) -> list[str]:
    """Compare the stretch that two joined pieces of a panel share with the full lap, and keep it off the zones."""
    wrong = []
    pieces = {piece["id"]: piece for piece in plan["pieces"]}
    panels = {panel["name"]: panel for panel in plan["job"]["panels"]}
    for joint in plan["joints"]:
        if joint["part"] not in panels or not pieces.keys() >= set(joint["pieces"]):
            continue  # timber, or a piece is missing: both are looked at elsewhere
        panel = panels[joint["part"]]
        lap = plan["job"]["joints"][panel["joint"]]["slope"] * _true_thickness(plan, panel)
        start, end = joint["station"] - lap / 2, joint["station"] + lap / 2
        outline = _polygon(panel["outline"]["points"], panel["outline"]["holes"])
        low, high = (_in_own_frame(pieces[name]) for name in joint["pieces"])
        full = outline.intersection(box(start, outline.bounds[1], end, outline.bounds[3]))
        if low.intersection(high).symmetric_difference(full).area > TOLERANCE * outline.length:
            wrong.append(f"{joint['id']} is not a full lap of {lap:g}")
        if any(start < to - TOLERANCE and end > begin + TOLERANCE for begin, to in panel["no_joint"]):
            wrong.append(f"{joint['id']} reaches into a no-joint zone")
    return wrong


def _true_thickness(plan: dict[str, Any], panel: dict[str, Any]) -> float:
    """Return the thickness, as measured, of the thickest sheet that a panel may be cut from."""
    rank = {grade: place for place, grade in enumerate(plan["job"]["grades"])}
    serving = [
        sheet["measured"] or sheet["thickness"]
        for sheet in plan["job"]["sheets"]
        if sheet["material"] == panel["material"]
        and abs(sheet["thickness"] - panel["thickness"]) <= TOLERANCE
        and rank.get(sheet["grade"], 0) >= rank.get(panel["grade"], 0)
    ]
    return float(max(serving))


def _stock(plan: dict[str, Any]) -> list[str]:
    """Count what is used against what there is."""
    there = {stock["name"]: stock["available"] for stock in (*plan["job"]["sheets"], *plan["job"]["lengths"])}
    count = Counter(used["stock"] for used in plan["used"])
    return [f"{n} of {name} are used" for name, n in count.items() if there[name] is not None and n > there[name]]


def _in_own_frame(piece: dict[str, Any]) -> Polygon:
    shape = affinity.translate(_polygon(piece["outline"], piece["holes"]), -piece["x"], -piece["y"])
    shape = affinity.rotate(shape, -piece["angle"], origin=(0, 0))
    return affinity.scale(shape, 1, -1, origin=(0, 0)) if piece["mirrored"] else shape


def _sheets(plan: dict[str, Any]) -> list[str]:
    allowance, wrong = plan["job"]["workshop"]["allowance"], []
    gap = plan["job"]["workshop"]["kerf"]["sheet"] + 2 * allowance
    sides = {sheet["name"]: [fault["side"] for fault in sheet["faults"]] for sheet in plan["job"]["sheets"]}
    for sheet in (used for used in plan["used"] if used["kind"] == "sheet"):
        usable = _polygon(sheet["outline"], sheet["holes"]).buffer(
            TOLERANCE - sheet["trim"] - allowance, join_style="mitre"
        )
        shapes = {p["id"]: _polygon(p["outline"], p["holes"]) for p in plan["pieces"] if p["on"] == sheet["id"]}
        wrong += [f"{name} is not within {sheet['id']}" for name, shape in shapes.items() if not usable.covers(shape)]
        for place, fault in enumerate(map(Polygon, sheet["faults"])):
            side = sides[sheet["stock"]][place] if place < len(sides[sheet["stock"]]) else "both"
            spoilt = [name for name, shape in shapes.items() if _bites(shape, fault) and _seen(plan, name, side)]
            wrong += [f"{name} lies on a fault" for name in spoilt]
        for (name, shape), (other, neighbour) in combinations(shapes.items(), 2):
            if shape.distance(neighbour) < gap - TOLERANCE or _bites(shape, neighbour):
                wrong.append(f"{name} and {other} are not a kerf apart")
    return wrong


def _bites(shape: Polygon, other: Polygon) -> bool:
    """Whether two shapes overlap deeper than the tolerance: an area would grow with the length of a common edge."""
    return bool(shape.buffer(-TOLERANCE, join_style="mitre").intersects(other))


def _seen(plan: dict[str, Any], piece: str, side: str) -> bool:
    """Whether a fault on a face, or through the sheet, is seen on a piece."""
    part = next(p["part"] for p in plan["pieces"] if p["id"] == piece)
    shows = next(panel["shows"] for panel in plan["job"]["panels"] if panel["name"] == part)
    return side == "both" or shows == "both" or side == shows


def _timber(plan: dict[str, Any]) -> list[str]:
    kerf, wrong = plan["job"]["workshop"]["kerf"]["crosscut"], []
    lap = {(j["part"], j["copy"]): j["lap"] for j in plan["joints"]}
    for length in (used for used in plan["used"] if used["kind"] == "length"):
        cuts = sorted((p["from"], p["to"]) for p in plan["pieces"] if p["on"] == length["id"])
        ends = [-kerf, *(to for _, to in cuts)]
        if ends[-1] > length["length"] + TOLERANCE:
            wrong.append(f"{length['id']} is too short")
        if any(start - end < kerf - TOLERANCE for (start, _), end in zip(cuts, ends, strict=False)):
            wrong.append(f"pieces on {length['id']} are not a kerf apart")
    for strip in plan["job"]["strips"]:
        for copy in range(1, strip["quantity"] + 1):
            pieces = [p["to"] - p["from"] for p in plan["pieces"] if (p["part"], p["copy"]) == (strip["name"], copy)]
            made = sum(pieces) - (len(pieces) - 1) * lap.get((strip["name"], copy), 0)
            if not pieces or abs(made - strip["length"]) > TOLERANCE:
                wrong.append(f"{strip['name']} {copy} comes out {made:.3f} long")
    return wrong


def _money(plan: dict[str, Any]) -> list[str]:
    job, totals = plan["job"], plan["totals"]
    price = {stock["name"]: Decimal(stock["price"]) for stock in (*job["sheets"], *job["lengths"])}
    bought = Counter(used["stock"] for used in plan["used"] if used["source"] == "buy")
    to_pay = sum((price[name] * count for name, count in bought.items()), Decimal(0))
    joints = sum((Decimal(joint["cost"]) for joint in plan["joints"]), Decimal(0))
    wrong = [] if to_pay == Decimal(totals["to_pay"]) else [f"to pay: {to_pay}, not {totals['to_pay']}"]
    if to_pay + joints - Decimal(totals["offcut_value"]) != Decimal(totals["objective"]):
        wrong.append("the objective does not add up")
    if Decimal(totals["bound"]) > Decimal(totals["objective"]):
        wrong.append("the bound is above the objective")
    return wrong


def _polygon(points: list[list[float]], holes: list[list[list[float]]]) -> Polygon:
    return Polygon([point[:2] for point in points], [[point[:2] for point in hole] for hole in holes])
