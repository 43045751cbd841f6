"""The harness itself: each thing it must catch, it catches."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser
from tests.desk.e2e.axe import violations
from tests.desk.e2e.served import Served, demo_folder
from tests.desk.e2e.visits import PICTURES, SIZES, Visits, is_own, look_over

SMALL = "from tests.desk.e2e.small_desk import serve\nserve()"


@pytest.fixture
def small(tmp_path: Path) -> Iterator[Served]:
    served = Served(tmp_path, tmp_path / "log", SMALL).start()
    yield served
    served.kill()


@pytest.fixture
def visits(browser: Browser, small: Served) -> Iterator[Visits]:
    opened = Visits(browser, small)
    yield opened
    opened.close()


def test_a_good_page_gives_no_trouble(visits: Visits, size: str) -> None:
    page = visits("/", size)
    look_over(page, "good")
    assert page.evaluate("[innerWidth, navigator.maxTouchPoints > 0]") == [
        SIZES[size]["viewport"]["width"],
        size != "desktop",
    ]
    assert visits.close() == []


@pytest.mark.parametrize(
    ("path", "told"),
    [
        ("/outside", "outside request: http://cupboard.example"),
        ("/outside", "Content Security Policy"),
        ("/inline", "Content Security Policy"),
        ("/script-error", "script error: stumbled"),
        ("/nowhere", "404"),
    ],
)
def test_a_bad_page_is_caught(visits: Visits, path: str, told: str) -> None:
    visits(path).wait_for_load_state("networkidle")
    assert [trouble for trouble in visits.close() if told in trouble]


def test_what_a_test_expects_is_passed_over(visits: Visits) -> None:
    visits.expect("404")
    visits("/nowhere")
    assert visits.close() == []


def test_axe_finds_what_has_no_name(visits: Visits) -> None:
    found = violations(visits("/nameless"))
    assert {line.split(":")[0] for line in found} >= {"image-alt", "button-name"}


def test_a_page_that_scrolls_sideways_is_not_passed(visits: Visits) -> None:
    with pytest.raises(AssertionError):
        look_over(visits("/wide", "phone"), "wide")


def test_pictures_are_saved_where_they_are_wanted(
    visits: Visits, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(os.environ, PICTURES, str(tmp_path))
    look_over(visits("/", "phone"), "a good page")
    assert (tmp_path / "a-good-page-390.png").read_bytes().startswith(b"\x89PNG")


def test_it_is_killed_and_started_again_at_the_same_port(small: Served, visits: Visits) -> None:
    page = visits("/count")
    assert page.locator("p").inner_text() == "|"
    small.kill()
    with pytest.raises(Exception, match="ERR_CONNECTION_REFUSED"):
        page.reload()
    small.start()
    page.goto(f"{small.url}/count")
    assert page.locator("p").inner_text() == "||"


def test_two_tabs_share_a_browser_and_two_visits_do_not(visits: Visits) -> None:
    first = visits("/")
    first.evaluate("localStorage.setItem('kept', 'yes')")
    asked = "localStorage.getItem('kept')"
    assert visits("/", beside=first).evaluate(asked) == "yes"
    assert visits("/").evaluate(asked) is None


def test_the_desks_log_can_be_read(small: Served, visits: Visits) -> None:
    visits("/fail")
    assert "RuntimeError: on purpose" in small.log


def test_one_that_does_not_start_says_why(tmp_path: Path) -> None:
    with pytest.raises(AssertionError, match="no such folder"):
        Served(tmp_path, tmp_path / "log", "raise SystemExit('no such folder')").start()


@pytest.mark.parametrize(
    ("url", "own"),
    [
        ("http://127.0.0.1:80/x", True),
        ("ws://127.0.0.1:80/news", True),
        ("data:image/png,x", True),
        ("http://127.0.0.1:81/", False),
        ("https://127.0.0.1:80/", False),
        ("http://127.0.0.1:80.cupboard.example/", False),
        ("file:///etc/hosts", False),
    ],
)
def test_what_counts_as_the_desks_own(url: str, own: bool) -> None:
    assert is_own(url, "http://127.0.0.1:80") is own


def test_the_demo_folder_holds_the_demo(tmp_path: Path) -> None:
    names = {path.name for path in demo_folder(tmp_path / "pieces").iterdir()}
    assert names == {"sewing-desk.yaml", "hall-pieces.yaml", "shop.yaml"}
