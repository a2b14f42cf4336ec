"""Each hint is given where its slip is, and not where it is not."""

from pathlib import Path
from typing import Any

import pytest

from nesting.files import read_job
from nesting.model import Job
from nesting.planner import hints
from nesting.starters import JOB_FILE, STARTERS, starter_files
from tests.jobs import PLY, SCARF, job, panel

SPRUCE = {"name": "spruce", "material": "spruce", "section": [45, 20], "length": 3600, "price": 9}
OFFCUT = {key: value for key, value in PLY.items() if key != "size"} | {
    "name": "offcut",
    "outline": {"rectangle": [900, 400]},
}


def batten(**more: Any) -> dict[str, Any]:
    """Return a strip of spruce."""
    return {"name": "batten", "material": "spruce", "section": [45, 20], "length": 3000, **more}


def codes(asked: Job) -> list[str]:
    """Return the codes of all hints on a job."""
    return [hint.code for hint in hints(asked)]


def shelf_from(*sheets: dict[str, Any], **more: Any) -> Job:
    """Return a job of one shelf from given sheets."""
    return job(panel("shelf", 800, 300), sheets=sheets, **more)


@pytest.mark.parametrize("name", STARTERS)
def test_no_starter_has_a_slip(name: str, tmp_path: Path) -> None:
    """They are to be learnt from."""
    for file, text in starter_files(name).items():
        (tmp_path / file).write_text(text, encoding="utf-8")
    assert hints(read_job(tmp_path / JOB_FILE)) == ()


def test_every_hint_is_marked_and_says_what_would_help() -> None:
    """So that it can be told from a problem, and led back to its place."""
    slips = shelf_from({**PLY, "price": 0}, {**OFFCUT, "thickness": 9}, workshop={"kerf": 0})
    told = hints(slips)
    assert {hint.code for hint in told} == {"hint-kerf", "hint-price", "hint-available", "hint-unused"}
    assert all(hint.reason and hint.remedy and hint.where and hint.path for hint in told)


@pytest.mark.parametrize(
    ("units", "size", "told"),
    [
        ("in", [96, 48], False),
        ("in", [2440, 1220], True),
        ("in", ["2440 mm", "1220 mm"], False),
        ("mm", [96, 48], True),
        ("mm", [299, 299], True),
        ("mm", [300, 200], False),
        ("mm", [25_000, 1220], False),
        ("m", [244, 122], True),
        ("m", [2.44, 1.22], False),
    ],
)
def test_sizes_in_the_wrong_units_are_hinted_at(units: str, size: list[Any], told: bool) -> None:
    """A sheet of 2440 inches, and one of 96 mm; 25 m is the limit, or 300 mm."""
    sheet = {**PLY, "thickness": "6 mm", "size": size}
    part = {**panel("shelf", 0.1, 0.1), "thickness": "6 mm"}
    found = codes(job(part, sheets=(sheet,), units=units, workshop={"kerf": 0.1, "trim": "1 mm"}))
    assert ("hint-units" in found) is told


@pytest.mark.parametrize(("length", "told"), [(12 * 25.4, False), (144, True), (30_000, True)])
def test_lengths_of_timber_in_the_wrong_units_are_hinted_at(length: float, told: bool) -> None:
    """As with sheets."""
    found = codes(job(sheets=(), lengths=[{**SPRUCE, "length": length}], strips=[batten(length=100)]))
    assert ("hint-units" in found) is told


@pytest.mark.parametrize(("trim", "told"), [(0, False), (10, False), (100, False), (120, True), (609, True)])
def test_a_trim_of_more_than_a_quarter_is_hinted_at(trim: float, told: bool) -> None:
    """Of 2440 x 1220 a trim of 100 leaves 76.8 %, one of 120 leaves 72.4 %."""
    assert ("hint-trim" in codes(shelf_from(PLY, workshop={"trim": trim}))) is told


def test_a_trim_that_leaves_nothing_is_no_hint() -> None:
    """It is a problem, and told as one."""
    assert "hint-trim" not in codes(shelf_from(PLY, workshop={"trim": 610}))


@pytest.mark.parametrize(("least", "told"), [(450, False), (48, False), (47, True)])
def test_a_lap_longer_than_the_least_piece_is_hinted_at(least: float, told: bool) -> None:
    """In 6 mm plywood at 8:1 the lap is 48 mm."""
    long = panel("side", 4000, 300, joint="scarf")
    found = codes(_joined(long, least))
    assert ("hint-lap" in found) is told


