"""The page for phone, print and bench."""

import re
from base64 import b64encode
from hashlib import sha256
from html.parser import HTMLParser
from itertools import pairwise

import pytest
from good_butt_plan import butt_plan
from sample_plan import BILGE, OLD, sample_plan

from nesting.drawing import piece_codes, plan_mark
from nesting.files import plan_json
from nesting.model import Plan
from nesting.report import page, report_files
from nesting.report.labels import labels

PLAN = sample_plan()
PAGE = page(PLAN)

#: Elements of HTML that are never closed.
VOID = {"meta", "input"}


class Reader(HTMLParser):
    """Gathers the elements of a page with their texts, and whether all are closed."""

    def __init__(self, text):
        super().__init__(convert_charrefs=True)
        self.elements, self.open = [], []
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        """Note an element and those it stands in."""
        self.elements.append({"tag": tag, "text": "", "within": [e["tag"] for e in self.open], **dict(attrs)})
        if tag not in VOID:
            self.open.append(self.elements[-1])

    def handle_startendtag(self, tag, attrs):
        """Note an element that closes itself, as those of drawings do."""
        self.elements.append({"tag": tag, "text": "", "within": [e["tag"] for e in self.open], **dict(attrs)})

    def handle_endtag(self, tag):
        """Check that elements close in order."""
        assert self.open.pop()["tag"] == tag

    def handle_data(self, data):
        """Add words to every element that holds them."""
        for element in self.open:
            element["text"] += data

    def all(self, *tags):
        """Return the elements of these kinds in order."""
        return [element for element in self.elements if element["tag"] in tags]


READ = Reader(PAGE)


def test_every_element_is_closed_in_order():
    """The page is well formed, drawings included."""
    assert READ.open == []


def test_headings_go_down_one_step_at_a_time():
    """One h1, in the header, and no level left out."""
    levels = [int(element["tag"][1]) for element in READ.all("h1", "h2", "h3", "h4")]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(after - before <= 1 for before, after in pairwise(levels))
    assert "header" in READ.all("h1")[0]["within"]


def test_every_table_says_what_it_is():
    """Each has a caption, and each of its headings a scope."""
    assert len(READ.all("table")) == len(READ.all("caption")) > 5
    assert all(caption["text"].strip() for caption in READ.all("caption"))
    assert {heading.get("scope") for heading in READ.all("th")} == {"col", "row"}


def test_the_page_refers_to_nothing_outside_it():
    """No address but the name of SVG's own space, no source, and no link but to its own screens."""
    assert set(re.findall(r"https?://[^\"' ]+", PAGE)) == {"http://www.w3.org/2000/svg"}
    assert not re.search(r"\b(src|srcset|action)\s*=|url\(|@import", PAGE)
    assert READ.all("link", "img", "iframe", "object") == []
    places = {f"#{element['id']}" for element in READ.all("section")}
    assert {element["href"] for element in READ.all("a")} <= places


def test_the_policy_allows_the_pages_own_script_and_no_other():
    """Named by its SHA-256, so that nothing set into the page can run, nor ask for anything."""
    (script,) = READ.all("script")
    policy = READ.all("meta")[1]["content"]
    wanted = b64encode(sha256(script["text"].encode()).digest()).decode()
    assert f"script-src 'sha256-{wanted}'" in policy
    assert "default-src 'none'" in policy
    assert "unsafe-eval" not in policy
    assert not re.search(r"\son[a-z]+=", PAGE)


def test_the_script_runs_as_soon_as_the_first_screen_is_there():
    """It stands before the second screen, and after the bar that it sets up: who opens a long page need not wait."""
    order = [element.get("id") or element["tag"] for element in READ.elements]
    assert order.index("overview") < order.index("script") < order.index("buy")
    assert order.index("screen") < order.index("script")


def test_there_is_a_screen_for_every_sheet_and_for_every_few_lengths():
    """And each is in the list of contents."""
    keys = [element["id"] for element in READ.all("section")]
    assert keys[0] == "overview"
    assert {"buy", "cautions", "sheet-S1", "sheet-S2", "length-L1", "length-L4", "gluing", "parts", "labels"} <= set(
        keys
    )
    contents = [element["href"] for element in READ.all("a") if "ol" in element["within"]]
    assert contents == [f"#{key}" for key in keys[1:]]


def test_every_piece_can_be_ticked_where_it_is_cut():
    """One box each, named by the piece, within a label that bears its code."""
    ticks = [element["data-tick"] for element in READ.all("input") if "data-tick" in element]
    assert sorted(tick for tick in ticks if tick.startswith("piece ")) == sorted(f"piece {p.id}" for p in PLAN.pieces)
    assert len(ticks) == len(set(ticks))
    assert {label["text"] for label in READ.all("label")} >= set(piece_codes(PLAN).values())


def test_every_piece_is_found_on_the_screen_that_draws_it():
    """The index leads to the sheet or length that the piece is cut from."""
    found = {element["data-shows"]: element["href"] for element in READ.all("a") if "data-shows" in element}
    assert found.keys() == {piece.id for piece in PLAN.pieces}
    assert found["bilge-1-1"] == "#sheet-S1"
    assert found["gunwale-1-1"] == "#length-L1"


def test_every_piece_has_a_label_with_the_plans_mark():
    """Code, part, hand and which piece, the joints at its ends, what it is cut from."""
    labels = [element["text"] for element in READ.all("li") if "ul" in element["within"]]
    assert len(labels) == len(PLAN.pieces)
    mark = plan_mark(PLAN)
    assert all(mark in label for label in labels)
    (label,) = [label for label in labels if label.startswith("A3 ")]
    for words in (BILGE, "starboard", "copy 2, piece 1 of 2", "high end J2: bevel on back", "from S1"):
        assert words in label


