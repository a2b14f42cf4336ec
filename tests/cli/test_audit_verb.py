"""``nesting audit`` says whether a plan is right, and its exit status says so too."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from command_runs import TRAY, apart, here, plan_of, written

STRIP = """
[[lengths]]
name = "spruce"
material = "spruce"
section = [45, 20]
length = 2400
price = 7.85

[[strips]]
name = "cleat"
material = "spruce"
section = [45, 20]
length = 1000
"""


@pytest.fixture(scope="module")
def plan_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the output folder of a plan with panels and a strip."""
    folder = tmp_path_factory.mktemp("audited")
    done = here("plan", written(folder, TRAY + STRIP), "--out", folder / "plan", "--work", 0)
    assert done.exit_code == 0, done.stderr
    return folder / "plan"


def panel_piece(plan: Any) -> Any:
    """Return the first piece of a panel."""
    return next(piece for piece in plan["pieces"] if piece["kind"] == "panel")


def moved_off_its_sheet(plan: Any) -> None:
    """Move a piece three metres along, outline and all."""
    piece = panel_piece(plan)
    piece["x"] += 3000
    piece["outline"] = [[x + 3000, y] for x, y in piece["outline"]]


def cheaper_than_it_is(plan: Any) -> None:
    """Take ten off what is to be paid."""
    plan["totals"]["to_pay"] = f"{float(plan['totals']['to_pay']) - 10:.2f}"


def without_its_strip(plan: Any) -> None:
    """Leave the strip out."""
    plan["pieces"] = [piece for piece in plan["pieces"] if piece["kind"] == "panel"]


def for_another_job(plan: Any) -> None:
    """Ask for one more panel than was planned."""
    plan["job"]["panels"][0]["quantity"] = 3


DAMAGES: list[tuple[Callable[[Any], None], str]] = [
    (moved_off_its_sheet, "outside-sheet"),
    (cheaper_than_it_is, "wrong-total"),
    (without_its_strip, "missing-copy"),
    (for_another_job, "wrong-hash"),
]


def damaged(plan_folder: Path, place: Path, damage: Callable[[Any], None]) -> Path:
    """Return a copy of the plan file with a damage done to it."""
    plan = plan_of(plan_folder)
    damage(plan)
    place.write_text(json.dumps(plan), encoding="utf-8")
    return place


def test_a_good_plan_passes(plan_folder: Path) -> None:
    """Status 0, with the outcome in one line."""
    done = apart("audit", plan_folder / "plan.json")
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.startswith("nothing wrong: 1 sheets, 1 lengths, 0 joints: 71.95 EUR to pay")


@pytest.mark.parametrize(("damage", "code"), DAMAGES)
def test_a_damaged_plan_is_found_out(
    plan_folder: Path, tmp_path: Path, damage: Callable[[Any], None], code: str
) -> None:
    """Status 4, and each finding on a line of its own with its code."""
    file = damaged(plan_folder, tmp_path / "plan.json", damage)
    done = here("audit", file)
    assert (done.exit_code, done.stdout) == (4, "")
    lines = done.stderr.splitlines()
    assert all(line.startswith(f"nesting: {file}: ") for line in lines)
    assert any(code in line for line in lines), lines


def test_the_process_ends_with_status_4(plan_folder: Path, tmp_path: Path) -> None:
    """As a shell sees it."""
    done = apart("audit", damaged(plan_folder, tmp_path / "plan.json", moved_off_its_sheet))
    assert (done.returncode, done.stdout) == (4, "")
    assert "outside-sheet" in done.stderr


@pytest.mark.parametrize("text", ["", "{}", "[1]", "a boat", TRAY])
def test_what_is_no_plan_is_refused(tmp_path: Path, text: str) -> None:
    """Status 2 and one line."""
    file = tmp_path / "plan.json"
    file.write_text(text)
    done = here("audit", file)
    assert (done.exit_code, done.stdout) == (2, "")
    assert done.stderr.startswith(f"nesting: {file}: ")
    assert done.stderr.count("\n") == 1


def test_a_plan_that_is_not_there_is_refused(tmp_path: Path) -> None:
    """Nothing of that name, or a folder."""
    for place in (tmp_path / "none.json", tmp_path):
        done = here("audit", place)
        assert done.exit_code == 2
        assert done.stderr.startswith(f"nesting: {place}: file: ")
