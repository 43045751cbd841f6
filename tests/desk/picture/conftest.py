"""Pictures served under the strict policy, and pages of them in a real browser."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, Playwright, sync_playwright
from tests.desk.e2e.axe import must_be_there
from tests.desk.picture.pieces import HOSTILE, lidded, slatted
from tests.desk.picture.serving import pictures_app, serving

from scantling.quantity.kinds import LengthUnit

COMMON = ["--no-sandbox", "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1"]
SOLID = [*COMMON, "--use-angle=swiftshader", "--enable-unsafe-swiftshader", "--ignore-gpu-blocklist"]
FLAT = [*COMMON, "--disable-gpu", "--disable-3d-apis"]

Opened = Callable[..., Page]


@pytest.fixture(scope="package")
def address() -> Iterator[str]:
    plans = {
        "plain": lidded(),
        "wider": lidded(side=50.0),
        "metric": lidded(unit=LengthUnit.MM),
        "hostile": lidded(tray=HOSTILE),
        "many": slatted(300),
    }
    with serving(pictures_app(plans)) as at:
        yield at


# Package, not session: while playwright runs, no other test in this process may run an event loop.
@pytest.fixture(scope="package")
def player() -> Iterator[Playwright]:
    with sync_playwright() as running:
        yield running


@pytest.fixture(scope="package")
def solid_browser(player: Playwright) -> Iterator[Browser]:
    yield from launched(player, SOLID)


@pytest.fixture(scope="package")
def flat_browser(player: Playwright) -> Iterator[Browser]:
    yield from launched(player, FLAT)


def launched(player: Playwright, flags: list[str]) -> Iterator[Browser]:
    chromium = shutil.which("chromium")
    if chromium is None:
        (pytest.fail if must_be_there() else pytest.skip)("chromium is not on this machine")
    browser = player.chromium.launch(executable_path=chromium, args=flags)
    yield browser
    browser.close()


@pytest.fixture
def opened(solid_browser: Browser, address: str) -> Iterator[Opened]:
    """Opens the page of a picture by its name; what the console says, or asks outside, fails the test."""
    yield from pages(solid_browser, address)


@pytest.fixture
def opened_flat(flat_browser: Browser, address: str) -> Iterator[Opened]:
    """The same where there is no 3D."""
    yield from pages(flat_browser, address)


def pages(browser: Browser, address: str) -> Iterator[Opened]:
    troubles: list[str] = []
    contexts = []

    def opened(of: str = "plain", **more: Any) -> Page:
        more = {"viewport": {"width": 800, "height": 700}, "reduced_motion": "reduce", **more}
        contexts.append(browser.new_context(**more))
        page = contexts[-1].new_page()
        page.on(
            "console", lambda told: troubles.append(told.text) if told.type in ("error", "warning") else None
        )
        page.on("pageerror", lambda error: troubles.append(str(error)))
        page.on("request", lambda asked: troubles.append(asked.url) if outside(asked.url) else None)
        page.goto(f"{address}/?of={of}")
        page.wait_for_selector("html.ready")
        page.evaluate("() => document.querySelectorAll('details').forEach(one => { one.open = true; })")
        return page

    def outside(asked: str) -> bool:
        return not asked.startswith((address, "data:"))

    yield opened
    for context in contexts:
        context.close()
    assert troubles == []
