"""The build in a real browser: read, ticked, timed, noted and measured, at every size and over a restart."""

from __future__ import annotations

import re

from playwright.sync_api import Page, expect
from tests.desk.e2e.served import Served
from tests.desk.e2e.visits import AWAY, Visits, look_over, save_picture

HERE = "/piece/sewing-desk/build"
PLANNED = 60_000  # ms, on a machine that is busy with other tests


def at_step(page: Page, number: int) -> None:
    expect(page.locator(".step-number")).to_have_text(str(number), timeout=PLANNED)


def button(page: Page, name: str) -> None:
    page.get_by_role("button", name=name).first.click()


def test_the_pages_stand_at_every_size(visit: Visits, size: str) -> None:
    page = visit(HERE, size)
    at_step(page, 1)
    look_over(page, "build-first-step")
    page.goto(f"{page.url}?step=9")
    expect(page.locator(".step-picture")).to_have_js_property("complete", True)
    look_over(page, "build-step")
    for name, path in [
        ("parts", "/parts"),
        ("part", "/part?name=tray%20bottom"),
        ("boards", "/boards"),
        ("labels", "/labels"),
    ]:
        page.goto(visit.desk.url + HERE + path)
        look_over(page, f"build-{name}")


def test_everything_is_large_enough_for_dusty_fingers(visit: Visits) -> None:
    """Every control is at least 3 rem high."""
    page = visit(f"{HERE}?step=9", "tablet")
    at_step(page, 9)
    page.locator("details").evaluate_all("all => all.forEach(each => each.open = true)")
    small = page.locator(".build-page").evaluate(
        """root => [...root.querySelectorAll("button, a.button, .steps a, summary, input, textarea")]
        .filter(each => each.type !== "hidden")
        .filter(each => each.getBoundingClientRect().height < 48).map(each => each.outerHTML)"""
    )
    assert small == []


def test_at_the_saw_one_board_after_the_other_is_drawn(own_visit: Visits, size: str) -> None:
    page = own_visit(f"{HERE}?step=2", size)
    at_step(page, 2)
    first = page.locator("#in-hand-head").inner_text()
    expect(page.locator(".board-drawing svg")).to_be_visible()
    expect(page.locator(".cuts li").first).to_be_visible()
    page.get_by_role("link", name="Next board").click()
    expect(page.locator("#in-hand-head")).not_to_have_text(first)
    second = page.locator("#in-hand-head").inner_text()
    look_over(page, "build-board")
    page.locator("#note").fill("mind the knot")
    button(page, "Keep the note")
    expect(page.locator("#line")).to_have_text("Noted.")
    expect(page.locator("#in-hand-head")).to_have_text(second)


def test_boards_sawn_and_not_noted_are_told_before_a_size_is_kept(
    own_visit: Visits, own_desk: Served
) -> None:
    page = own_visit(f"{HERE}?step=2", "tablet")
    for number in (2, 3):
        page.goto(f"{own_desk.url}{HERE}?step={number}")
        at_step(page, number)
        button(page, "Done: tick it off")
        expect(page.get_by_role("button", name=re.compile("take it back"))).to_be_visible()
    page.goto(f"{own_desk.url}{HERE}/part?name=tray%20bottom")
    page.locator("#size").fill("31 1/2")
    button(page, "Show what that changes")
    expect(page.locator("#tried")).to_contain_text("ticked as sawn", timeout=PLANNED)
    look_over(page, "build-sawn")
    page.get_by_role("button", name=re.compile("as cut first")).click()
    page.get_by_role("button", name=re.compile("^Keep it: W1")).click(timeout=PLANNED)
    expect(page.locator("#tried")).to_contain_text("Kept:", timeout=PLANNED)
    expect(page.locator("#size")).to_have_value("31 1/2")
    button(page, "Show what that changes")
    expect(page.locator(".tried")).to_contain_text("tray bottom, length", timeout=PLANNED)
    expect(page.locator("#tried")).not_to_contain_text("ticked as sawn")


def test_ticked_with_the_keyboard_alone(own_visit: Visits) -> None:
    page = own_visit(f"{HERE}?step=1")
    at_step(page, 1)
    page.get_by_role("button", name="Done: tick it off").focus()
    page.keyboard.press("Enter")
    expect(page.locator("#line")).to_have_text("Ticked off.")
    page.get_by_role("link", name="Next: 2").focus()
    page.keyboard.press("Enter")
    at_step(page, 2)
    expect(page.locator(".step-line .state")).to_contain_text("ready now")
    page.goto(f"{own_visit.desk.url}{HERE}?step=1")
    button(page, "take it back")
    expect(page.get_by_role("button", name="Done: tick it off")).to_be_visible()


def test_two_tabs_follow_each_other_and_what_is_typed_stays(own_visit: Visits) -> None:
    first = own_visit(f"{HERE}?step=1")
    second = own_visit(f"{HERE}?step=1", beside=first)
    at_step(second, 1)
    second.locator("#note").fill("mind the knot")
    button(first, "Done: tick it off")
    expect(second.get_by_role("button", name=re.compile("take it back"))).to_be_visible()
    expect(second.locator("#note")).to_have_value("mind the knot")


