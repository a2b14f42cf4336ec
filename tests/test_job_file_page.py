"""The page on the job file tells of every key that there is, of no other, and its examples are jobs."""

import re
import tomllib
from pathlib import Path
from typing import Any

import pytest
from pydantic import BaseModel
from pydantic.fields import FieldInfo

from nesting.model import (
    Coating,
    Fault,
    Frame,
    Job,
    JointCost,
    JointRule,
    Kerf,
    Length,
    Mark,
    Neighbours,
    Outline,
    Panel,
    PriceBreak,
    Sheet,
    Strip,
    Workshop,
)

PAGE = (Path(__file__).parent.parent / "docs" / "job-file.md").read_text(encoding="utf-8")

#: Which model each section tells of.
MODELS: dict[str, type[BaseModel]] = {
    "The whole job": Job,
    "Workshop": Workshop,
    "Kerf": Kerf,
    "Joints": JointRule,
    "Cost of a joint": JointCost,
    "Sheets": Sheet,
    "Price breaks": PriceBreak,
    "Faults": Fault,
    "Panels": Panel,
    "Coating": Coating,
    "Outline": Outline,
    "Marks": Mark,
    "Frames": Frame,
    "Neighbours": Neighbours,
    "Lengths": Length,
    "Strips": Strip,
}

#: Keys that stand in a file only: reading turns them into points.
FILE_ONLY = {"Outline": {"rectangle", "offsets"}}

PANEL = {"name": "shelf", "material": "gaboon", "thickness": 6, "outline": {"rectangle": [900, 300]}}

EXAMPLES = re.findall(r"```toml\n(.*?)```", PAGE, flags=re.DOTALL)


def sections() -> dict[str, str]:
    """Return the text of each section by its heading."""
    parts = re.split(r"^## (.+)$", PAGE, flags=re.MULTILINE)[1:]
    return dict(zip(parts[::2], parts[1::2], strict=True))


def rows(heading: str) -> dict[str, list[str]]:
    """Return the table of a section: key to what, default and example."""
    lines = re.findall(r"^\| `(\w+)` \| (.+) \|$", sections()[heading], flags=re.MULTILINE)
    return {key: rest.split(" | ") for key, rest in lines}


def default_of(field: FieldInfo) -> Any:
    """Return a default as a file would state it."""
    made = field.get_default(call_default_factory=True)
    return list(made) if isinstance(made, tuple) else made


def test_every_section_is_of_a_model() -> None:
    """And every model of the job has its section."""
    assert list(sections()) == list(MODELS)


@pytest.mark.parametrize("heading", MODELS)
def test_a_section_tells_of_every_key_and_of_no_other(heading: str) -> None:
    """None missing, none extra."""
    assert set(rows(heading)) == set(MODELS[heading].model_fields) | FILE_ONLY.get(heading, set())


@pytest.mark.parametrize("heading", MODELS)
def test_a_section_says_which_keys_are_needed(heading: str) -> None:
    """Those without which the model refuses."""
    needed = {key for key, (_, default, _) in rows(heading).items() if default == "needed"}
    assert needed == {key for key, field in MODELS[heading].model_fields.items() if field.is_required()}


@pytest.mark.parametrize("heading", MODELS)
def test_defaults_are_those_of_the_model(heading: str) -> None:
    """Wherever the page states a value rather than a word."""
    for key, (_, default, _) in rows(heading).items():
        field = MODELS[heading].model_fields.get(key)
        if default.startswith("`"):
            assert field is not None
            assert tomllib.loads(f"value = {default.strip('`')}")["value"] == default_of(field), key
        elif default == "none" and field is not None:
            assert default_of(field) is None, key


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda text: text.splitlines()[0])
def test_an_example_is_a_job(example: str) -> None:
    """Alone, or with a shelf where it asks for no part of its own."""
    data = tomllib.loads(example)
    if not data.keys() & {"panels", "strips"}:
        data["panels"] = [PANEL]
    job = Job.model_validate(data)
    assert len(job.panels) + len(job.strips) >= 1
