"""Hypothesis strategies for whole small jobs, as the job file would hold them: plain tables, easy to change."""

from typing import Any

from hypothesis import strategies as st

from nesting.model import Job
from tests.strategies import panel_corners, tenths

Table = dict[str, Any]

GRADES = ["exterior", "marine"]
SECTION = [45, 20]

#: An offcut with a broken corner and a knot.
RACK_OUTLINE = [[0, 0], [900, 0], [900, 420], [700, 600], [0, 600]]
KNOT = [[300, 200], [360, 190], [370, 260], [310, 270]]


@st.composite
def jobs(draw: st.DrawFn, *, limited: bool = True, timber: bool = True) -> Table:
    """Return a job of up to five panels and up to four strips, not always one that can be made.

    Parameters
    ----------
    limited : bool
        Whether stock may run out.
    timber : bool
        Whether strips may be asked for.
    """
    panels = [draw(_panels(f"panel {k}")) for k in range(draw(st.integers(1, 5)))]
    strips = [draw(_strips(f"strip {k}")) for k in range(draw(st.integers(0, 4)) if timber else 0)]
    return {
        "grades": GRADES,
        "workshop": draw(_workshops()),
        "joints": {
            "scarf": {"slope": 8, "least_piece": 350, "cost": {"each": "2.00", "per_m": "6.00"}},
            "butt": {"kind": "butt", "strap": 15, "least_piece": 80, "cost": {"each": "1.00", "per_m": "4.00"}},
            "timber": {"slope": 10, "least_piece": 250, "cost": {"each": "1.50"}},
        },
        "sheets": draw(_sheets(limited)),
        "panels": panels,
        "frames": [{"name": "frame", "station": draw(tenths(0, 3500)), "clear": draw(tenths(0, 150))}],
        "neighbours": draw(_neighbours(panels)),
        "lengths": draw(_lengths(limited)),
        "strips": strips,
    }


def job_of(table: Table) -> Job:
    """Return the job that a table describes."""
    return Job.model_validate(table)


def _workshops() -> st.SearchStrategy[Table]:
    return st.fixed_dictionaries(
        {
            "kerf": st.fixed_dictionaries({"sheet": tenths(0, 6), "crosscut": tenths(0, 6)}),
            "trim": tenths(0, 15),
            "allowance": st.sampled_from([0, 0, 0.5, 3]),
            "keep_from": st.sampled_from([(400, 200), (150, 80)]),
            "longest_piece": st.sampled_from([None, None, None, 2000]),
        }
    )


@st.composite
def _panels(draw: st.DrawFn, name: str) -> Table:
    outline = draw(st.one_of(_rectangles(), _hull_panels(), _holed(), _round_ended()))
    handed = draw(st.booleans())
    joint = draw(st.sampled_from(["scarf", "scarf", "butt", None]))
    return {
        "name": name,
        "material": "gaboon",
        "thickness": 6,
        "grade": draw(st.sampled_from([None, *GRADES])),
        "outline": outline,
        "quantity": 2 if handed else draw(st.integers(1, 3)),
        "handed": handed,
        "grain": draw(st.sampled_from(["along", "along", "across", "any"])),
        "shows": draw(st.sampled_from(["both", "both", "good", "none"])),
        "joint": joint,
        "no_joint": draw(_zones()) if joint else [],
        "most_joints": draw(st.sampled_from([None, None, None, 0, 1, 2])),
        "frames": draw(st.sampled_from([[], [], ["frame"]])),
        "boat_stations": draw(st.sampled_from([[], [[0, 100], [3000, 3200]]])),
    }


@st.composite
def _spread(draw: st.DrawFn, least: float, most: float) -> float:
    """Return a figure from a range; plain integers lie at the low end too often to ask for many joints."""
    fifth = (most - least) / 5
    start = least + draw(st.integers(0, 4)) * fifth
    return draw(tenths(start, start + fifth))


def _rectangles() -> st.SearchStrategy[Table]:
    return st.tuples(_spread(60, 3600), tenths(40, 700)).map(lambda sides: _points(_box(0, 0, *sides)))


def _hull_panels() -> st.SearchStrategy[Table]:
    return panel_corners().map(lambda edges: _points([*edges[0], *edges[1][::-1]]))


