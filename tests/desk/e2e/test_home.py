"""Home in a real browser at every size."""

from __future__ import annotations

from playwright.sync_api import expect
from tests.desk.e2e.served import Served
from tests.desk.e2e.visits import Visits, look_over

MOMENT = 60_000


def test_home(visit: Visits, size: str) -> None:
    page = visit("/", size)
    page.get_by_role("img", name="Picture of").first.wait_for(timeout=MOMENT)
    look_over(page, "home")


def test_a_piece_is_begun_by_keyboard_and_put_away(own_visit: Visits, own_desk: Served) -> None:
    page = own_visit("/")
    page.get_by_label("Its name").focus()
    page.keyboard.type("Copy of the desk")
    page.reload()
    expect(page.get_by_label("Its name")).to_have_value("Copy of the desk")
    page.get_by_label("Start from").select_option(label="Sewing desk for a narrow hall")
    page.get_by_role("button", name="Begin").focus()
    page.keyboard.press("Enter")
    page.get_by_role("heading", name="Copy of the desk").wait_for(timeout=MOMENT)
    page.goto(own_desk.url)
    expect(page.locator(".card h2").first).to_have_text("Copy of the desk")
    page.get_by_role("button", name="Put away Copy of the desk").click()
    page.get_by_text("Put away (1)").wait_for()
    expect(page.get_by_label("Its name")).to_have_value("")


def test_a_file_from_outside_appears(own_visit: Visits, own_desk: Served) -> None:
    page = own_visit("/")
    (own_desk.folder / "new.yaml").write_text("piece: Brought from outside\n")
    expect(page.get_by_role("link", name="Brought from outside")).to_be_visible(timeout=MOMENT)
