"""Each rule for panels in a form that can't hold, alone and with every other: all are told, each in one line."""

from dataclasses import dataclass
from itertools import combinations
from pathlib import Path

import pytest
from command_runs import PLY, here, panel, table, written

#: What a sound job begins with; rules that can't hold are added to it, each with a panel, joint or sheet of its own.
HEAD = """\
grades = ["exterior", "marine"]

[workshop]
way = "divided"

[joints.scarf]
least_piece = 450
"""
SOUND = HEAD + PLY.rstrip("\n") + '\ngrade = "exterior"\n' + panel("shelf", 800, 300)


def sheet(name: str, *more: str) -> str:
    """Return a sheet's table; no panel asks for its material but those that say so."""
    return table("sheets", f'name = "{name}"', f'material = "{name}"', "thickness = 6", *more)


@dataclass(frozen=True)
class Broken:
    """Tables with a rule that can't hold: the code, place, reason and remedy that are told of it."""

    text: str
    code: str
    where: str
    reason: str
    remedy: str


SIZE = "size = [2440, 1220]"

#: What can't be read: ``plan`` and ``check`` end with status 2.
UNREADABLE = {
    "a zone that runs back": Broken(
        panel("back", 3000, 300, 'joint = "scarf"', "no_joint = [[900, 400]]"),
        "empty-zone",
        'panel "back"',
        "the no-joint zone from 900 to 400 does not run forward",
        "Write each zone as [from, to] with from below to.",
    ),
    "a least piece of nothing": Broken(
        "\n[joints.none]\nleast_piece = 0\n",
        "bad-value",
        "joints, none, least_piece",
        "it must be more than 0",
        "Correct",
    ),
    "a slope that holds nothing": Broken(
        "\n[joints.steep]\nslope = 3\n", "bad-value", "joints, steep, slope", "it must be 4 or more", "Correct"
    ),
    "a butt with a slope": Broken(
        '\n[joints.mixed]\nkind = "butt"\nslope = 8\n',
        "bad-value",
        "joints, mixed",
        "a butt has no slope: leave it out",
        "Correct",
    ),
    "a joint that is not described": Broken(
        panel("glued", 3000, 300, 'joint = "scarff"'),
        "unknown-joint",
        'panel "glued"',
        'joint "scarff" is not described',
        'Did you mean "scarf"?',
    ),
    "a grade that is not listed": Broken(
        panel("graded", 800, 300, 'grade = "marin"'),
        "unknown-grade",
        'panel "graded"',
        'grade "marin" is not among grades',
        'Did you mean "marine"?',
    ),
    "a tolerance beyond any": Broken(
        panel("askew", 800, 300, "grain_tolerance = 25"),
        "bad-value",
        'panel "askew", grain_tolerance',
        "it must be 20 or less",
        "Correct",
    ),
    "a grain that is none": Broken(
        panel("grained", 800, 300, 'grain = "diagonal"'), "bad-value", 'panel "grained", grain', "'across'", "Correct"
    ),
    "an odd pair": Broken(
        panel("odd", 800, 300, "handed = true", "quantity = 3"),
        "odd-pair",
        'panel "odd"',
        "it is handed, yet its quantity is 3",
        "make it even",
    ),
    "a shift below nothing": Broken(
        panel("left", 900, 300)
        + panel("right", 900, 300)
        + '\n[[neighbours]]\nbetween = ["left", "right"]\nshift = -1\n',
        "bad-value",
        "neighbours no. 1, shift",
        "it must be 0 or more",
        "Correct",
    ),
    "a neighbour that is not there": Broken(
        panel("alone", 900, 300) + '\n[[neighbours]]\nbetween = ["alone", "nobody"]\nshift = 100\n',
        "unknown-neighbour",
        'neighbours "alone" and "nobody"',
        'there is no panel or strip "nobody"',
        "Name two panels or two strips of this job.",
    ),
    "its own neighbour": Broken(
        panel("own", 900, 300) + '\n[[neighbours]]\nbetween = ["own", "own"]\nshift = 100\n',
        "own-neighbour",
        'neighbours "own" and "own"',
        "a panel can't be its own neighbour",
        "Name two different panels.",
    ),
    "boat stations that fall": Broken(
        panel("mapped", 900, 300, "boat_stations = [[0, 500], [900, 100]]"),
        "boat-stations",
        'panel "mapped"',
        "two rows or more, both columns rising",
        "each larger than the last",
    ),
    "joints below none": Broken(
        panel("few", 900, 300, "most_joints = -1"),
        "bad-value",
        'panel "few", most_joints',
        "it must be 0 or more",
        "Correct",
    ),
    "a frame that is not there": Broken(
        panel("framed", 900, 300, 'frames = ["frame 9"]'),
        "unknown-frame",
        'panel "framed"',
        'there is no frame "frame 9"',
        "Add it to [[frames]]",
    ),
    "a frame too clear of itself": Broken(
        '\n[[frames]]\nname = "frame"\nstation = 900\nclear = -5\n',
        "bad-value",
        'frame "frame", clear',
        "it must be 0 or more",
        "Correct",
    ),
    "a price that rises with the number": Broken(
        sheet("dear", SIZE, "price = 60", "price_breaks = [{ at_least = 5, price = 70 }]"),
        "bad-value",
        'sheet "dear"',
        "costs 70.00 from 5 on, yet 60.00 from 1 on",
        "Correct",
    ),
    "a price break on the rack": Broken(
        sheet("racked", SIZE, 'source = "rack"', "price = 60", "price_breaks = [{ at_least = 5, price = 50 }]"),
        "bad-value",
        'sheet "racked"',
        "leave price_breaks out",
        "Correct",
    ),
    "a fault on no face": Broken(
        sheet("faulty", SIZE, 'faults = [{ points = [[0, 0], [9, 0], [0, 9]], side = "left" }]'),
        "bad-value",
        'sheet "faulty", faults, no. 1, side',
        "'good'",
        "Correct",
    ),
    "no sheet at all": Broken(
        sheet("gone", SIZE, "available = 0"),
        "bad-value",
        'sheet "gone", available',
        "it must be 1 or more",
        "Correct",
    ),
    "a sheet of two shapes": Broken(
        sheet("both", SIZE, "outline = { rectangle = [900, 400] }"),
        "bad-value",
        'sheet "both"',
        "needs either size = [length, width] or an outline, and not both",
        "Correct",
    ),
    "a thickness measured as nothing": Broken(
        sheet("thin", SIZE, "measured = 0"), "bad-value", 'sheet "thin", measured', "it must be more than 0", "Correct"
    ),
    "a face that is none": Broken(
        panel("faced", 800, 300, 'shows = "front"'), "bad-value", 'panel "faced", shows', "'none'", "Correct"
    ),
    "a knot as large as the sheet": Broken(
        sheet("knotted", SIZE, "faults = [{ points = [[0, 0], [2440, 0], [2440, 1220], [0, 1220]] }]"),
        "all-fault",
        'sheet "knotted"',
        "its faults leave nothing of it",
        "Correct the faults",
    ),
    "a crossing outline": Broken(
        panel("crossed", 1, 1).replace("rectangle = [1, 1]", "points = [[0, 0], [500, 200], [500, 0], [0, 200]]"),
        "self-crossing",
        'panel "crossed", outline',
        "",
        "",
    ),
}

