"""The schemas take what is read and written, and refuse what is not known."""

import copy
import json
import tomllib
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from nesting.effort import Budget, Effort
from nesting.files import job_schema, plan_json, plan_schema, read_job
from nesting.planner import plan
from nesting.starters import JOB_FILE, STARTERS, starter_files

JOBS, PLANS = Draft202012Validator(job_schema()), Draft202012Validator(plan_schema())

PLY = {"name": "ply", "material": "gaboon", "thickness": 6, "size": [2440, 1220], "price": 84.5}
SHELF = {"name": "shelf", "material": "gaboon", "thickness": 6, "outline": {"rectangle": [800, 300]}}
SMALL: dict[str, Any] = {"workshop": {"kerf": 3}, "joints": {"scarf": {}}, "sheets": [PLY], "panels": [SHELF]}


def with_panel(**more: Any) -> dict[str, Any]:
    """Return a small job whose panel has other values."""
    return {**SMALL, "panels": [{**SHELF, **more}]}


@pytest.fixture(scope="module")
def written(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    """Return a plan of the skiff as its file holds it."""
    folder: Path = tmp_path_factory.mktemp("skiff")
    for file, text in starter_files("skiff").items():
        (folder / file).write_text(text, encoding="utf-8")
    made: dict[str, Any] = json.loads(plan_json(plan(read_job(folder / JOB_FILE), effort=Effort(Budget(work=0)))))
    return made


@pytest.mark.parametrize("schema", [job_schema(), plan_schema()], ids=["job", "plan"])
def test_a_schema_is_one_of_draft_2020_12(schema: dict[str, Any]) -> None:
    """It says so, holds to it, and has no words of our own in it."""
    assert schema["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    Draft202012Validator.check_schema(schema)
    assert not {f'"{word}":' for word in ("ge", "gt", "le", "lt", "max_digits")} & set(json.dumps(schema).split())


@pytest.mark.parametrize("name", STARTERS)
def test_a_starter_is_a_job_by_the_schema(name: str) -> None:
    """As its file stands, with the names of its tables of offsets."""
    JOBS.validate(tomllib.loads(starter_files(name)[JOB_FILE]))


@pytest.mark.parametrize(
    "data",
    [
        SMALL,
        {**SMALL, "workshop": {"kerf": {"sheet": "2 mm"}, "keep_from": ["1' 3\"", 200]}},
        {**SMALL, "sheets": [{**PLY, "price": "84.50"}]},
        with_panel(outline={"points": [[0, 0], [900, 0, 0.2], ["90 cm", 300]]}),
        with_panel(outline={"rectangle": ["7' 6 1/2\"", 300], "marks": [{"points": [[0, 0]], "text": "x"}]}),
        with_panel(outline={"offsets": "side.csv"}),
        with_panel(thickness="1/4 in"),
    ],
)
def test_every_form_that_is_read_is_in_the_schema(data: dict[str, Any]) -> None:
    """Texts as lengths, money as number or text, and the outlines' shorter forms."""
    JOBS.validate(data)


@pytest.mark.parametrize(
    "data",
    [
        {**SMALL, "colour": "red"},
        {**SMALL, "workshop": {"kurf": 3}},
        {**SMALL, "workshop": {"kerf": {"band": 3}}},
        {**SMALL, "workshop": {"kerf": -1}},
        {**SMALL, "joints": {"scarf": {"slop": 8}}},
        {**SMALL, "joints": {" scarf": {}}},
        {**SMALL, "joints": {"scarf": {"slope": 3}}},
        {**SMALL, "joints": {"scarf": {"slope": "8"}}},
        {**SMALL, "sheets": [{**PLY, "price": "cheap"}]},
        {**SMALL, "sheets": [{**PLY, "size": [2440]}]},
        {**SMALL, "sheets": [{**PLY, "outline": {"offsets": "offcut.csv"}}]},
        {**SMALL, "units": "yd"},
        with_panel(thicknes=6),
        with_panel(thickness=0),
        with_panel(thickness="thick"),
        with_panel(thickness=True),
        with_panel(quantity=0),
        with_panel(outline={"rectangle": [800, 300], "points": [[0, 0], [1, 0], [0, 1]]}),
        with_panel(outline={"offsets": "side.csv", "rectangle": [800, 300]}),
        with_panel(outline={"rectangle": [800, 0]}),
    ],
)
def test_what_is_not_read_is_not_in_the_schema(data: dict[str, Any]) -> None:
    """Unknown keys, and values out of their limits."""
    assert not JOBS.is_valid(data)


def test_a_written_plan_is_a_plan_by_the_schema(written: dict[str, Any]) -> None:
    """With sheets, timber, joints and offcuts."""
    assert written["joints"]
    assert {piece["kind"] for piece in written["pieces"]} == {"panel", "strip"}
    PLANS.validate(written)


@pytest.mark.parametrize("place", [(), ("totals",), ("job",), ("pieces", 0), ("used", 0), ("joints", 0)])
def test_an_unknown_key_in_a_plan_is_not_in_the_schema(written: dict[str, Any], place: tuple[Any, ...]) -> None:
    """Wherever it stands."""
    changed: Any = copy.deepcopy(written)
    spot = changed
    for step in place:
        spot = spot[step]
    spot["colour"] = "red"
    assert not PLANS.is_valid(changed)


@pytest.mark.parametrize("key", ["format", "job_sha256", "totals", "pieces"])
def test_a_plan_without_a_key_is_not_in_the_schema(written: dict[str, Any], key: str) -> None:
    """Every key is always written."""
    assert not PLANS.is_valid({name: value for name, value in written.items() if name != key})


def test_money_in_a_plan_is_text(written: dict[str, Any]) -> None:
    """A number would lose cents in some readers."""
    assert not PLANS.is_valid({**written, "totals": {**written["totals"], "to_pay": 84.5}})
