"""Checks a ``plan.json`` with shapely and plain arithmetic alone: nothing of the library is imported.

It reads nothing but the plan file, and so shows that the file alone is enough to verify a plan.
"""

import json
from collections import Counter
from collections.abc import Iterator
from decimal import Decimal
from itertools import combinations
from pathlib import Path

from shapely.geometry import Polygon

from .plan_reading import (
    TOLERANCE,
    Item,
    Plan,
    bites,
    cut_from_sheets,
    differ,
    in_own_frame,
    lying,
    outline_of,
    panels,
    polygon,
    serves,
    sheets_under,
)
from .verified_blanks import faults_of_blanks
from .verified_joints import faults_of_joints
from .verified_timber import faults_of_timber

#: Degrees from the grain of a sheet to a panel's x axis.
GRAIN = {"along": 0.0, "across": 90.0}


def faults(file: Path) -> list[str]:
    """Return what is wrong with a plan: parts, joints, blanks, stock, gaps, edges, areas, money."""
    plan = json.loads(file.read_text(encoding="utf-8"))
    checks = (
        _parts,
        faults_of_joints,
        faults_of_blanks,
        _ways,
        _stock,
        _suited,
        _sheets,
        faults_of_timber,
        _areas,
        _money,
    )
    return [wrong for check in checks for wrong in check(plan)]


def _parts(plan: Plan) -> list[str]:
    """Put the pieces of each copy of each panel together again and compare them with its outline."""
    wrong = []
    cut = [piece for piece in plan["pieces"] if piece["kind"] == "panel"]
    for panel in plan["job"]["panels"]:
        for copy in range(1, panel["quantity"] + 1):
            together = Polygon()
            for piece in (p for p in cut if p["part"] == panel["name"] and p["copy"] == copy):
                together = together.union(in_own_frame(piece))
            if differ(outline_of(panel), together):
                wrong.append(f"{panel['name']} {copy}: its pieces don't make up its outline")
        hands = Counter(p["hand"] for p in cut if p["part"] == panel["name"] and p["index"] == 1)
        if panel["handed"] and hands["port"] != hands["starboard"]:
            wrong.append(f"{panel['name']} is not half port and half starboard")
    return wrong + [f"{p['id']} is of the wrong hand" for p in cut if p["mirrored"] != (p["hand"] == "starboard")]


def _ways(plan: Plan) -> list[str]:
    """Compare how panels are joined with how the workshop joins."""
    way = plan["job"]["workshop"]["way"]
    divided = any(piece["kind"] == "panel" and piece["of"] > 1 for piece in plan["pieces"])
    broken = (way == "divided" and plan["blanks"]) or (way == "joined" and divided)
    return [f"the workshop works {way} only"] if broken else []


def _stock(plan: Plan) -> list[str]:
    """Count what is used against what there is."""
    there = {stock["name"]: stock["available"] for stock in (*plan["job"]["sheets"], *plan["job"]["lengths"])}
    count = Counter(used["stock"] for used in plan["used"] if used.get("stick", 1) == 1)
    return [f"{n} of {name} are used" for name, n in count.items() if there[name] is not None and n > there[name]]


def _suited(plan: Plan) -> list[str]:
    """Compare material, thickness, grade and grain of each piece and strap with what its panel asks for."""
    wrong, known = [], panels(plan)
    for piece in cut_from_sheets(plan):
        panel = known[piece["part"]]
        if not all(serves(plan, sheet, panel) for sheet in sheets_under(plan, piece["on"])):
            wrong.append(f"{piece['id']} is of another material, thickness or grade than asked")
        if panel["grain"] != "any":
            off = (piece["angle"] - GRAIN[panel["grain"]] + 90) % 180 - 90
            if abs(off) > panel["grain_tolerance"] + 1e-6:
                wrong.append(f"{piece['id']} lies {off:g} degrees off its grain")
    return wrong


def _boards(plan: Plan) -> Iterator[tuple[str, Polygon, list[tuple[str, Polygon]]]]:
    """Yield name, usable outline and faults of each used sheet and blank, each fault with the face on which it is."""
    sides = {sheet["name"]: [fault["side"] for fault in sheet["faults"]] for sheet in plan["job"]["sheets"]}
    for sheet in (used for used in plan["used"] if used["kind"] == "sheet"):
        usable = polygon(sheet["outline"], sheet["holes"]).buffer(-sheet["trim"], join_style="mitre")
        known = [*sides[sheet["stock"]], *["both"] * len(sheet["faults"])]
        yield sheet["id"], usable, list(zip(known, map(polygon, sheet["faults"]), strict=False))
    for blank in plan["blanks"]:
        yield blank["id"], polygon(blank["outline"]), []


