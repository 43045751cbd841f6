"""Where there is no 3D: the desk's drawing stands in, and lists and buttons go on."""

from __future__ import annotations

from playwright.sync_api import expect
from tests.desk.e2e.axe import violations


def test_the_drawing_stands_in_and_says_so(opened_flat):
    page = opened_flat()
    expect(page.locator(".pic-flat svg")).to_be_visible()
    expect(page.locator("#pic-said")).to_contain_text("no 3D")
    for gone in ("#pic-turn", "#pic-apart", "#pic-axes", "#pic-moves"):
        expect(page.locator(gone)).to_be_hidden()
    assert violations(page) == []


def test_parts_are_picked_in_the_drawing_and_in_the_list(opened_flat):
    page = opened_flat()
    page.locator(".pic-flat [data-part='right side']").first.click()
    assert page.evaluate("() => told.at(-1)") == ["pick", {"part": "right side"}]
    page.locator("#pic-parts button[data-part=lid]").click()
    expect(page.locator(".pic-flat .pic-chosen").first).to_have_attribute("data-part", "lid")


def test_poses_are_drawn(opened_flat):
    page = opened_flat()
    rest = page.locator(".pic-flat svg").evaluate("one => one.outerHTML")
    with page.expect_response("**/drawing?pose=open"):
        page.get_by_role("button", name="open", exact=True).click()
    page.wait_for_function("rest => document.querySelector('.pic-flat svg').outerHTML !== rest", arg=rest)
    assert page.locator(".pic-flat svg").evaluate("one => one.outerHTML") != rest


def test_a_face_is_moved_by_keyboard(opened_flat):
    page = opened_flat()
    page.locator("#pic-parts button[data-part=lid]").click()
    page.locator("#pic-faces button[data-face=top]").press("Enter")
    page.keyboard.press("ArrowUp")
    page.keyboard.press("Enter")
    assert page.evaluate("() => told.at(-1)") == [
        "drag",
        {"part": "lid", "face": "top", "steps": 1, "by_mm": 1.5875},
    ]
