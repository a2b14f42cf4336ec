"""Opens a page in Chromium, slowed down to a quarter, and tells when it could be used."""

import shutil
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from selenium import webdriver

#: How many times slower than this machine, and the screen of a phone.
SLOWER = 4
PHONE = {"width": 390, "height": 844, "deviceScaleFactor": 2, "mobile": True}

FLAGS = (
    "--headless=new --no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking "
    "--disable-component-update --disable-sync --hide-scrollbars"
)

#: Notes when the bar is there, and has been painted.
WATCH = """
new MutationObserver((_, watching) => {
  const bar = document.querySelector(".bar");
  if (!bar || bar.hidden) return;
  watching.disconnect();
  requestAnimationFrame(() => setTimeout(() => { window.usable = performance.now(); }));
}).observe(document, { subtree: true, childList: true, attributes: true });
"""

#: Shows the first sheet by the bar, and notes how long it takes until that has been painted.
SHOW = """
const done = arguments[0];
const sheet = [...document.querySelectorAll("main > section")].find((s) => /^(sheet|blank)-/.test(s.id));
const started = performance.now();
addEventListener("hashchange", () => {
  requestAnimationFrame(() => setTimeout(() => done(performance.now() - started)));
}, { once: true });
location.hash = sheet.id;
"""


@dataclass(frozen=True, kw_only=True)
class Seen:
    """Seconds until the page could be used, until all of it was read, and to show a sheet; what the browser said."""

    usable: float
    all_read: float
    sheet: float
    complaints: tuple[str, ...]


def looks(page: Path, times: int) -> list[Seen]:
    """Return what was seen each time the page was opened; the first time, when the browser itself is new, is left out.

    Raises
    ------
    RuntimeError
        If there is no Chromium with its driver.
    """
    with _browser() as driver:
        return [_look(driver, page) for _ in range(times + 1)][1:]


def _look(driver: webdriver.Chrome, page: Path) -> Seen:
    driver.get("about:blank")
    time.sleep(0.3)  # let the last page be put away
    driver.get(page.as_uri())
    usable = driver.execute_async_script(
        "const done = arguments[0];const wait = () => window.usable ? done(window.usable) : setTimeout(wait, 20);wait()"
    )
    read = driver.execute_script("return performance.getEntriesByType('navigation')[0].domContentLoadedEventEnd")
    sheet = driver.execute_async_script(SHOW)
    complaints = tuple(str(entry["message"]) for entry in driver.get_log("browser"))  # type: ignore[no-untyped-call]
    return Seen(usable=usable / 1000, all_read=read / 1000, sheet=sheet / 1000, complaints=complaints)


@contextmanager
def _browser() -> Iterator[webdriver.Chrome]:
    chromium, driver = shutil.which("chromium") or shutil.which("google-chrome"), shutil.which("chromedriver")
    if not chromium or not driver:
        raise RuntimeError("needs Chromium and its driver")
    options = webdriver.ChromeOptions()
    options.binary_location = chromium
    options.set_capability("goog:loggingPrefs", {"browser": "ALL"})
    for flag in FLAGS.split():
        options.add_argument(flag)
    browser = webdriver.Chrome(options=options, service=webdriver.ChromeService(driver))
    try:
        browser.execute_cdp_cmd("Page.addScriptToEvaluateOnNewDocument", {"source": WATCH})
        browser.execute_cdp_cmd("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
        browser.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", PHONE)
        yield browser
    finally:
        browser.quit()
