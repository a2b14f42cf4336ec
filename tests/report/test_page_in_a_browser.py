"""The page in a real browser: from a file, with the network refused, on a phone and on a desk, and in print.

These tests need Chromium and its driver; they run where NESTING_BROWSER=1 says that both are there.
"""

import base64
import json
import os
import re
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from nesting.effort import Budget, Effort
from nesting.files import read_job
from nesting.planner import plan
from nesting.report import report_files
from nesting.starters import JOB_FILE, starter_files

if os.environ.get("NESTING_BROWSER") != "1":
    pytest.skip("no browser asked for: set NESTING_BROWSER=1 where Chromium is there", allow_module_level=True)

from good_blank_plan import blank_plan
from good_butt_plan import butt_plan
from selenium import webdriver
from selenium.webdriver.common.by import By

FLAGS = (
    "--headless=new --no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking "
    "--disable-component-update --disable-sync --hide-scrollbars --host-resolver-rules=MAP%*%~NOTFOUND"
)


@pytest.fixture(scope="module")
def page(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Write the skiff's page and give its place."""
    folder = tmp_path_factory.mktemp("skiff")
    for name, text in starter_files("skiff").items():
        (folder / name).write_text(text, encoding="utf-8")
    made = plan(read_job(folder / JOB_FILE), effort=Effort(Budget(work=0)))
    for name, text in report_files(made).items():
        (folder / name).write_text(text, encoding="utf-8")
    return folder / "index.html"


@pytest.fixture(scope="module", params=[blank_plan, butt_plan], ids=["blank", "butt"])
def other_page(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Write the page of a plan with a blank, or with straps, and give its place."""
    page = tmp_path_factory.mktemp("other") / "index.html"
    page.write_text(report_files(request.param())["index.html"], encoding="utf-8")
    return page


@pytest.fixture(scope="module")
def browser() -> Iterator[webdriver.Chrome]:
    """Start one browser for all tests here."""
    options = webdriver.ChromeOptions()
    for flag in FLAGS.split():
        options.add_argument(flag.replace("%", " "))
    options.binary_location = shutil.which("chromium") or shutil.which("google-chrome") or ""
    options.set_capability("goog:loggingPrefs", {"browser": "ALL", "performance": "ALL"})
    driver = webdriver.Chrome(options=options, service=webdriver.ChromeService(shutil.which("chromedriver")))
    yield driver
    driver.quit()


def opened(browser: webdriver.Chrome, page: Path, width: int) -> webdriver.Chrome:
    """Open the page at a width in CSS pixels, whatever the least width of a window is."""
    metrics = {"width": width, "height": 900, "deviceScaleFactor": 1, "mobile": width < 600}
    browser.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", metrics)
    browser.get(page.as_uri())
    return browser


def requests(browser: webdriver.Chrome) -> list[str]:
    """Return the addresses that were asked for since the last call."""
    messages: list[dict[str, Any]] = [
        json.loads(entry["message"])["message"] for entry in browser.get_log("performance")
    ]
    sent = [m["params"]["request"]["url"] for m in messages if m["method"] == "Network.requestWillBeSent"]
    return [address for address in sent if not address.startswith("data:")]


def test_the_page_asks_for_nothing_but_itself(browser: webdriver.Chrome, page: Path) -> None:
    """No request, and no word of complaint in the browser's console."""
    opened(browser, page, 1280)
    assert set(requests(browser)) <= {page.as_uri()}
    assert [entry for entry in browser.get_log("browser") if entry["level"] in ("WARNING", "SEVERE")] == []


@pytest.mark.parametrize("width", [360, 390, 1280])
def test_nothing_hangs_over_the_side(browser: webdriver.Chrome, page: Path, width: int) -> None:
    """The page is no wider than the screen; wide tables scroll within their own boxes."""
    opened(browser, page, width)
    assert browser.execute_script("return document.documentElement.scrollWidth") <= width


@pytest.mark.parametrize("width", [360, 1280])
def test_every_sheet_is_drawn_and_fits_the_screen(browser: webdriver.Chrome, page: Path, width: int) -> None:
    """Each drawing has a size, and lies between the sides of the screen."""
    opened(browser, page, width)
    drawings = browser.find_elements(By.CSS_SELECTOR, "figure svg")
    sheets = len(list(page.parent.glob("sheet-*.svg")))
    assert len(drawings) >= sheets >= 5
    for drawing in drawings:
        assert drawing.rect["width"] > 200
        assert drawing.rect["height"] > 20
        assert drawing.rect["x"] + drawing.rect["width"] <= width


@pytest.mark.parametrize("width", [360, 1280])
def test_blanks_and_straps_fit_the_screen(browser: webdriver.Chrome, other_page: Path, width: int) -> None:
    """Neither the page nor a drawing hangs over the side."""
    opened(browser, other_page, width)
    assert browser.execute_script("return document.documentElement.scrollWidth") <= width
    drawings = browser.find_elements(By.CSS_SELECTOR, "figure svg")
    assert drawings
    assert all(drawing.rect["x"] + drawing.rect["width"] <= width for drawing in drawings)


def test_print_fits_pages_of_paper(browser: webdriver.Chrome, page: Path) -> None:
    """A4, a sane number of pages: at least one for every two sheets drawn, and no flood of empty ones."""
    opened(browser, page, 1280)
    paper = {"paperWidth": 8.27, "paperHeight": 11.69, "printBackground": True}
    pdf = base64.b64decode(browser.execute_cdp_cmd("Page.printToPDF", paper)["data"])
    pages = len(re.findall(rb"/Type\s*/Page\b(?!s)", pdf))
    assert 4 <= pages <= 30


def test_everything_is_readable_without_scripts(browser: webdriver.Chrome, page: Path) -> None:
    """What to buy, what it costs, the drawings and the lists are plain markup."""
    browser.execute_cdp_cmd("Emulation.setScriptExecutionDisabled", {"value": True})
    try:
        opened(browser, page, 360)
        text = browser.find_element(By.TAG_NAME, "main").text
    finally:
        browser.execute_cdp_cmd("Emulation.setScriptExecutionDisabled", {"value": False})
    assert "To pay" in text
    assert "gunwale" in text