def test_the_arrow_of_a_label_points_where_that_of_the_drawing_does():
    """To the bow where a panel says which end that is, else to the rising stations; a strap has none."""
    panels = tuple(
        panel.model_copy(update={"forward": "low"}) if panel.name == BILGE else panel for panel in PLAN.job.panels
    )
    told = labels(PLAN.model_copy(update={"job": PLAN.job.model_copy(update={"panels": panels})}))
    assert {label.arrow for label in told if label.part == BILGE} == {"⟶ fwd"}
    assert {label.arrow for label in told if label.part != BILGE} == {"⟶"}
    assert {label.arrow for label in labels(butt_plan()) if "strap" in label.which} == {""}


def test_the_mark_changes_with_the_plan():
    """Another place of one piece is another plan; the same plan has the same mark."""
    moved = PLAN.pieces[0].model_copy(update={"x": 11.0})
    assert plan_mark(PLAN) == plan_mark(sample_plan())
    assert plan_mark(PLAN) == sha256(plan_json(PLAN).encode()).hexdigest()[:8]
    assert plan_mark(PLAN.model_copy(update={"pieces": (moved, *PLAN.pieces[1:])})) != plan_mark(PLAN)


def test_the_page_has_language_title_and_one_drawing_for_each_sheet():
    """And for lengths and joined parts; each is an image with a name of its own that a screen reader finds."""
    assert READ.all("html")[0]["lang"] == "en"
    assert READ.all("title")[0]["text"].startswith(PLAN.job.title)
    drawings = READ.all("svg")
    assert [drawing["role"] for drawing in drawings] == ["img"] * 6
    ids = [element["id"] for element in READ.elements if "id" in element]
    assert len(ids) == len(set(ids))
    for drawing in drawings:
        assert set(drawing["aria-labelledby"].split()) <= set(ids)


def test_names_are_escaped_in_the_page():
    """Signs that mean something to HTML are shown, not obeyed."""
    assert READ.all("h1")[0]["text"] == "Skiff <& Ж>"
    assert "</g> &" not in PAGE
    hostile = page(sample_plan(title="</title><script>alert(1)</script>"))
    assert hostile.count("<script") == hostile.count("</script") == 1


def test_what_is_paid_is_said_with_its_currency():
    """The first figure on the page is what it costs."""
    assert "To pay: 123.30 EUR" in PAGE
    assert f"S2: {OLD}" in PAGE


def test_a_minimum_is_called_proven_only_when_it_is():
    """Otherwise bound and objective are both given, with the bound's reason."""
    assert "It is not proven" in PAGE
    assert "none has an objective below 101.00 EUR (area of parts and laps)" in PAGE
    assert "This is the proven minimum" not in PAGE
    proven = PLAN.model_copy(update={"totals": PLAN.totals.model_copy(update={"proven": True})})
    assert "This is the proven minimum among all plans (area of parts and laps)" in page(proven)


def test_the_areas_are_given_in_square_metres():
    """The used sheets are 2.44 x 1.22 m and an offcut of 0.804 m2: 3.781 m2 in all."""
    rows = [row["text"] for row in READ.all("tr")]
    assert any(row.startswith("Used3.781100") for row in rows)


def test_every_piece_stands_in_a_table():
    """The drawings have an equal in words."""
    cells = {cell["text"] for cell in READ.all("td")}
    assert set(piece_codes(PLAN).values()) <= cells


@pytest.mark.parametrize(
    "about", ["Wood dust", "Epoxy", "Blades and cutters", "Lifting", "Not structural advice", "Local rules"]
)
def test_cautions_are_given(about):
    """Each caution names its source."""
    assert about in {term["text"] for term in READ.all("dt")}
    assert all("Source: " in said["text"] for said in READ.all("dd"))


def test_a_plan_with_sheets_only_has_no_timber_and_no_joints():
    """What is not there is left out or said to be none."""
    plain = only_the_transom()
    files = report_files(plain)
    assert [name for name in files if name.endswith(".svg")] == ["sheet-S2.svg"]
    assert "no joints" in files["index.html"]
    assert 'id="length-' not in files["index.html"]
    assert 'id="gluing"' not in files["index.html"]


def only_the_transom() -> Plan:
    """Return a plan with one panel from the rack."""
    keep = {"used": PLAN.used[1:2], "joints": (), "purchases": (), "offcuts": ()}
    totals = PLAN.totals.model_copy(update={"sheets": 1, "lengths": 0, "joints": 0})
    pieces = tuple(piece for piece in PLAN.pieces if piece.on == "S2")
    return PLAN.model_copy(update={**keep, "pieces": pieces, "totals": totals})


def test_all_files_are_there_and_the_same_plan_gives_the_same():
    """One drawing for each sheet, each few lengths and each joined part, twelve lists and the page."""
    files = report_files(PLAN)
    assert set(files) == {
        "index.html",
        "sheet-S1.svg",
        "sheet-S2.svg",
        "timber-L1.svg",
        "timber-L4.svg",
        "part-A.svg",
        "part-D.svg",
        "shopping-list.csv",
        "cut-list.csv",
        "joint-schedule.csv",
        "bevel-schedule.csv",
        "glue-up.csv",
        "register-marks.csv",
        "timber-tally.csv",
        "marking-out.csv",
        "panel-offsets.csv",
        "consumables.csv",
        "weights.csv",
        "workload.csv",
    }
    assert files == report_files(sample_plan())
    assert all(text.endswith("\n") and "\r" not in text for text in files.values())