@st.composite
def _holed(draw: st.DrawFn) -> Table:
    """Return a rectangle with a square or a round hole."""
    length, width, side = draw(_spread(200, 2600)), draw(tenths(120, 600)), draw(tenths(20, 100))
    west, south = draw(tenths(5, length - side - 5)), draw(tenths(5, width - side - 5))
    round_hole = [[west, south + side / 2, 1], [west + side, south + side / 2, 1]]
    hole = draw(st.sampled_from([_box(west, south, side, side), round_hole]))
    return {**_points(_box(0, 0, length, width)), "holes": [hole]}


@st.composite
def _round_ended(draw: st.DrawFn) -> Table:
    """Return a rectangle whose forward end is an arc, convex or hollow."""
    length, width = draw(_spread(300, 2800)), draw(tenths(60, 500))
    bulge = draw(st.sampled_from([-0.4, -0.1, 0.2, 0.8]))
    return _points([(0, 0), (length, 0, bulge), (length, width), (0, width)])


def _points(points: list[Any]) -> Table:
    return {"points": [list(point) for point in points]}


def _box(west: float, south: float, length: float, width: float) -> list[tuple[float, float]]:
    east, north = west + length, south + width
    return [(west, south), (east, south), (east, north), (west, north)]


def _zones() -> st.SearchStrategy[list[list[float]]]:
    return st.lists(
        st.tuples(tenths(0, 3500), tenths(1, 500)).map(lambda zone: [zone[0], zone[0] + zone[1]]), max_size=2
    )


@st.composite
def _neighbours(draw: st.DrawFn, panels: list[Table]) -> list[Table]:
    divided = [panel["name"] for panel in panels if panel["joint"]]
    if len(divided) < 2 or draw(st.booleans()):
        return []
    return [{"between": divided[:2], "shift": draw(tenths(0, 400))}]


@st.composite
def _sheets(draw: st.DrawFn, limited: bool) -> list[Table]:
    ply = {"material": "gaboon", "thickness": 6}
    counts = st.integers(1, 4) if limited else st.none()
    sheets = [
        {**ply, "name": "good", "grade": "marine", "size": [2440, 1220], "price": "84.00", "available": draw(counts)},
        {
            **ply,
            "name": "plain",
            "grade": "exterior",
            "size": [2440, 1220],
            "price": "42.50",
            "available": draw(counts),
        },
        {**ply, "name": "large", "grade": "marine", "size": [3100, 1530], "price": "139.00", "available": draw(counts)},
    ]
    for sheet in sheets:
        sheet["measured"] = draw(st.sampled_from([None, None, 5.7, 6.2]))
        price, from_two = float(sheet["price"]), draw(st.integers(2, 4))
        steps = [{"at_least": from_two, "price": round(price * 0.8, 2)}, {"at_least": 6, "price": round(price / 2, 2)}]
        sheet["price_breaks"] = steps[: draw(st.sampled_from([0, 0, 1, 2]))]
    blemish = {"points": [[600, 300], [700, 300], [700, 420]], "side": draw(st.sampled_from(["good", "back"]))}
    rack = {**ply, "name": "rest", "outline": _points(RACK_OUTLINE), "source": "rack"}
    rack["price"] = draw(st.sampled_from(["0.00", "0.00", "12.50"]))
    rack["faults"] = [{"points": KNOT}, blemish]
    with_rest = [{**rack, "grade": draw(st.sampled_from(GRADES)), "available": draw(st.integers(1, 2))}]
    return sheets[: draw(st.integers(1, 3))] + draw(st.sampled_from([[], with_rest]))


@st.composite
def _strips(draw: st.DrawFn, name: str) -> Table:
    joint = draw(st.sampled_from(["timber", "timber", None]))
    return {
        "name": name,
        "material": "spruce",
        "section": SECTION,
        "length": draw(_spread(200, 5000) if joint else _spread(200, 3650)),
        "quantity": draw(st.integers(1, 3)),
        "joint": joint,
        "no_joint": draw(_zones()) if joint else [],
    }


@st.composite
def _lengths(draw: st.DrawFn, limited: bool) -> list[Table]:
    spruce = {"material": "spruce", "section": SECTION}
    counts = st.sampled_from([None, 2, 5]) if limited else st.none()
    lengths = [
        {**spruce, "name": "short", "length": 3600, "price": "9.80", "available": draw(counts)},
        {**spruce, "name": "long", "length": 4800, "price": "14.20", "available": draw(counts)},
    ]
    return lengths[: draw(st.integers(1, 2))]