@pytest.mark.parametrize(("least", "told"), [(300, False), (90, False), (89, True)])
def test_a_strap_longer_than_the_least_piece_is_hinted_at(least: float, told: bool) -> None:
    """In 6 mm plywood a strap of 15 times the thickness is 90 mm."""
    butt = {"kind": "butt", "least_piece": least}
    asked = job(panel("side", 4000, 300, joint="butt"), joints={"butt": butt})
    assert ("hint-strap" in codes(asked)) is told


def _joined(part: dict[str, Any], least: float) -> Job:
    joints = {"scarf": {**SCARF, "least_piece": least}}
    return Job.model_validate({"joints": joints, "sheets": [PLY], "panels": [part]})


def test_a_joint_that_nothing_uses_is_no_slip() -> None:
    """Its lap is unknown."""
    assert "hint-lap" not in codes(_joined(panel("shelf", 800, 300), 1))


def test_a_strips_lap_is_measured_by_its_thickness() -> None:
    """8 x 20 mm, not 8 x 45 mm."""
    for least, told in ((160, False), (159, True)):
        asked = Job.model_validate(
            {"joints": {"scarf": {"least_piece": least}}, "lengths": [SPRUCE], "strips": [batten(joint="scarf")]}
        )
        assert ("hint-lap" in codes(asked)) is told


def test_stock_to_be_bought_without_a_price_is_hinted_at() -> None:
    """What is on the rack costs nothing."""
    unpriced = {key: value for key, value in PLY.items() if key != "price"}
    assert "hint-price" in codes(shelf_from(unpriced))
    assert "hint-price" not in codes(shelf_from({**unpriced, "source": "rack", "available": 1}))
    assert "hint-price" not in codes(shelf_from(PLY))


@pytest.mark.parametrize(("station", "told"), [(900, False), (3040, False), (3060, True), (90, True)])
def test_a_frame_beyond_the_panel_that_names_it_is_hinted_at(station: int, told: bool) -> None:
    """The panel runs from 150 to 3000 along the boat, and the frame is 50 clear."""
    side = panel("side", 2850, 300, joint="scarf", frames=["frame"], boat_stations=[[0, 150], [2850, 3000]])
    asked = job(side, frames=[{"name": "frame", "station": station, "clear": 50}])
    assert ("hint-frame" in codes(asked)) is told


@pytest.mark.parametrize(("available", "told"), [(None, False), (10, False), (9, True)])
def test_a_price_break_beyond_what_is_there_is_hinted_at(available: int | None, told: bool) -> None:
    """From ten on, where nine are there."""
    broken = {**PLY, "price_breaks": [{"at_least": 10, "price": "70.00"}], "available": available}
    assert ("hint-break" in codes(shelf_from(broken))) is told


@pytest.mark.parametrize(
    ("sheet", "told"),
    [
        (OFFCUT, True),
        ({**OFFCUT, "available": 1}, False),
        ({**PLY, "source": "rack"}, True),
        ({**PLY, "source": "rack", "available": 2}, False),
        (PLY, False),
    ],
)
def test_an_offcut_without_a_number_is_hinted_at(sheet: dict[str, Any], told: bool) -> None:
    """Offcuts, and whatever is on the rack, are counted; whole sheets are bought as needed."""
    assert ("hint-available" in codes(shelf_from(sheet))) is told


def test_the_dearer_of_two_equal_stocks_is_hinted_at() -> None:
    """Once, and by name."""
    found = [hint for hint in hints(shelf_from({**PLY, "name": "dear", "price": 90}, PLY)) if hint.code == "hint-twin"]
    assert [(hint.path, '"ply"' in hint.reason) for hint in found] == [(("sheets", 0), True)]


def test_the_second_of_two_stocks_equal_in_price_too_is_hinted_at() -> None:
    """Only that one."""
    found = [hint.path for hint in hints(shelf_from(PLY, {**PLY, "name": "again"})) if hint.code == "hint-twin"]
    assert found == [("sheets", 1)]


@pytest.mark.parametrize(
    ("cheap", "dear"),
    [({"available": 3}, {}), ({}, {"size": [2500, 1250]}), ({}, {"grade": "marine"}), ({}, {"source": "rack"})],
)
def test_a_dearer_stock_that_may_be_needed_is_no_slip(cheap: dict[str, Any], dear: dict[str, Any]) -> None:
    """If the cheaper one is limited, or if they differ in more than the price."""
    both = shelf_from({**PLY, **cheap}, {**PLY, "name": "dear", "price": 90, **dear}, grades=["marine"])
    assert "hint-twin" not in codes(both)


