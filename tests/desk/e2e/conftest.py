"""Browser tests: one desk and one browser for all tests of a worker, both ended when the last is done.

def test_home(visit: Visits, size: str) -> None:          # three times: desktop, tablet, phone
    page = visit("/", size)                                # a fresh browser at the shared desk
    page.get_by_role("link", name="sewing desk").click()   # playwright's own words
    look_over(page, "piece")                               # axe, sideways scrolling, a picture

Tests that change files, or kill the desk, ask for `own_visit` and `own_desk` instead. Outside requests,
script errors, policy violations and warnings in the console fail a test at its end unless it said
`visit.expect("some words of it")` (`*AWAY` when the desk is killed). A traceback in the desk's log
fails it too.
"""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, sync_playwright
from tests.desk.e2e.axe import must_be_there
from tests.desk.e2e.served import Served, demo_folder
from tests.desk.e2e.visits import SIZES, Visits

from scantling.desk.sharing import home_addresses

# Nothing but this machine can be reached, and 3D is drawn in software, the same everywhere.
REACHED = ", ".join(f"EXCLUDE {address}" for address in ("127.0.0.1", *home_addresses()))
FLAGS = [
    "--no-sandbox",
    "--use-angle=swiftshader",
    "--enable-unsafe-swiftshader",
    "--ignore-gpu-blocklist",
    f"--host-resolver-rules=MAP * ~NOTFOUND, {REACHED}",
]


@pytest.fixture(params=SIZES)
def size(request: pytest.FixtureRequest) -> str:
    """Each size of screen in turn."""
    name: str = request.param
    return name


# Package, not session: while playwright runs, no other test in this process may run an event loop.
@pytest.fixture(scope="package")
def browser() -> Iterator[Browser]:
    """Debian's Chromium."""
    chromium = shutil.which("chromium")
    if chromium is None:
        (pytest.fail if must_be_there() else pytest.skip)("chromium is not on this machine")
    with sync_playwright() as playwright:
        opened = playwright.chromium.launch(executable_path=chromium, args=FLAGS)
        yield opened
        opened.close()


@pytest.fixture(scope="package")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    """The shared desk on the demo's folder: for looking, not for changing."""
    yield from _served(tmp_path_factory.mktemp("desk"))


@pytest.fixture
def own_desk(tmp_path: Path) -> Iterator[Served]:
    """A desk for one test, which may change its folder, kill it and start it again."""
    yield from _served(tmp_path)


@pytest.fixture
def visit(browser: Browser, desk: Served) -> Iterator[Visits]:
    """Opens pages of the shared desk."""
    yield from _visits(browser, desk)


@pytest.fixture
def own_visit(browser: Browser, own_desk: Served) -> Iterator[Visits]:
    """Opens pages of the test's own desk."""
    yield from _visits(browser, own_desk)


def _served(folder: Path) -> Iterator[Served]:
    served = Served(demo_folder(folder / "pieces"), folder / "desk.log").start()
    yield served
    served.kill()


def _visits(browser: Browser, desk: Served) -> Iterator[Visits]:
    visits = Visits(browser, desk)
    before = len(desk.log)
    yield visits
    assert visits.close() == []
    assert "Traceback" not in desk.log[before:], desk.log[before:][-4000:]
