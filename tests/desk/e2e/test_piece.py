"""The page of a piece in a real browser: seen at every size, and worked by mouse, finger and keyboard."""

from __future__ import annotations

from collections.abc import Callable

from playwright.sync_api import Page, expect
from tests.desk.e2e.served import Served
from tests.desk.e2e.visits import Visits, look_over

PIECE = "/piece/sewing-desk"
MOMENT = 60_000  # ms; plans take long while other tests keep the machine busy


def opened(visit: Callable[..., Page], size: str = "desktop", **more: object) -> Page:
    page = visit(PIECE, size, **more)
    page.locator("#pic[data-shown]").wait_for(timeout=MOMENT)
    return page


def file(desk: Served) -> str:
    return (desk.folder / "sewing-desk.yaml").read_text()


def until(page: Page, true: Callable[[], bool]) -> None:
    for _ in range(600):
        if true():
            return
        page.wait_for_timeout(100)
    raise AssertionError("it never came about")


def planned(page: Page) -> None:
    """Until nothing is waited for."""
    expect(page.locator("#waiting .is-waiting")).to_have_count(0, timeout=MOMENT)


def test_the_page_with_a_part_and_everything_open(visit: Visits, size: str) -> None:
    page = opened(visit, size)
    look_over(page, "piece")
    page.locator("#parts").get_by_role("button", name="left front leg").click()
    page.locator("#part").get_by_text("leg size inward from left + overhang").or_(
        page.locator("#part").get_by_role("textbox", name="wide", exact=True)
    ).first.wait_for(timeout=MOMENT)
    for summary in page.locator("#part summary, #state summary, #choices summary").all():
        summary.click()
    page.locator("#adding summary").click()
    page.get_by_role("button", name="Add a part").wait_for(timeout=MOMENT)
    look_over(page, "piece with all open")


def test_a_dialog(own_visit: Visits, size: str) -> None:
    page = opened(own_visit, size)
    page.get_by_role("button", name="leg size: a step more").click()
    page.locator("dialog[open]").wait_for(timeout=MOMENT)
    expect(page.get_by_role("heading", name="Leg size stands in hall-pieces.yaml.")).to_be_visible()
    look_over(page, "piece asking where")
    page.keyboard.press("Escape")
    expect(page.locator("dialog[open]")).to_have_count(0)


def test_trouble_keeps_the_last_good_answer(own_visit: Visits, own_desk: Served, size: str) -> None:
    page = opened(own_visit, size)
    broken = file(own_desk).replace("high: lip drop down", "high: lip dorp down")
    (own_desk.folder / "sewing-desk.yaml").write_text(broken)
    link = page.get_by_role("link", name="sewing-desk.yaml, line")
    link.wait_for(timeout=MOMENT)
    expect(page.locator("#state")).to_contain_text("What is shown is old")
    assert page.locator("#parts tbody tr").count() > 10
    look_over(page, "piece in trouble")
    link.click()
    text = page.get_by_label("The text")
    expect(text).to_be_focused()
    assert "lip dorp" in text.evaluate("field => field.value.slice(field.selectionStart, field.selectionEnd)")
    look_over(page, "text in trouble")


def test_a_piece_in_trouble_from_the_start(own_visit: Visits, own_desk: Served, size: str) -> None:
    whole = file(own_desk)
    (own_desk.folder / "sewing-desk.yaml").write_text(whole.replace("units: inches", "units: cubits"))
    page = own_visit(PIECE, size)
    expect(page.locator("#state")).to_contain_text("cubits", timeout=MOMENT)
    look_over(page, "piece in trouble from the start")
    (own_desk.folder / "sewing-desk.yaml").write_text(whole)
    page.locator("#pic[data-shown]").wait_for(timeout=MOMENT)


def test_the_text(visit: Visits, size: str) -> None:
    page = visit(f"{PIECE}/text?line=9", size)
    expect(page.get_by_label("The text")).to_be_focused()
    expect(page.locator("#where")).to_contain_text("line 9")
    look_over(page, "text")


def test_steps_pressed_quickly_are_all_taken(own_visit: Visits, own_desk: Served) -> None:
    page = opened(own_visit)
    more = page.get_by_role("button", name="fold depth: a step more")
    for _ in range(7):
        more.click()
    page.wait_for_timeout(400)
    for _ in range(5):
        more.click()
    page.get_by_role("button", name="fold depth: a step less").click()
    expect(page.get_by_label("fold depth", exact=True)).to_have_value("6 11/16", timeout=MOMENT)
    assert "fold depth: 6 11/16," in file(own_desk)
    expect(page.locator("dialog[open]")).to_have_count(0)


def test_two_fields_one_after_the_other(own_visit: Visits, own_desk: Served) -> None:
    page = opened(own_visit)
    page.get_by_label("fold depth", exact=True).fill("6 1/2")
    page.get_by_label("lip drop", exact=True).fill("3 1/2")  # leaving a field sends it
    page.get_by_label("fold depth", exact=True).fill("6 3/4")
    page.keyboard.press("Enter")
    expect(page.get_by_label("fold depth", exact=True)).to_have_attribute("data-was", "6 3/4", timeout=MOMENT)
    planned(page)
    assert "fold depth: 6 3/4, lip drop: 3 1/2," in file(own_desk)
    expect(page.locator("dialog[open]")).to_have_count(0)


