"""The page in a real browser: from a file, with the network refused, on a phone and on a desk, and in print.

These tests need Chromium and its driver; they run where NESTING_BROWSER=1 says that both are there.
"""

import base64
import json
import os
import re
import shutil
import time
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
from sample_plan import sample_plan
from selenium import webdriver
from selenium.webdriver.common.action_chains import ActionChains
from selenium.webdriver.common.by import By
from selenium.webdriver.common.keys import Keys
from selenium.webdriver.support.ui import WebDriverWait

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
def small_page(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Write the page of a small plan that has screens of every sort but blanks, and give its place."""
    page = tmp_path_factory.mktemp("small") / "index.html"
    page.write_text(report_files(sample_plan())["index.html"], encoding="utf-8")
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


def screens(browser: webdriver.Chrome) -> list[str]:
    """Return the keys of all screens in order."""
    keys: list[str] = browser.execute_script("return [...document.querySelectorAll('main > section')].map(s => s.id)")
    return keys


def current(browser: webdriver.Chrome) -> str:
    """Return the key of the one screen that is seen."""
    seen = browser.execute_script(
        "return [...document.querySelectorAll('main > section')].filter(s => s.offsetHeight).map(s => s.id)"
    )
    assert len(seen) == 1
    return str(seen[0])


def press(browser: webdriver.Chrome, *keys: str) -> None:
    """Press keys where the focus is."""
    ActionChains(browser).send_keys(*keys).perform()


def go_to(browser: webdriver.Chrome, key: str) -> None:
    """Show a screen by its key."""
    browser.execute_script("location.hash = arguments[0]", key)
    WebDriverWait(browser, 5).until(lambda _: current(browser) == key)


def reload(browser: webdriver.Chrome, key: str) -> None:
    """Open the page again, and wait until it has read as far as the screen that was seen."""
    browser.refresh()
    WebDriverWait(browser, 5).until(lambda _: current(browser) == key)


def first_sheet(browser: webdriver.Chrome) -> str:
    """Return the key of the first screen of a sheet."""
    return next(key for key in screens(browser) if key.startswith("sheet-"))


def first_layout(browser: webdriver.Chrome) -> str:
    """Return the key of the first screen of a blank or sheet."""
    return next(key for key in screens(browser) if key.startswith(("blank-", "sheet-")))


def shown_width(browser: webdriver.Chrome) -> float:
    """Return how many units of the drawing on this screen are seen across."""
    return float(browser.execute_script("return document.querySelector('.current svg').viewBox.baseVal.width"))


@pytest.mark.parametrize("width", [360, 1280])
def test_every_screen_fits_the_width(browser: webdriver.Chrome, page: Path, width: int) -> None:
    """No screen is wider than it should be: wide tables scroll within their own boxes, drawings shrink."""
    opened(browser, page, width)
    for key in screens(browser):
        go_to(browser, key)
        assert browser.execute_script("return document.documentElement.scrollWidth") <= width, key
        for drawing in browser.find_elements(By.CSS_SELECTOR, ".current figure svg"):
            assert drawing.rect["width"] > 200, key
            assert drawing.rect["x"] + drawing.rect["width"] <= width, key


def test_nothing_lies_over_the_bar(browser: webdriver.Chrome, page: Path) -> None:
    """Wherever a long table is scrolled to, the buttons at the foot of the screen are what a finger meets there."""
    opened(browser, page, 360)
    go_to(browser, first_sheet(browser))
    for share in (0.0, 0.3, 0.6, 1.0):
        covered = browser.execute_script(
            "scrollTo(0, arguments[0] * document.documentElement.scrollHeight);"
            "return [...document.querySelectorAll('.bar :is(a, button, select)')].filter(e => {"
            "  const box = e.getBoundingClientRect();"
            "  return document.elementFromPoint(box.left + box.width / 2, box.top + box.height / 2) !== e; }).length",
            share,
        )
        assert covered == 0


@pytest.mark.parametrize("width", [360, 1280])
def test_blanks_and_straps_fit_the_screen(browser: webdriver.Chrome, other_page: Path, width: int) -> None:
    """Neither the page nor a drawing hangs over the side."""
    opened(browser, other_page, width)
    for key in screens(browser):
        go_to(browser, key)
        assert browser.execute_script("return document.documentElement.scrollWidth") <= width, key


def test_every_screen_is_reached_by_the_keyboard_alone(browser: webdriver.Chrome, small_page: Path) -> None:
    """The button for the next screen keeps the focus from screen to screen; the one for the previous leads back."""
    opened(browser, small_page, 360)
    keys = screens(browser)
    seen = [current(browser)]
    for _ in keys[1:]:
        browser.execute_script("document.getElementById('next').focus()")
        press(browser, Keys.ENTER)
        WebDriverWait(browser, 5).until(lambda _: current(browser) != seen[-1])
        seen.append(current(browser))
    assert seen == keys
    browser.execute_script("document.getElementById('previous').focus()")
    press(browser, Keys.SPACE)
    WebDriverWait(browser, 5).until(lambda _: current(browser) == keys[-2])


def test_the_tab_key_leads_to_the_bar(browser: webdriver.Chrome, page: Path) -> None:
    """From the overview's last link on: choice of screen, next, finder, shade."""
    opened(browser, page, 1280)
    reached = []
    for _ in range(len(screens(browser)) + 8):
        press(browser, Keys.TAB)
        reached.append(browser.execute_script("return document.activeElement.id"))
    assert {"screen", "next", "to-finder", "shade"} <= set(reached)


def test_ticks_survive_a_reload(browser: webdriver.Chrome, page: Path) -> None:
    """A piece ticked by the keyboard is still ticked, and greyed in its drawing, when the page is opened again."""
    opened(browser, page, 360)
    key = first_sheet(browser)
    go_to(browser, key)
    boxes = browser.find_elements(By.CSS_SELECTOR, ".current input[data-tick]")
    browser.execute_script("arguments[0].focus()", boxes[0])
    press(browser, Keys.SPACE)
    reload(browser, key)
    boxes = browser.find_elements(By.CSS_SELECTOR, ".current input[data-tick]")
    assert [box.is_selected() for box in boxes] == [True] + [False] * (len(boxes) - 1)
    assert f"1 of {len(boxes)} done" in browser.find_element(By.CSS_SELECTOR, ".current .progress").text
    assert browser.execute_script("return document.querySelectorAll('.current svg .done').length") == 1
    boxes[0].find_element(By.XPATH, "./..").click()
    reload(browser, key)
    assert not browser.find_elements(By.CSS_SELECTOR, ".current input[data-tick]:checked")


def test_ticks_work_where_nothing_may_be_kept(browser: webdriver.Chrome, page: Path) -> None:
    """A browser that refuses to keep anything for a file gets a word about it, and no error."""
    refuse = (
        "Object.defineProperty(window, 'localStorage', { get() { throw new DOMException('no', 'SecurityError'); } })"
    )
    added = browser.execute_cdp_cmd("Page.addScriptToEvaluateOnNewDocument", {"source": refuse})
    try:
        opened(browser, page, 360)
        assert "ticks last until it is closed" in browser.find_element(By.TAG_NAME, "main").text
        go_to(browser, first_sheet(browser))
        browser.find_element(By.CSS_SELECTOR, ".current th label").click()
        assert browser.find_elements(By.CSS_SELECTOR, ".current input[data-tick]:checked")
    finally:
        browser.execute_cdp_cmd("Page.removeScriptToEvaluateOnNewDocument", added)
    assert [entry for entry in browser.get_log("browser") if entry["level"] == "SEVERE"] == []


def test_the_wheel_zooms_about_the_pointer(browser: webdriver.Chrome, page: Path) -> None:
    """Up is nearer; down goes back to the whole, and not beyond."""
    opened(browser, page, 1280)
    go_to(browser, first_sheet(browser))
    whole = shown_width(browser)
    drawing = browser.find_element(By.CSS_SELECTOR, ".current .frame svg")
    middle = (drawing.rect["x"] + 300, drawing.rect["y"] - browser.execute_script("return scrollY") + 200)
    time.sleep(0.3)  # a wheel that has just scrolled the page goes on doing so
    for turn, nearer in ((-240, True), (2400, False)):
        wheel = {"type": "mouseWheel", "x": middle[0], "y": middle[1], "deltaX": 0, "deltaY": turn}
        browser.execute_cdp_cmd("Input.dispatchMouseEvent", wheel)
        WebDriverWait(browser, 5).until(lambda _, nearer=nearer: (shown_width(browser) < whole * 0.9) == nearer)
    assert shown_width(browser) == pytest.approx(whole)


def test_two_fingers_zoom(browser: webdriver.Chrome, page: Path) -> None:
    """Spread to twice their distance they show half as much; one finger then moves the drawing."""
    opened(browser, page, 360)
    browser.execute_cdp_cmd("Emulation.setTouchEmulationEnabled", {"enabled": True, "maxTouchPoints": 2})
    go_to(browser, first_sheet(browser))
    whole, y = shown_width(browser), browser.find_element(By.CSS_SELECTOR, ".current .frame svg").rect["y"] + 100
    try:
        touch(browser, "touchStart", [(150, y), (210, y)])
        for spread in range(30, 61, 5):
            touch(browser, "touchMove", [(180 - spread, y), (180 + spread, y)])
        touch(browser, "touchEnd", [])
        assert shown_width(browser) == pytest.approx(whole / 2, rel=0.2)
        left = browser.execute_script("return document.querySelector('.current svg').viewBox.baseVal.x")
        touch(browser, "touchStart", [(200, y)])
        for x in range(200, 140, -10):
            touch(browser, "touchMove", [(x, y)])
        touch(browser, "touchEnd", [])
        assert browser.execute_script("return document.querySelector('.current svg').viewBox.baseVal.x") > left
    finally:
        browser.execute_cdp_cmd("Emulation.setTouchEmulationEnabled", {"enabled": False})


def touch(browser: webdriver.Chrome, kind: str, points: list[tuple[float, float]]) -> None:
    """Touch the screen, move the fingers or lift them."""
    fingers = [{"x": x, "y": y, "id": number} for number, (x, y) in enumerate(points)]
    browser.execute_cdp_cmd("Input.dispatchTouchEvent", {"type": kind, "touchPoints": fingers})


def test_keys_and_buttons_zoom(browser: webdriver.Chrome, page: Path) -> None:
    """Plus and minus where the drawing has the focus, and the button for the whole."""
    opened(browser, page, 1280)
    go_to(browser, first_sheet(browser))
    whole = shown_width(browser)
    browser.execute_script("document.querySelector('.current .frame').focus()")
    press(browser, "+")
    assert shown_width(browser) == pytest.approx(whole / 1.5)
    left = browser.execute_script("return document.querySelector('.current svg').viewBox.baseVal.x")
    press(browser, Keys.ARROW_RIGHT)
    assert browser.execute_script("return document.querySelector('.current svg').viewBox.baseVal.x") > left
    browser.find_element(By.CSS_SELECTOR, ".current .tools [aria-label='Show the whole drawing']").click()
    assert shown_width(browser) == pytest.approx(whole)


def test_the_finder_leads_to_the_sheet_and_points_the_piece_out(browser: webdriver.Chrome, page: Path) -> None:
    """Words narrow the list down; the link shows the sheet with the piece marked."""
    opened(browser, page, 360)
    browser.find_element(By.ID, "to-finder").click()
    WebDriverWait(browser, 5).until(lambda _: browser.execute_script("return document.activeElement.id") == "find")
    press(browser, "sheer port")
    rows = [row for row in browser.find_elements(By.CSS_SELECTOR, "#pieces tbody tr") if row.is_displayed()]
    assert rows
    assert all("sheer" in row.text and "port" in row.text for row in rows)
    link = rows[0].find_element(By.TAG_NAME, "a")
    wanted = link.get_attribute("href").rpartition("#")[2]
    link.click()
    WebDriverWait(browser, 5).until(lambda _: current(browser) == wanted)
    assert browser.execute_script("return document.querySelectorAll('.current svg .found').length") == 1


@pytest.mark.parametrize("width", [360, 1280])
def test_targets_are_large_enough_for_gloves(browser: webdriver.Chrome, page: Path, width: int) -> None:
    """Whatever is pressed is 44 CSS pixels or more each way."""
    opened(browser, page, width)
    for key in ("overview", first_sheet(browser), "parts"):
        go_to(browser, key)
        small = browser.execute_script(
            "return [...document.querySelectorAll('.current :is(a, button, th label), .bar :is(a, button, select)')]"
            ".map(e => [e.textContent, e.getBoundingClientRect()])"
            ".filter(([, box]) => box.width < 44 || box.height < 44).map(([words]) => words)"
        )
        assert small == [], key


def test_dark_and_light_are_both_readable_and_kept(browser: webdriver.Chrome, page: Path) -> None:
    """The button turns the page dark, and it is still dark when opened again."""
    opened(browser, page, 360)
    paper = "return getComputedStyle(document.documentElement).backgroundColor"
    light = browser.execute_script(paper)
    browser.find_element(By.ID, "shade").click()
    dark = browser.execute_script(paper)
    browser.refresh()
    assert browser.execute_script(paper) == dark != light
    browser.find_element(By.ID, "shade").click()
    assert browser.execute_script(paper) == light


def faulted(browser: webdriver.Chrome) -> list[Any]:
    """Return what the rules of WCAG 2.1 A and AA of axe-core find on the screen that is seen."""
    axe = pytest.importorskip("axe_core_python").__file__
    if not browser.execute_script("return 'axe' in window"):
        browser.execute_script((Path(str(axe)).parent / "axe.min.js").read_text(encoding="utf-8"))
    # To a reader a drawing is one image: what it is made of only takes time to look through.
    browser.execute_script("document.querySelectorAll('.current svg > g').forEach(group => group.remove())")
    found: list[Any] = browser.execute_async_script(
        "const done = arguments[0];"
        "const rest = { exclude: [['main > section:not(.current)']] };"
        "axe.run(rest, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa'], resultTypes: ['violations'] })"
        ".then(r => done(r.violations.map(v => [v.id, v.nodes.map(n => n.html.slice(0, 200))])))"
    )
    return found


@pytest.mark.parametrize(("width", "shade"), [(360, "light"), (1280, "dark")])
def test_axe_finds_nothing_at_levels_a_and_aa(
    browser: webdriver.Chrome, small_page: Path, width: int, shade: str
) -> None:
    """One screen of every sort, by day on a phone and in the dark on a desk."""
    opened(browser, small_page, width)
    browser.execute_script("document.documentElement.classList.add(arguments[0])", shade)
    one_of_each = {key.partition("-")[0]: key for key in reversed(screens(browser))}
    for key in one_of_each.values():
        go_to(browser, key)
        assert faulted(browser) == [], key


@pytest.mark.parametrize(("width", "shade"), [(360, "dark"), (1280, "light")])
def test_axe_finds_nothing_on_blanks_and_straps(
    browser: webdriver.Chrome, other_page: Path, width: int, shade: str
) -> None:
    """The sorts of screen that the small page lacks, or has otherwise, with the other shade at each width."""
    opened(browser, other_page, width)
    browser.execute_script("document.documentElement.classList.add(arguments[0])", shade)
    for key in [first_layout(browser), "gluing", "joints"]:
        go_to(browser, key)
        assert faulted(browser) == [], key


def test_axe_finds_nothing_in_print(browser: webdriver.Chrome, small_page: Path) -> None:
    """As it is printed a screen is readable too, from a dark page as well."""
    opened(browser, small_page, 1280)
    browser.execute_script("document.documentElement.classList.add('dark')")
    go_to(browser, first_sheet(browser))
    browser.execute_cdp_cmd("Emulation.setEmulatedMedia", {"media": "print"})
    try:
        assert faulted(browser) == []
    finally:
        browser.execute_cdp_cmd("Emulation.setEmulatedMedia", {"media": ""})


def pages(browser: webdriver.Chrome, paper: tuple[float, float] = (8.27, 11.69)) -> int:
    """Print to PDF and count the pages; paper in inches, A4 unless told."""
    size = {"paperWidth": paper[0], "paperHeight": paper[1], "printBackground": True, "preferCSSPageSize": True}
    pdf = base64.b64decode(browser.execute_cdp_cmd("Page.printToPDF", size)["data"])
    return len(re.findall(rb"/Type\s*/Page\b(?!s)", pdf))


def hidden(browser: webdriver.Chrome, what: str) -> None:
    """Leave out of the print what a selector names."""
    browser.execute_script(
        "const made = document.createElement('style');"
        "const style = document.getElementById('left-out') || document.head.appendChild(made);"
        "style.id = 'left-out'; style.textContent = `@media print { ${arguments[0]} { display: none !important } }`",
        what,
    )


def test_each_screen_begins_on_a_page_of_its_own(browser: webdriver.Chrome, small_page: Path) -> None:
    """So many pages in all as the screens take one by one."""
    opened(browser, small_page, 1280)
    whole, alone = pages(browser), 0
    for key in screens(browser):
        hidden(browser, f"footer, header, main > section:not(#{key})")
        alone += pages(browser)
    assert whole == alone


def drawings_and_their_pages(browser: webdriver.Chrome, page: Path, paper: tuple[float, float]) -> tuple[int, int]:
    """Return how many drawings there are, and how many pages they take with nothing else but their headings."""
    opened(browser, page, 1280)
    browser.execute_script("dispatchEvent(new Event('beforeprint'))")
    drawn = browser.execute_script("return document.querySelectorAll('figure svg').length")
    hidden(browser, "footer, header, main > section:not(.drawn), main > section > :not(h2, figure)")
    return drawn, pages(browser, paper)


PAPERS = pytest.mark.parametrize("paper", [(8.27, 11.69), (8.5, 11.0)], ids=["A4", "Letter"])


@PAPERS
def test_no_drawing_is_cut_in_two(browser: webdriver.Chrome, page: Path, paper: tuple[float, float]) -> None:
    """Each takes one page: of sheets with few pieces and with many, of timber, of whole parts."""
    drawn, printed = drawings_and_their_pages(browser, page, paper)
    assert drawn == printed > 10


@PAPERS
def test_no_drawing_of_blanks_or_straps_is_cut_in_two(
    browser: webdriver.Chrome, other_page: Path, paper: tuple[float, float]
) -> None:
    """Each takes one page."""
    drawn, printed = drawings_and_their_pages(browser, other_page, paper)
    assert drawn == printed > 1


def test_one_screen_is_printed_alone(browser: webdriver.Chrome, small_page: Path) -> None:
    """The button prints what is seen, for instance the labels."""
    opened(browser, small_page, 1280)
    browser.execute_script("window.print = () => {}")
    go_to(browser, "cautions")
    browser.find_element(By.CSS_SELECTOR, ".current [aria-label='Print this screen alone']").click()
    assert pages(browser) == 1
    browser.execute_script("dispatchEvent(new Event('afterprint'))")
    assert pages(browser) > 5


def test_everything_is_readable_without_scripts(browser: webdriver.Chrome, small_page: Path) -> None:
    """Every screen is there with its words, tables and drawings, one below another, and nothing that needs a script."""
    made = report_files(sample_plan())
    browser.execute_cdp_cmd("Emulation.setScriptExecutionDisabled", {"value": True})
    try:
        opened(browser, small_page, 360)
        seen = browser.execute_script(
            "const high = (what) => [...document.querySelectorAll(what)].filter(e => e.offsetHeight ?? e.clientHeight);"
            "return { screens: high('main > section').length, tables: high('table').length,"
            "  drawings: high('figure svg').map(svg => svg.id), words: document.querySelector('main').innerText,"
            "  bar: high('.bar, button').length, wide: document.documentElement.scrollWidth }"
        )
    finally:
        browser.execute_cdp_cmd("Emulation.setScriptExecutionDisabled", {"value": False})
    assert seen["screens"] == made["index.html"].count("<section ")
    assert seen["tables"] == made["index.html"].count("<table")
    assert len(seen["drawings"]) == sum(name.endswith(".svg") for name in made)
    assert seen["bar"] == 0
    assert seen["wide"] <= 360
    for words in ("To pay: 123.30 EUR", "Wood dust", "gunwale", "Register marks", "Marking out of sheet S1"):
        assert words in seen["words"]
