"""What is read from a job file, and what is said of one that can't be used."""

import json
import tomllib
from decimal import Decimal
from pathlib import Path

import pytest
from job_folders import OFFSETS, OFFSETS_JOB, SMALL_JOB, refused, the_problem, written

from nesting.files import read_job
from nesting.starters import STARTERS, starter_files


@pytest.mark.parametrize("starter", STARTERS)
def test_the_same_job_in_toml_and_in_json_is_the_same(tmp_path: Path, starter: str) -> None:
    """One structure, two ways to write it."""
    texts = starter_files(starter)
    for name, text in texts.items():
        written(tmp_path, text, name)
    data = tomllib.loads(texts["job.toml"])
    as_json = written(tmp_path, json.dumps(data), "job.json")
    assert read_job(as_json) == read_job(tmp_path / "job.toml")


@pytest.mark.parametrize("name", ["job.toml", "job.json"])
def test_money_is_exact_to_the_cent(tmp_path: Path, name: str) -> None:
    """84.10 is 84.10 and not the nearest binary figure."""
    text = SMALL_JOB if name == "job.toml" else json.dumps(tomllib.loads(SMALL_JOB))
    price = read_job(written(tmp_path, text, name)).sheets[0].price
    assert price == Decimal("84.10")
    assert price * 3 == Decimal("252.30")


def test_every_problem_is_told_at_once_with_its_file_and_line(tmp_path: Path) -> None:
    """Five slips in one file: five problems, each with the line in which it stands."""
    text = (
        SMALL_JOB.replace("kerf = 3.0", "kerf = -3.0")
        .replace("thickness = 6\nsize", "thickness = nan\nsize")
        .replace("price = 84.10", 'price = "dear"')
        .replace("[560, 230]", "[-560, 230]")
    )
    file = written(tmp_path, text + "quantity = 2.5\n")
    found = refused(file)
    assert [(problem.code, problem.line) for problem in found] == [
        ("bad-value", 4),
        ("bad-value", 9),
        ("bad-value", 11),
        ("bad-value", 17),
        ("bad-value", 18),
    ]
    assert {problem.file for problem in found} == {file}
    assert [problem.where for problem in found] == [
        "workshop, kerf",
        'sheet "birch", thickness',
        'sheet "birch", price',
        'panel "bottom", outline',
        'panel "bottom", quantity',
    ]


@pytest.mark.parametrize(
    ("right", "wrong", "meant", "line"),
    [
        ("thickness = 6\noutline", "thicknes = 6\noutline", "thickness", 16),
        ("title =", "titel =", "title", 1),
        ("rectangle", "rectangel", "rectangle", 17),
        ("rectangle =", "ofsets =", "offsets", 17),
        ("[[sheets]]", "[[sheet]]", "sheets", 6),
        ("kerf = 3.0", "kerf.shet = 3.0", "sheet", 4),
    ],
)
def test_an_unknown_key_is_refused_with_the_nearest_known_one(
    tmp_path: Path, right: str, wrong: str, meant: str, line: int
) -> None:
    """A slip of the pen is named in its line, and the word that was meant beside it."""
    found = refused(written(tmp_path, SMALL_JOB.replace(right, wrong)))
    (slip,) = (problem for problem in found if problem.code == "unknown-key")
    assert slip.remedy == f'Did you mean "{meant}"?'
    assert slip.line == line


def test_an_unknown_key_that_is_near_to_none_is_told_all_that_are_known(tmp_path: Path) -> None:
    """Nothing is guessed; what may stand there is listed."""
    found = the_problem(written(tmp_path, SMALL_JOB.replace("[workshop]", "[workshop]\nradio = 1")))
    assert found.remedy == "Known here: allowance, keep_from, keep_length_from, kerf, longest_piece, tape, trim, way."


def test_a_sheet_can_t_take_its_outline_from_offsets_and_isn_t_told_that_it_can(tmp_path: Path) -> None:
    """Only panels name files of offsets; the remedy for a sheet lists what does work."""
    text = SMALL_JOB.replace("size = [1525, 1525]", 'outline = { offsets = "x.csv" }')
    (slip,) = (problem for problem in refused(written(tmp_path, text)) if problem.code == "unknown-key")
    assert "rectangle" in slip.remedy
    assert "offsets" not in slip.remedy


