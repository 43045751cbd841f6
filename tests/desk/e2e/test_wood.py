"""The wood plan and the packet in a real browser."""

from __future__ import annotations

from playwright.sync_api import expect
from tests.desk.e2e.visits import Visits, look_over

WOOD = "/piece/sewing-desk/wood"
PUBLISH = "/piece/sewing-desk/publish"


def test_the_wood_plan_at_every_size(visit: Visits, size: str) -> None:
    page = visit(WOOD, size)
    page.locator("#routes").scroll_into_view_if_needed()
    expect(page.locator("#routes table")).to_be_visible()
    look_over(page, "wood")


def test_printing_at_every_size(visit: Visits, size: str) -> None:
    look_over(visit(PUBLISH, size), "publish")


def test_a_board_left_by_keyboard_and_taken_back(own_visit: Visits) -> None:
    page = own_visit(WOOD)
    page.get_by_role("button", name="Leave W6 for something else").focus()
    page.keyboard.press("Enter")
    expect(page.locator("#plan")).to_contain_text("left alone, as you said")
    expect(page.locator(".told")).to_contain_text("more is spent")
    page.locator("#undo").focus()
    page.keyboard.press("Enter")
    expect(page.locator("#plan")).not_to_contain_text("left alone, as you said")


def test_two_tabs_show_the_same_wood(own_visit: Visits) -> None:
    first = own_visit(WOOD)
    second = own_visit(WOOD, beside=first)
    first.get_by_role("button", name="Leave W6 for something else").click()
    expect(second.locator("#plan")).to_contain_text("left alone, as you said")


def test_the_packet_is_made_while_one_looks(own_visit: Visits) -> None:
    page = own_visit(PUBLISH)
    page.get_by_role("button", name="Make the packet").click()
    expect(page.get_by_role("button", name="Stop")).to_be_visible()
    expect(page.locator("#packet")).to_contain_text("The packet is made", timeout=120_000)
    expect(page.get_by_role("link", name="Open sewing-desk-for-a-narrow-hall.pdf")).to_be_visible()