def test_by_keyboard_alone(own_visit: Visits, own_desk: Served) -> None:
    """A size changed, taken back by Ctrl+Z, a part picked, a followed size answered, the file kept right."""
    was = file(own_desk)
    page = opened(own_visit)
    page.get_by_label("fold depth", exact=True).focus()
    page.keyboard.press("Control+A")
    page.keyboard.type("7")
    page.keyboard.press("Enter")
    expect(page.locator("#line")).to_contain_text("fold depth: 6 in → 7 in", timeout=MOMENT)
    expect(page.get_by_label("fold depth", exact=True)).to_be_focused()

    page.locator("#parts [data-part='fold rail']").focus()
    page.keyboard.press("Enter")
    page.locator("#part [data-part-shown='fold rail']").wait_for(timeout=MOMENT)
    page.keyboard.press("Control+z")
    expect(page.locator("#redo")).to_be_enabled(timeout=MOMENT)
    until(page, lambda: file(own_desk) == was)
    page.keyboard.press("Control+Shift+Z")
    until(page, lambda: "fold depth: 7," in file(own_desk))
    planned(page)

    page.get_by_label("leg size", exact=True).focus()
    page.keyboard.press("Control+A")
    page.keyboard.type("1 3/4")
    page.keyboard.press("Enter")
    page.locator("dialog[open]").wait_for(timeout=MOMENT)
    expect(page.get_by_role("button", name="In this piece alone")).to_be_focused()
    page.keyboard.press("Enter")
    expect(page.locator("dialog[open]")).to_have_count(0, timeout=MOMENT)
    assert "leg size: 1 3/4" in file(own_desk)
    assert "leg size: 1 5/8" in (own_desk.folder / "hall-pieces.yaml").read_text()


def test_a_choice_that_is_left_goes_back(own_visit: Visits, own_desk: Served) -> None:
    page = opened(own_visit)
    (own_desk.folder / "hall-pieces.yaml").write_text(
        (own_desk.folder / "hall-pieces.yaml").read_text() + "materials: {panels: walnut 3/4 or oak 3/4}\n"
    )
    chosen = page.get_by_label("panels", exact=True)
    chosen.select_option("walnut 3/4")
    expect(chosen).to_have_value("walnut 3/4")
    planned(page)
    for _ in range(100):
        if "panels: walnut 3/4 or walnut plywood 3/4" in file(own_desk):
            break
        page.wait_for_timeout(100)
    assert "panels: walnut 3/4 or walnut plywood 3/4" in file(own_desk)
    page.locator("#undo").click()
    expect(chosen).to_have_value("walnut plywood 3/4", timeout=MOMENT)


def test_a_finding_is_shown_and_a_part_picked_in_the_picture(visit: Visits) -> None:
    page = opened(visit)
    page.locator("#findings").get_by_role("button", name="Show").first.click()
    expect(page.locator("#pic-said")).to_contain_text("Finding 1")
    box = page.locator("#pic canvas").bounding_box()
    assert box
    page.mouse.click(box["x"] + box["width"] / 2, box["y"] + box["height"] * 0.3)
    page.locator("#part h2").wait_for(timeout=MOMENT)


def test_something_is_added_and_shown(own_visit: Visits, own_desk: Served) -> None:
    page = opened(own_visit)
    page.locator("#adding summary").click()
    page.get_by_label("Its name").fill("cleat")
    page.get_by_role("button", name="Add a part").click()
    page.locator("#parts [data-part='cleat']").wait_for(timeout=MOMENT)
    page.locator("#part [data-part-shown='cleat']").wait_for(timeout=MOMENT)
    assert "cleat:" in file(own_desk)
    page.locator("#part").get_by_role("button", name="Take it out of the piece").click()
    asking = page.locator("dialog[open]")
    expect(asking).to_contain_text("cleat", timeout=MOMENT)
    look_over(page, "piece difference")
    asking.get_by_role("button", name="Keep it").click()
    expect(page.locator("#parts [data-part='cleat']")).to_have_count(0, timeout=MOMENT)
    assert "cleat:" not in file(own_desk)


def test_names_that_are_up_to_no_good(own_visit: Visits, own_desk: Served) -> None:
    name = '50%2F "off" #1 <img src=x onerror=alert(1)> 🪑'
    title, part = "</title></script><img src=x onerror=alert(2)>", "it's כיסא"
    spans = "wide: between left side panel and right side panel, deep: thick forward from back - 3"
    new = f'  "{part}": {{{spans}, high: 2 down from bottom of fixed top}}\n'
    text = file(own_desk).replace("Sewing desk for a narrow hall", f"'{title}'")
    text = text.replace("joints:\n", f"{new}joints:\n", 1)
    (own_desk.folder / f"{name}.yaml").write_text(text)
    page = own_visit("/")
    said: list[str] = []
    page.on("dialog", lambda dialog: (said.append(dialog.message), dialog.dismiss()))
    page.locator(".card", has_text=f"{name}.yaml").get_by_role("link").first.click()
    page.locator("#pic[data-shown]").wait_for(timeout=MOMENT)
    expect(page.get_by_role("heading", level=1)).to_have_text(title)
    page.locator("#parts").get_by_role("button", name=part).click()
    expect(page.locator("#part h2")).to_contain_text(part, timeout=MOMENT)
    page.get_by_role("button", name="lip drop: a step more").click()
    expect(page.get_by_label("lip drop", exact=True)).to_have_value("3 1/16", timeout=MOMENT)
    page.get_by_role("link", name="The text", exact=True).click()
    expect(page.get_by_label("The text")).to_have_value(text.replace("lip drop: 3,", "lip drop: 3 1/16,"))
    assert said == []
