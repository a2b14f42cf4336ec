"""Checks the long planks of a ``plan.json``: glued part by part, ripped, each strip compared with their scarfs."""

from collections.abc import Iterator
from decimal import Decimal
from itertools import pairwise

from .plan_reading import TOLERANCE, Item, Plan


def faults_of_long_planks(plan: Plan) -> list[str]:
    """Return what is wrong with planks that are scarfed before they are ripped."""
    return [wrong for plank in plan["long_planks"] for wrong in (*_glued(plan, plank), *_ripped(plan, plank))]


def sticks_of(plan: Plan) -> dict[str, Item]:
    """Return the long plank of each of its sticks."""
    return {stick["id"]: plank for plank in plan["long_planks"] for stick in plank["sticks"]}


def stock_under(plan: Plan, plank: Item) -> Item:
    """Return the kind of length that a long plank is made of."""
    name = next(used["stock"] for used in plan["used"] if used["id"] == plank["members"][0]["used"])
    return next(length for length in plan["job"]["lengths"] if length["name"] == name)


def _glued(plan: Plan, plank: Item) -> Iterator[str]:
    rule, stock, name = plan["job"]["joints"][plank["joint"]], stock_under(plan, plank), plank["id"]
    lap, sizes = rule["slope"] * stock["section"][1], [part["to"] - part["from"] for part in plank["members"]]
    used = {each["id"]: each for each in plan["used"]}
    if any(used[part["used"]]["stock"] != stock["name"] for part in plank["members"]):
        yield f"{name} is of several kinds of plank"
    if abs(sum(sizes) - lap * (len(sizes) - 1) - plank["length"]) > TOLERANCE:
        yield f"{name} comes out {sum(sizes) - lap * (len(sizes) - 1):g} long"
    true = [sum(sizes[:k]) - lap * (k - 0.5) for k in range(1, len(sizes))]
    told = [scarf["at"] for scarf in plank["scarfs"]]
    if len(true) != len(told) or any(abs(a - b) > TOLERANCE for a, b in zip(true, told, strict=False)):
        yield f"the scarfs of {name} are not where its planks meet"
    cost = float(rule["cost"]["each"]) + float(rule["cost"]["per_m"]) * stock["section"][0] / 1000
    if any(
        abs(scarf["lap"] - lap) > TOLERANCE or abs(float(scarf["cost"]) - cost) > 0.006 for scarf in plank["scarfs"]
    ):
        yield f"the scarfs of {name} don't follow their rule"
    longest = plan["job"]["workshop"]["longest_piece"]
    if longest is not None and plank["length"] > longest + TOLERANCE:
        yield f"{name} is too long to be handled"
    taken = [(p["used"], p["from"], p["to"]) for other in plan["long_planks"] for p in other["members"]]
    kerf = plan["job"]["workshop"]["kerf"]["crosscut"]
    for part in plank["members"]:
        own = sorted((a, b) for on, a, b in taken if on == part["used"])
        whole = used[part["used"]]
        if whole["plank"] is not None or own[0][0] < -TOLERANCE or own[-1][1] > whole["length"] + TOLERANCE:
            yield f"{name} takes more of {part['used']} than there is"
        if any(after[0] - before[1] < kerf - TOLERANCE for before, after in pairwise(own)):
            yield f"parts on {part['used']} are not a kerf apart"
        if any(part["from"] < b - TOLERANCE and part["to"] > a + TOLERANCE for a, b in stock["faults"]):
            yield f"{name} has a fault in it"


def _ripped(plan: Plan, plank: Item) -> Iterator[str]:
    stock, kerf, (width, thickness) = stock_under(plan, plank), plan["job"]["workshop"]["kerf"], plank["section"]
    count = len(plank["sticks"])
    if kerf["rip"] is None or count * width + (count - 1) * kerf["rip"] > stock["section"][0] + TOLERANCE:
        yield f"{plank['id']} does not give its sticks"
    if abs(thickness - stock["section"][1]) > TOLERANCE:
        yield f"the sticks of {plank['id']} are not as thick as it is"
    for stick in plank["sticks"]:
        cut = sorted((p for p in plan["pieces"] if p["on"] == stick["id"]), key=lambda piece: float(piece["from"]))
        if any(b["from"] - a["to"] < kerf["crosscut"] - TOLERANCE for a, b in pairwise(cut)):
            yield f"strips from {stick['id']} are not a kerf apart"
        for piece in cut:
            yield from _strip(plan, plank, stick, piece)


def _strip(plan: Plan, plank: Item, stick: Item, piece: Item) -> Iterator[str]:
    """Turn the places of scarfs into stations of the strip, and compare these with what is told."""
    strip = next(each for each in plan["job"]["strips"] if each["name"] == piece["part"])
    if piece["from"] < -TOLERANCE or piece["to"] > plank["length"] + TOLERANCE or strip["section"] != plank["section"]:
        yield f"{piece['id']} is not to be had from {stick['id']}"
    true = []
    for scarf in plank["scarfs"]:
        low, high = scarf["at"] - scarf["lap"] / 2, scarf["at"] + scarf["lap"] / 2
        if low < piece["to"] - TOLERANCE and high > piece["from"] + TOLERANCE:
            true.append((piece["to"] - scarf["at"] if stick["turned"] else scarf["at"] - piece["from"], scarf["id"]))
            if low < piece["from"] - TOLERANCE or high > piece["to"] + TOLERANCE or strip["joint"] != plank["joint"]:
                yield f"{piece['id']} has a share of scarf {scarf['id']} that it may not have"
    own = [j for j in plan["joints"] if (j["part"], j["copy"]) == (piece["part"], piece["copy"])]
    told = sorted((joint["station"], joint["scarf"]) for joint in own)
    if len(told) != len(true) or any(
        abs(a - b) > TOLERANCE or one != other for (a, one), (b, other) in zip(told, sorted(true), strict=False)
    ):
        yield f"the joints of {piece['id']} are not where scarfs run across it"
    if any(Decimal(joint["cost"]) for joint in own):
        yield f"joints of {piece['id']} are paid for twice"
