"""A phone comes in over the home network and is sent away; both ends in real browsers."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page
from tests.desk.e2e.served import DESK, Served, demo_folder
from tests.desk.e2e.visits import Visits, look_over

from scantling.desk.sharing import home_addresses

# What a code to scan holds is tested in-process; here it must be known without a camera.
KNOWN_SECRETS = """
from itertools import count
from scantling.desk.sharing import devices
numbers = count(1)
devices.new_secret = lambda: f"secret-{next(numbers)}"
"""


@pytest.fixture
def shared(tmp_path: Path) -> Iterator[Served]:
    folder = demo_folder(tmp_path / "pieces")
    served = Served(folder, tmp_path / "log", KNOWN_SECRETS + DESK, more=("share",)).start()
    yield served
    served.kill()


@pytest.fixture
def at_home(browser: Browser, shared: Served) -> Iterator[Visits]:
    visits = Visits(browser, shared)
    yield visits
    assert visits.close() == []


@pytest.fixture
def over_network(browser: Browser, shared: Served) -> Iterator[Visits]:
    if not home_addresses():
        pytest.skip("this machine is in no network")
    visits = Visits(browser, replace(shared, host=home_addresses()[0]))
    # Browsers pass the first over, and say so, without encryption; one sent away finds the line shut.
    visits.expect("Cross-Origin-Opener-Policy", "WebSocket connection")
    yield visits
    assert visits.close() == []


def pass_code(served: Served) -> str:
    found = re.search(r"pass code (\w{4}-\w{4})", served.log)
    assert found
    return found[1]


def come_in(page: Page, code: str) -> None:
    page.get_by_label("Pass code").fill(code)
    page.get_by_role("button", name="Come in").click()


def test_a_phone_comes_in_by_the_code_and_is_sent_away(
    shared: Served, at_home: Visits, over_network: Visits
) -> None:
    phone = over_network("/piece/sewing-desk", "phone")
    look_over(phone, "sharing enter")
    come_in(phone, pass_code(shared).lower())
    phone.get_by_role("heading", name="Sewing desk").first.wait_for()
    assert phone.url.endswith("/piece/sewing-desk")

    desk = at_home("/sharing")
    look_over(desk, "sharing with a phone in")
    desk.get_by_role("button", name="Send away the phone").click()
    desk.get_by_text("Nobody but this machine").wait_for()
    phone.locator("#line", has_text="has to come in again").wait_for()
    phone.goto(f"http://{home_addresses()[0]}:{shared.port}/")
    assert "/enter" in phone.url


def test_the_scanned_code_lets_in_once_and_leaves_the_address(
    shared: Served, at_home: Visits, over_network: Visits
) -> None:
    desk = at_home("/sharing")
    code = desk.get_by_role("img", name="Code to scan").first
    assert code.evaluate("picture => picture.complete && picture.naturalWidth > 100")
    link = "/enter#secret-1"
    phone = over_network(link, "phone")
    phone.get_by_role("heading", name="All pieces").wait_for()
    assert "#" not in phone.url
    desk.get_by_text("A phone at").wait_for()  # the open page follows

    over_network.expect("403")
    other = over_network(link, "tablet")
    other.get_by_text("used already").wait_for()
    look_over(other, "sharing used link")
    assert "#" not in other.url


def test_a_wrong_code_is_told(over_network: Visits) -> None:
    over_network.expect("403")
    phone = over_network("/", "phone")
    come_in(phone, "3333-3333")
    phone.get_by_role("alert").get_by_text("not the pass code").wait_for()
    assert phone.get_by_label("Pass code").get_attribute("aria-invalid") == "true"
    look_over(phone, "sharing wrong code")


def test_the_page_at_the_desk(at_home: Visits, size: str) -> None:
    look_over(at_home("/sharing", size), "sharing")


def test_a_desk_that_is_not_shared_says_how(visit: Visits, size: str) -> None:
    look_over(visit("/sharing", size), "sharing off")