def test_a_note_is_kept_over_a_kill(own_visit: Visits, own_desk: Served) -> None:
    page = own_visit(f"{HERE}?step=1")
    at_step(page, 1)
    own_visit.expect(*AWAY)
    page.locator("#note").fill("kept <b>note</b>")
    button(page, "Keep the note")
    expect(page.locator("#line")).to_have_text("Noted.")
    page.locator("#note").fill("typed, not kept yet")
    own_desk.restart()
    page.goto(f"{own_desk.url}{HERE}?step=1")
    at_step(page, 1)
    expect(page.locator("#note")).to_have_value("typed, not kept yet")
    elsewhere = own_visit(f"{HERE}?step=1")
    at_step(elsewhere, 1)
    assert elsewhere.locator("#note").input_value() in ("kept <b>note</b>", "typed, not kept yet")


def test_a_timer_counts_down_survives_a_kill_and_rings(own_visit: Visits, own_desk: Served) -> None:
    page = own_visit(f"{HERE}?step=9")
    at_step(page, 9)
    button(page, "Timer: wood glue in clamps")
    timer = page.locator(".timer")
    expect(timer).to_have_count(1)
    before = timer.locator(".timer-left").inner_text()
    expect(timer.locator(".timer-left")).not_to_have_text(before)
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.wait_for_timeout(2500)
    assert asked == []
    own_visit.expect(*AWAY)
    own_desk.restart()
    page.goto(f"{own_desk.url}{HERE}?step=9")
    at_step(page, 9)
    expect(timer).to_contain_text(re.compile(r"4[34]:\d\d"))
    page.locator(".own-timer summary").click()
    page.get_by_label("For what").fill("</li><b>tea</b>")
    page.get_by_label("How long").fill("0.04 min")
    button(page, "Start it")
    expect(page.get_by_role("alert")).to_have_text("Time is up: </li><b>tea</b>", timeout=10_000)
    expect(page).to_have_title(re.compile("^▲ Time is up"))
    save_picture(page, "build-timers")
    button(page, "Heard </li>")
    expect(timer).to_have_count(1)
    expect(page).not_to_have_title(re.compile("Time is up"))


def test_half_an_hour_is_filled(visit: Visits, size: str) -> None:
    page = visit(HERE, size)
    at_step(page, 1)
    page.get_by_role("button", name="2 h").click()
    expect(page.locator(".proposals li").first).to_be_visible()
    look_over(page, "build-spare")
    page.locator(".proposal").first.click()
    expect(page.locator(".step-number")).to_be_visible()


def test_measured_by_keys_shown_kept_and_undone(own_visit: Visits, own_desk: Served, size: str) -> None:
    page = own_visit(f"{HERE}/part?name=tray%20bottom", size)
    for key in ("3", "1", "5/8", "+1/32"):
        page.get_by_role("button", name=key, exact=True).click()
    expect(page.locator("#size")).to_have_value("31 21/32")
    button(page, "Show what that changes")
    expect(page.locator(".tried")).to_be_visible(timeout=PLANNED)
    expect(page.locator(".tried")).to_contain_text("tray bottom, length")
    assert not (own_desk.folder / "sewing-desk.build.yaml").exists()
    look_over(page, "build-difference")
    button(page, "Keep it")
    expect(page.locator("#tried")).to_contain_text("Kept:")
    assert "wide: 31 21/32" in (own_desk.folder / "sewing-desk.build.yaml").read_text()
    button(page, "Undo: tray bottom measured: length 31 21/32")
    expect(page.locator("#tried")).to_contain_text("Taken back")
    assert not (own_desk.folder / "sewing-desk.build.yaml").exists()


def test_a_part_is_found_by_a_word_of_its_name(visit: Visits) -> None:
    page = visit(f"{HERE}/parts?step=9", "tablet")
    page.get_by_label("Find a part").fill("tray bott")
    expect(page.locator(".part-list li:visible")).to_have_count(1)
    page.locator(".part-list li:visible a").click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("tray bottom")


def test_words_that_are_no_size_are_told_and_stay(own_visit: Visits) -> None:
    page = own_visit(f"{HERE}/part?name=tray%20bottom", "tablet")
    page.locator("#size").fill("two feet")
    page.locator("#size").press("Enter")
    expect(page.locator("#tried")).to_contain_text("is not a number", timeout=PLANNED)
    page.reload()
    expect(page.locator("#size")).to_have_value("two feet")


def test_a_file_changed_outside_shows_at_once(own_visit: Visits, own_desk: Served) -> None:
    page = own_visit(f"{HERE}?step=1")
    at_step(page, 1)
    file = own_desk.folder / "sewing-desk.yaml"
    file.write_text("piece: broken\nparts: {leg: {wide: <img src=x onerror=alert(1)>}}\n")
    expect(page.locator("#build")).to_contain_text("can’t be worked out", timeout=PLANNED)
    assert page.locator("#build img").count() == 0


def test_labels_are_fetched_as_a_print(visit: Visits) -> None:
    page = visit(f"{HERE}/labels")
    answer = page.context.request.get(f"{visit.desk.url}{HERE}/labels.pdf?sheet=letter%20plain")
    assert answer.ok
    assert answer.body().startswith(b"%PDF")
