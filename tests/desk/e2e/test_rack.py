"""The rack in a real browser: looked over at every size; defects drawn by mouse, finger and keyboard."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Page, expect
from tests.desk.e2e.served import Served
from tests.desk.e2e.visits import AWAY, Visits, look_over
from tests.desk.rack.photo import board_seen_aslant

W2 = "/rack/board?board=W2"


def text(desk: Served) -> str:
    return (desk.folder / "shop.yaml").read_text(encoding="utf-8")


def line_of(desk: Served, board: str) -> str:
    return next(line for line in text(desk).splitlines() if line.strip().startswith(f"{board}:"))


@pytest.mark.parametrize(
    ("path", "name"),
    [
        ("/rack", "rack"),
        ("/rack/add", "rack add"),
        (W2, "rack board"),
        ("/rack/table/hardware", "rack hardware"),
        ("/rack/table/sheets", "rack sheets"),
        ("/rack/head", "rack shop"),
        ("/rack/text", "rack file"),
    ],
)
def test_every_page_at_every_size(visit: Visits, size: str, path: str, name: str) -> None:
    look_over(visit(path, size), name)


def corner_of_board(page: Page, along: float, across: float) -> tuple[float, float]:
    """Where a point of the board [mm] is on the screen."""
    at = page.evaluate(
        """([x, y]) => {
            const drawing = document.getElementById("drawing");
            const at = new DOMPoint(x, y).matrixTransform(drawing.getScreenCTM());
            return [at.x, at.y];
        }""",
        [along, across],
    )
    return at[0], at[1]


def test_a_defect_is_drawn_with_the_mouse(own_visit: Visits, own_desk: Served) -> None:
    page = own_visit("/rack/board?board=W1")
    page.get_by_label("What", exact=True).first.select_option("check")
    page.get_by_role("button", name="Draw").click()
    page.locator("#surface").scroll_into_view_if_needed()
    start, end = corner_of_board(page, 20 * 25.4, 2 * 25.4), corner_of_board(page, 30 * 25.4, 4 * 25.4)
    page.mouse.move(*start)
    page.mouse.down()
    page.mouse.move(*end, steps=6)
    page.mouse.up()
    expect(page.locator("#marks li")).to_have_count(1)
    written = line_of(own_desk, "W1").split(", ")[-1]
    reaches = [
        float(sum_of(word)) for word in written.removeprefix("check ").replace(" x ", " to ").split(" to ")
    ]
    assert reaches == pytest.approx([20, 30, 2, 4], abs=0.15)
    expect(page.locator("#drawing .mark")).to_have_count(1)
    page.get_by_role("button", name="Undo: W1: check marked").click()
    expect(page.locator("#marks li")).to_have_count(0)


def sum_of(words: str) -> float:
    """`32 1/2` as 32.5."""
    return sum(eval_part(part) for part in words.split())


def eval_part(part: str) -> float:
    over, _, under = part.partition("/")
    return float(over) / float(under or 1)


def test_a_defect_is_drawn_with_a_finger(own_visit: Visits, own_desk: Served) -> None:
    page = own_visit("/rack/board?board=W3", "phone")
    before = line_of(own_desk, "W3")
    page.get_by_role("button", name="Draw").tap()
    page.locator("#surface").scroll_into_view_if_needed()
    finger = Finger(page)
    start, end = corner_of_board(page, 100, 20), corner_of_board(page, 160, 130)  # mostly downwards
    finger("touchStart", start)
    for share in (0.3, 0.6, 1.0):
        finger("touchMove", tuple(a + (b - a) * share for a, b in zip(start, end, strict=True)))
    assert line_of(own_desk, "W3") == before  # nothing goes to the desk until the finger lifts
    finger("touchEnd")
    expect(page.locator("#marks li")).to_have_count(2)
    assert line_of(own_desk, "W3").startswith(f"{before}, knot 3 15/16 to 6 5/16 x ")


def test_a_stroke_that_is_cut_off_is_not_kept(own_visit: Visits, own_desk: Served) -> None:
    page = own_visit("/rack/board?board=W3", "phone")
    before = text(own_desk)
    page.get_by_role("button", name="Draw").tap()
    page.locator("#surface").scroll_into_view_if_needed()
    finger = Finger(page)
    finger("touchStart", corner_of_board(page, 100, 20))
    finger("touchMove", corner_of_board(page, 160, 100))
    finger("touchCancel")
    expect(page.locator("#line")).to_have_text("That was not kept.")
    assert page.locator("#ghost").get_attribute("width") == "0"
    assert text(own_desk) == before


class Finger:
    """One finger on the screen, as the browser itself gets it."""

    def __init__(self, page: Page) -> None:
        self._session = page.context.new_cdp_session(page)

    def __call__(self, what: str, at: tuple[float, ...] | None = None) -> None:
        points = [{"x": at[0], "y": at[1]}] if at else []
        self._session.send("Input.dispatchTouchEvent", {"type": what, "touchPoints": points})


def test_a_defect_is_placed_with_the_keyboard_alone(own_visit: Visits, own_desk: Served) -> None:
    page = own_visit("/rack/board?board=W4")
    page.get_by_label("Where it shows").focus()
    page.keyboard.press("ArrowDown")
    page.get_by_role("button", name="Add defect").focus()
    page.keyboard.press("Enter")
    expect(page.locator("#line")).to_contain_text("in hand")
    for key in ("ArrowRight", "ArrowDown", "Shift+ArrowRight", "Shift+ArrowUp"):
        page.keyboard.press(key)
    spoken = page.locator("#line").text_content() or ""
    page.keyboard.press("Enter")
    expect(page.locator("#marks li")).to_have_count(1)
    along, across = spoken.split(" along, ")[0], spoken.split(" along, ")[1].removesuffix(" across")
    assert line_of(own_desk, "W4").endswith(f", figure curl, knot {along} x {across} on {chosen_face(page)}")


def chosen_face(page: Page) -> str:
    value: str = page.locator("#face").input_value()
    return value


def test_a_defect_in_the_list_is_moved_with_the_arrows(own_visit: Visits, own_desk: Served) -> None:
    page = own_visit(W2)
    page.get_by_role("button", name="Move knot").press("Enter")
    page.keyboard.press("ArrowRight")
    page.keyboard.press("Enter")
    expect(page.locator("#from1")).to_have_value("30 1/4")
    assert "knot 30 1/4 to 32 3/4 x 2 to 4" in line_of(own_desk, "W2")
    page.get_by_role("button", name="Move knot").press("Enter")
    page.keyboard.press("ArrowRight")
    page.keyboard.press("Escape")
    assert "knot 30 1/4 to 32 3/4" in line_of(own_desk, "W2")


def test_a_board_is_added_on_a_phone(own_visit: Visits, own_desk: Served) -> None:
    page = own_visit("/rack/add", "phone")
    page.get_by_label("Where it stands").select_option("walnut, 4/4 rough, moisture 7 %")
    expect(page.get_by_role("button", name="Put it on the rack as W13")).to_be_visible()
    page.get_by_label("Length").fill("61")
    page.get_by_label("Width").fill("7")
    page.get_by_label("Width").tap()
    page.get_by_role("button", name="1/2", exact=True).tap()
    expect(page.get_by_label("Width")).to_have_value("7 1/2")
    page.get_by_label("Thickness").fill("1")
    page.get_by_label("Thickness").tap()
    page.get_by_role("button", name="+ 1/16").tap()
    page.get_by_label("Bow").fill("3/8")
    page.get_by_role("button", name="Put it on the rack").tap()
    expect(page.get_by_text("Board W13 is on the rack")).to_be_visible()
    assert line_of(own_desk, "W13").strip() == "W13: 61 x 7 1/2 x 1 1/16, bow 3/8"
    expect(page.get_by_label("Length")).to_have_value("")
    expect(page.get_by_label("Where it stands")).to_have_value("walnut, 4/4 rough, moisture 7 %")
    page.reload()
    expect(page.get_by_label("Length")).to_have_value("")


def test_a_slip_in_a_new_board_is_told_at_its_field(own_visit: Visits, own_desk: Served, size: str) -> None:
    own_visit.expect("422")
    page = own_visit("/rack/add", size)
    before = text(own_desk)
    for name, words in (("Length", "61"), ("Width", "eight"), ("Thickness", "1")):
        page.get_by_label(name).fill(words)
    page.get_by_role("button", name="Put it on the rack").click()
    width = page.get_by_label("Width")
    expect(width).to_be_focused()
    expect(width).to_be_in_viewport()
    expect(width.locator("+ .amiss-words")).to_contain_text("is not a number")
    look_over(page, "rack add fault")
    assert text(own_desk) == before
    width.fill("8")
    page.get_by_role("button", name="Put it on the rack").click()
    expect(page.locator("#line")).to_contain_text("is on the rack.")
    expect(page.get_by_label("Length")).to_be_focused()
    expect(page.locator("#amiss")).to_be_empty()


def test_the_rule_can_be_read_however_close_the_board_is(visit: Visits, size: str) -> None:
    page = visit("/rack/board?board=W3", size)
    numbers = page.locator(".rule text").first
    high = numbers.evaluate("each => each.getBoundingClientRect().height")
    wide = page.locator("#drawing").bounding_box()
    page.get_by_role("button", name="Closer").click()
    closer = page.locator("#drawing").bounding_box()
    assert wide
    assert closer
    assert wide["width"] * 1.2 < closer["width"] < wide["width"] * 2
    assert 12 < high == pytest.approx(numbers.evaluate("each => each.getBoundingClientRect().height"), abs=2)


def test_a_board_half_typed_outlasts_a_kill(own_visit: Visits, own_desk: Served) -> None:
    own_visit.expect(*AWAY)
    page = own_visit("/rack/add")
    page.get_by_label("Length").fill("61 1/2")
    page.wait_for_timeout(900)
    own_desk.restart()
    again = own_visit("/rack/add")
    expect(again.get_by_label("Length")).to_have_value("61 1/2")


def test_a_cell_is_changed_and_a_wrong_one_told(own_visit: Visits, own_desk: Served) -> None:
    own_visit.expect("422")
    page = own_visit("/rack/table/clamps")
    cell = page.get_by_label("bar clamp, how many", exact=True)
    cell.fill("9")
    cell.press("Tab")
    expect(page.get_by_role("button", name="Undo: bar clamp: how many 9")).to_be_visible()
    assert "bar clamp: 9, opens 24" in text(own_desk)
    cell.fill("some")
    cell.press("Tab")
    expect(page.get_by_text("is not a whole number")).to_be_visible()
    look_over(page, "rack fault")
    assert "bar clamp: 9, opens 24" in text(own_desk)


def test_cells_pasted_into_the_table_are_looked_over(own_visit: Visits, own_desk: Served) -> None:
    page = own_visit("/rack/table/clamps")
    before = text(own_desk)
    paste_into(page, "bar clamp, how many", "10\t30\n5\twide")
    expect(page.get_by_text("1 thing to mend")).to_be_visible()
    expect(page.get_by_text("is not a number")).to_be_visible()
    look_over(page, "rack pasted")
    assert text(own_desk) == before
    paste_into(page, "bar clamp, how many", "10\t30\n5\t52")
    page.get_by_role("button", name="Write 2 lines").click()
    expect(page.get_by_label("long bar clamp, opens")).to_have_value("52")
    assert "  bar clamp: 10, opens 30, force 400 lb\n  long bar clamp: 5, opens 52, force 600 lb\n" in text(
        own_desk
    )


def paste_into(page: Page, label: str, words: str) -> None:
    page.get_by_label(label, exact=True).evaluate(
        """(cell, words) => {
            const carried = new DataTransfer();
            carried.setData("text/plain", words);
            const pasted = {clipboardData: carried, bubbles: true, cancelable: true};
            cell.dispatchEvent(new ClipboardEvent("paste", pasted));
        }""",
        words,
    )


def test_a_photo_is_straightened_by_its_corners(own_visit: Visits, tmp_path: Path) -> None:
    photo = tmp_path / "board.png"
    photo.write_bytes(board_seen_aslant())
    page = own_visit(W2)
    page.get_by_label("Take or choose a photo").set_input_files(photo)
    page.get_by_role("button", name="Keep this photo").click()
    first = page.get_by_role("button", name="Corner 1")
    expect(first).to_be_attached()
    look_over(page, "rack corners")
    first.focus()
    left = float((first.evaluate("ring => ring.style.left")).removesuffix("%"))
    page.keyboard.press("Shift+ArrowRight")
    assert float(first.evaluate("ring => ring.style.left").removesuffix("%")) == pytest.approx(left + 2.5)
    box = page.locator("#corners").bounding_box()
    assert box
    for name, (x, y) in zip("1234", [(100, 100), (700, 60), (760, 300), (60, 260)], strict=True):
        ring = page.get_by_role("button", name=f"Corner {name}")
        ring.scroll_into_view_if_needed()
        box, at = page.locator("#corners").bounding_box(), ring.bounding_box()
        assert box
        assert at
        page.mouse.move(at["x"] + at["width"] / 2, at["y"] + at["height"] / 2)
        page.mouse.down()
        page.mouse.move(box["x"] + box["width"] * x / 800, box["y"] + box["height"] * y / 400, steps=4)
        page.mouse.up()
    page.get_by_role("button", name="Straighten it by these corners").click()
    expect(page.locator("#drawing image")).to_have_count(1)
    look_over(page, "rack straightened")


def test_a_change_elsewhere_is_told(own_visit: Visits, own_desk: Served) -> None:
    own_visit.expect("422")
    page = own_visit("/rack/table/clamps")
    other = own_visit("/rack/table/clamps", beside=page)
    other.get_by_label("bar clamp, how many", exact=True).fill("9")
    other.get_by_label("bar clamp, how many", exact=True).press("Tab")
    expect(other.get_by_role("button", name="Undo: bar clamp: how many 9")).to_be_visible()
    expect(page.locator("#elsewhere")).to_be_visible()
    expect(other.locator("#elsewhere")).to_be_hidden()
    page.get_by_label("bar clamp, how many", exact=True).fill("7")
    page.get_by_label("bar clamp, how many", exact=True).press("Tab")
    expect(page.get_by_text("says “9” here by now")).to_be_visible()
    assert "bar clamp: 9, opens 24" in text(own_desk)


def test_a_board_says_which_piece_uses_it(visit: Visits) -> None:
    page = visit("/rack/board?board=W1")
    expect(page.locator("#uses")).not_to_contain_text("Looking", timeout=60_000)
    expect(page.locator("#uses a")).to_have_text(["Sewing desk for a narrow hall"])