def test_a_missing_key_leads_to_its_table(tmp_path: Path) -> None:
    """There is no line of its own to name."""
    found = the_problem(written(tmp_path, SMALL_JOB.replace("thickness = 6\noutline", "outline")))
    assert (found.code, found.line, found.where) == ("missing-key", 13, 'panel "bottom"')
    assert found.reason == 'the key "thickness" is missing'


def test_an_offset_file_s_problems_and_the_job_s_are_told_together(tmp_path: Path) -> None:
    """One round of mending, not two; what is wrong in the CSV leads there."""
    written(tmp_path, OFFSETS.replace("500,340", "500,wide"), "side.csv")
    found = refused(written(tmp_path, OFFSETS_JOB.replace("price = 84.10", "price = -1")))
    assert [(problem.file.name, problem.line) for problem in found if problem.file] == [
        ("side.csv", 3),
        ("job.toml", 11),
    ]


def test_offsets_and_another_form_at_once_are_refused(tmp_path: Path) -> None:
    """Of two outlines one would be ignored."""
    text = SMALL_JOB.replace("{ rectangle", '{ offsets = "side.csv", rectangle')
    assert (
        the_problem(written(tmp_path, text)).reason == "offsets takes the name of a CSV file and no other key beside it"
    )


@pytest.mark.parametrize(
    ("text", "line"), [("title = \n", 1), (SMALL_JOB + "oops\n", 18), (SMALL_JOB + 'title = "x', None)]
)
def test_a_text_that_is_not_toml_is_refused_in_its_line(tmp_path: Path, text: str, line: int | None) -> None:
    """The line is that of the reader of TOML, where it gives one."""
    found = the_problem(written(tmp_path, text))
    assert (found.code, found.line) == ("syntax", line)
    assert found.reason.startswith("it is not TOML (")


@pytest.mark.parametrize("text", ['{"title": }', "[" * 100_000, "[1]", '"job"', "", '{"panels": 3}', '{"panels": [3]}'])
def test_a_json_text_that_holds_no_job_is_refused(tmp_path: Path, text: str) -> None:
    """Broken, nested without end, or of another structure."""
    assert all(problem.file == tmp_path / "job.json" for problem in refused(written(tmp_path, text, "job.json")))


def test_a_key_that_stands_twice_in_json_is_refused(tmp_path: Path) -> None:
    """TOML refuses it by itself; in JSON one of the two would be ignored."""
    found = the_problem(written(tmp_path, '{"title": "a", "title": "b"}', "job.json"))
    assert 'the key "title" stands twice' in found.reason


@pytest.mark.parametrize(
    "figure", ["nan", "inf", "-inf", "1e400", "1e99999999999999999999", "0.0", "1e-99999999999999999999"]
)
@pytest.mark.parametrize("key", ["size = [1525, 1525]", "[560, 230]", "kerf = 3.0"])
def test_a_figure_that_no_tape_can_show_is_refused_in_its_line(tmp_path: Path, figure: str, key: str) -> None:
    """Not a number, infinite, beyond all exponents, or nothing where a size is needed."""
    if key.startswith("kerf") and float(figure) == 0:
        figure = "-0.1"
    number = key.rpartition("[")[2].split(",")[0].removeprefix("kerf = ")
    found = refused(written(tmp_path, SMALL_JOB.replace(key, key.replace(number, figure, 1))))
    line = {"s": 10, "[": 17, "k": 4}[key[0]]
    assert {(problem.code, problem.line) for problem in found} == {("bad-value", line)}


@pytest.mark.parametrize("price", ["nan", "inf", "1e400", "1e99999999999999999999", "-0.01", "84.105", "true", '""'])
def test_a_price_that_nobody_can_pay_is_refused(tmp_path: Path, price: str) -> None:
    """An amount is finite, not negative, and has whole cents."""
    found = the_problem(written(tmp_path, SMALL_JOB.replace("84.10", price)))
    assert (found.code, found.line, found.where) == ("bad-value", 11, 'sheet "birch", price')


def test_a_job_without_parts_is_refused(tmp_path: Path) -> None:
    """An empty file asks for nothing."""
    assert the_problem(written(tmp_path, "")).code == "no-parts"


def test_a_thousand_slips_are_all_told_soon(tmp_path: Path) -> None:
    """The text is searched for lines once, not once for each problem."""
    text = SMALL_JOB + "".join(f'[[panels]]\nname = "p{k}"\nthicknes = 6\n' for k in range(1000))
    slips = [problem for problem in refused(written(tmp_path, text)) if problem.code == "unknown-key"]
    assert [slip.line for slip in slips] == [20 + 3 * k for k in range(1000)]