def _sheets(plan: Plan) -> list[str]:
    allowance, wrong = plan["job"]["workshop"]["allowance"], []
    gap = plan["job"]["workshop"]["kerf"]["sheet"] + 2 * allowance
    pieces = {piece["id"]: piece for piece in cut_from_sheets(plan)}
    for board, outline, spoilt in _boards(plan):
        usable = outline.buffer(TOLERANCE - allowance, join_style="mitre")
        shapes = {name: lying(piece) for name, piece in pieces.items() if piece["on"] == board}
        wrong += [f"{name} is not within {board}" for name, shape in shapes.items() if not usable.covers(shape)]
        for side, fault in spoilt:
            on_it = [name for name, shape in shapes.items() if bites(shape, fault) and _seen(plan, pieces[name], side)]
            wrong += [f"{name} lies on a fault" for name in on_it]
        for (name, shape), (other, neighbour) in combinations(shapes.items(), 2):
            if shape.distance(neighbour) < gap - TOLERANCE or bites(shape, neighbour):
                wrong.append(f"{name} and {other} are not a kerf apart")
    places = {board for board, _, _ in _boards(plan)}
    return wrong + [f"{name} is cut from nowhere" for name, piece in pieces.items() if piece["on"] not in places]


def _seen(plan: Plan, piece: Item, side: str) -> bool:
    """Whether a fault on a face, or through the sheet, is seen on a piece; a strap takes none at all."""
    shows = panels(plan)[piece["part"]]["shows"]
    return piece["kind"] == "strap" or side == "both" or shows == "both" or side == shows


def _areas(plan: Plan) -> list[str]:
    """Add up what is cut, the laps within blanks, and the straps."""
    cut = sum(lying(piece).area for piece in plan["pieces"] if piece["kind"] == "panel")
    parts = sum(outline_of(panel).area * panel["quantity"] for panel in plan["job"]["panels"])
    within = sum(scarf["lap"] * scarf["width"] for blank in plan["blanks"] for scarf in blank["scarfs"])
    straps = sum(lying(piece).area for piece in plan["pieces"] if piece["kind"] == "strap")
    true = {"parts": parts, "laps": cut - parts + within, "straps": straps}
    told = plan["totals"]["areas"]
    return [f"the area of {name} is {area:.1f}" for name, area in true.items() if abs(told[name] - area) > 1]


def _money(plan: Plan) -> list[str]:
    job, totals = plan["job"], plan["totals"]
    stocks = {stock["name"]: stock for stock in (*job["sheets"], *job["lengths"])}
    bought = Counter(used["stock"] for used in plan["used"] if used["source"] == "buy" and used.get("stick", 1) == 1)
    to_pay = sum((_least_paid(stocks[name], count) for name, count in bought.items()), Decimal(0))
    listed = sum((Decimal(line["price"]) * line["count"] for line in plan["purchases"]), Decimal(0))
    scarfs = [scarf for whole in (*plan["blanks"], *plan["long_planks"]) for scarf in whole["scarfs"]]
    joints = sum((Decimal(joint["cost"]) for joint in (*plan["joints"], *scarfs)), Decimal(0))
    wrong = [] if to_pay == Decimal(totals["to_pay"]) else [f"to pay: {to_pay}, not {totals['to_pay']}"]
    wrong += [] if listed == to_pay else [f"what is listed costs {listed}"]
    rack = [used for used in plan["used"] if used["kind"] == "sheet" and used["source"] == "rack"]
    worth = sum((Decimal(stocks[used["stock"]]["price"]) for used in rack), Decimal(0))
    if to_pay + joints + worth - Decimal(totals["offcut_value"]) != Decimal(totals["objective"]):
        wrong.append("the objective does not add up")
    if Decimal(totals["bound"]) > Decimal(totals["objective"]):
        wrong.append("the bound is above the objective")
    return wrong


def _least_paid(stock: Item, used: int) -> Decimal:
    """Return the least that so many cost, or more of them: every number up to the last break is tried."""
    breaks = [(1, Decimal(stock["price"]))]
    breaks += [(step["at_least"], Decimal(step["price"])) for step in stock.get("price_breaks", ())]
    most = max(used, min(breaks[-1][0], stock["available"] or breaks[-1][0]))
    each = {count: min(price for least, price in breaks if least <= count) for count in range(used, most + 1)}
    return min(count * price for count, price in each.items())