@pytest.mark.parametrize(
    ("measured", "joint", "told"),
    [(5.6, "scarf", True), (5.8, "scarf", False), (None, "scarf", False), (5.6, None, False)],
)
def test_sheets_of_uneven_thickness_in_one_joint_are_hinted_at(
    measured: float | None, joint: str | None, told: bool
) -> None:
    """Of 6 mm the one, and 0.4 or 0.2 mm thinner the other; where nothing is joined they never meet."""
    thin = {**PLY, "name": "thin", "size": [2500, 1250]} | ({"measured": measured} if measured else {})
    side = panel("side", 4000, 300, **({"joint": joint} if joint else {}))
    found = [hint for hint in hints(job(side, sheets=(PLY, thin))) if hint.code == "hint-uneven"]
    assert [hint.path for hint in found] == [("sheets", 1)] * told
    assert all('0.4 mm thinner than "ply"' in hint.reason for hint in found)


def test_stock_that_no_part_can_use_is_hinted_at() -> None:
    """Of another thickness, or too poor; timber of another section."""
    useless = shelf_from(PLY, {**PLY, "name": "nine", "thickness": 9})
    assert [hint.path for hint in hints(useless) if hint.code == "hint-unused"] == [("sheets", 1)]
    fine = panel("shelf", 800, 300, grade="marine")
    poor = job(
        fine, sheets=({**PLY, "grade": "poor"}, {**PLY, "name": "good", "grade": "marine"}), grades=["poor", "marine"]
    )
    assert [hint.path for hint in hints(poor) if hint.code == "hint-unused"] == [("sheets", 0)]
    timber = job(sheets=(), lengths=[SPRUCE, {**SPRUCE, "name": "thin", "section": [45, 15]}], strips=[batten()])
    assert [hint.path for hint in hints(timber) if hint.code == "hint-unused"] == [("lengths", 1)]


@pytest.mark.parametrize(
    ("kerf", "asked", "told"),
    [
        (0, ("panels",), True),
        (0, ("strips",), True),
        ({"sheet": 0, "crosscut": 3}, ("panels",), True),
        ({"sheet": 0, "crosscut": 3}, ("strips",), False),
        ({"sheet": 2, "crosscut": 0}, ("panels",), False),
        ({"sheet": 2, "crosscut": 0}, ("panels", "strips"), True),
        (2, ("panels", "strips"), False),
    ],
)
def test_a_kerf_of_nothing_is_hinted_at(kerf: Any, asked: tuple[str, ...], told: bool) -> None:
    """Where something is sawn with that saw."""
    parts = {"panels": [panel("shelf", 800, 300)], "strips": [batten()]}
    made = Job.model_validate(
        {"workshop": {"kerf": kerf}, "sheets": [PLY], "lengths": [SPRUCE], **{kind: parts[kind] for kind in asked}}
    )
    assert codes(made).count("hint-kerf") == told


@pytest.mark.parametrize(
    ("length", "more", "told"),
    [
        (2420, {}, True),
        (2421, {}, False),
        (1200, {"grain": "across"}, True),
        (1201, {"grain": "across"}, False),
        (2000, {"grain": "any"}, True),
        (2000, {"workshop": {"longest_piece": 1900}}, False),
    ],
)
def test_a_joint_that_is_never_needed_is_hinted_at(length: float, more: dict[str, Any], told: bool) -> None:
    """Of a panel no longer than the longest piece that trimmed sheets give, along its grain."""
    workshop = more.pop("workshop", {}) if "workshop" in more else {}
    found = codes(job(panel("side", length, 300, joint="scarf", **more), workshop=workshop))
    assert ("hint-joint" in found) is told
    assert "hint-joint" not in codes(job(panel("side", 800, 300)))


@pytest.mark.parametrize(
    ("zone", "told"), [([800, 900], True), ([-100, 0], True), ([700, 900], False), ([-100, 10], False)]
)
def test_a_zone_beyond_its_part_is_hinted_at(zone: list[float], told: bool) -> None:
    """One that only reaches over an end is not."""
    assert ("hint-zone" in codes(job(panel("shelf", 800, 300, no_joint=[zone])))) is told
    timber = job(sheets=(), lengths=[SPRUCE], strips=[batten(length=800, no_joint=[zone])])
    assert ("hint-zone" in codes(timber)) is told


def test_an_outline_that_is_no_outline_keeps_no_hint_back() -> None:
    """It is told as a problem; what else looks like a slip is still hinted at."""
    bow_tie = {
        **panel("tie", 1, 1, joint="scarf", no_joint=[[900, 999]]),
        "outline": {"points": [[0, 0], [9, 9], [9, 0], [0, 9]]},
    }
    assert codes(job(bow_tie, workshop={"kerf": 0})) == ["hint-kerf"]