#: What can be read and yet not be made: ``plan`` ends with status 3, ``check`` with 2.
IMPOSSIBLE = {
    "a zone over everything": Broken(
        panel("barred", 3000, 300, 'joint = "scarf"', "no_joint = [[0, 3000]]"),
        "no-station",
        'panel "barred"',
        "no-joint zones (0 to 3000) and a least piece of 450 leave no station",
        "end the no-joint zone 0 to 3000 at 2372 (628 earlier)",
    ),
    "a frame in the way": Broken(
        '\n[[frames]]\nname = "web"\nstation = 1500\nclear = 1200\n'
        + panel("webbed", 3000, 300, 'joint = "scarf"', 'frames = ["web"]'),
        "no-station",
        'panel "webbed"',
        'no-joint zones (300 to 2700 about frame "web")',
        'start the no-joint zone 300 to 2700 about frame "web" at 628 (328 later)',
    ),
    "pieces longer than half": Broken(
        "\n[joints.long]\nleast_piece = 1600\n" + panel("halved", 3000, 300, 'joint = "long"'),
        "no-station",
        'panel "halved"',
        "a least piece of 1600 leave no station",
        "allow pieces of 1500 (now 1600), with 1 joint",
    ),
    "more joints than it may have": Broken(
        panel("endless", 6000, 300, 'joint = "scarf"', "most_joints = 1"),
        "no-station",
        'panel "endless"',
        "where it may have 1 joint at the most",
        "allow 2 joints (now 1), with 2 joints",
    ),
    "too large for one piece": Broken(
        panel("huge", 3000, 300),
        "too-large",
        'panel "huge"',
        "in one piece it is 3000.0 x 300.0, grain along, and fits no sheet (usable: 2420 x 1200)",
        "Give it a joint",
    ),
    "wider than any sheet": Broken(
        panel("broad", 3000, 1500, 'joint = "scarf"'),
        "too-wide",
        'panel "broad"',
        "it is 1500.0 high over all; the widest sheet leaves 1200.0",
        'write way = "both"',
    ),
    "no sheet of its thickness": Broken(
        panel("thick", 800, 300).replace("thickness = 6", "thickness = 9"),
        "no-stock",
        'panel "thick"',
        "there is no sheet of gaboon 9 mm",
        "Add one to [[sheets]]",
    ),
    "no sheet of its grade": Broken(
        panel("fine", 800, 300, 'grade = "marine"'),
        "no-grade",
        'panel "fine"',
        'no sheet of gaboon 6 mm has grade "marine" or better',
        "ask for a grade that is there: exterior",
    ),
    "too little of it": Broken(
        sheet("oak", SIZE, "available = 1") + panel("floor", 2000, 1000, "quantity = 2").replace('"gaboon"', '"oak"'),
        "too-little-stock",
        "sheets of oak 6 mm",
        "stock runs out",
        'it takes at least 1 more of "oak"',
    ),
    "a knot on most of the sheet": Broken(
        sheet("knotty", SIZE, "faults = [{ points = [[0, 0], [2440, 0], [2440, 1000], [0, 1000]] }]", "available = 1")
        + panel("knot", 800, 300).replace('"gaboon"', '"knotty"'),
        "stock-ran-out",
        'panel "knot"',
        "found no room on the sheets there are (knotty); that none was found proves nothing",
        "Raise available, or add another sheet.",
    ),
    "joints that can't keep apart": Broken(
        panel("bilge", 2800, 300, 'joint = "scarf"')
        + panel("sheer", 2800, 300, 'joint = "scarf"')
        + '\n[[neighbours]]\nbetween = ["bilge", "sheer"]\nshift = 2000\n',
        "shift",
        "neighbours",
        'joints of "bilge" and "sheer" are 2000 apart',
        "Any one of these helps",
    ),
}

ALL = {**UNREADABLE, **IMPOSSIBLE}


def told(stderr: str, code: str) -> list[str]:
    """Return the lines that end with a code."""
    return [line for line in stderr.splitlines() if line.endswith(f"[{code}]")]


def assert_told(stderr: str, broken: Broken, file: Path) -> None:
    """Make sure that one line says of a rule where in the file it stands, why it can't hold, and what to do."""
    there = [line for line in told(stderr, broken.code) if f": {broken.where}: " in line]
    assert len(there) == 1, stderr
    start, _, reason = there[0].partition(f": {broken.where}: ")
    assert start.startswith(f"nesting: {file}:")
    assert int(start.rpartition(":")[2]) >= 1
    assert broken.reason in reason
    assert broken.remedy in reason
    assert ". " in reason  # reason and remedy are sentences of their own


@pytest.mark.parametrize("name", ALL)
def test_a_rule_that_cannot_hold_is_told(name: str, tmp_path: Path) -> None:
    """By ``check``, and by ``plan``, which writes nothing and ends with 2 or 3."""
    file = written(tmp_path, SOUND + ALL[name].text)
    checked = here("check", file)
    assert (checked.exit_code, checked.stdout) == (2, "")
    assert_told(checked.stderr, ALL[name], file)
    planned = here("plan", file, "--out", tmp_path / "plan", "--work", 0)
    assert (planned.exit_code, planned.stdout) == (2 if name in UNREADABLE else 3, "")
    assert_told(planned.stderr, ALL[name], file)
    assert list(tmp_path.iterdir()) == [file]


#: Where a sheet can't be read, nothing is said of the shapes of panels and sheets, or of what could be made.
OF_STOCK = [name for name, broken in UNREADABLE.items() if broken.code == "bad-value" and "sheet " in broken.where]
JUDGED = ["a knot as large as the sheet", "a crossing outline", *IMPOSSIBLE]


@pytest.mark.parametrize("pair", list(combinations(ALL, 2)), ids=" and ".join)
def test_two_rules_that_cannot_hold_are_both_told(pair: tuple[str, str], tmp_path: Path) -> None:
    """By ``check``: neither hides the other, but for sheets that can't be read, without which panels aren't judged."""
    file = written(tmp_path, SOUND + "".join(ALL[name].text for name in pair))
    checked = here("check", file)
    assert (checked.exit_code, checked.stdout) == (2, "")
    hidden = any(name in OF_STOCK for name in pair) and any(name in JUDGED for name in pair)
    lines = checked.stderr.splitlines()
    assert len(lines) == 1 if hidden else len(lines) >= 2
    for name in pair:
        if not (hidden and name in JUDGED):
            assert_told(checked.stderr, ALL[name], file)
