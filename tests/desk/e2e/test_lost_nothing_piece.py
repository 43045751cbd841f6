"""Nothing typed on the page of a piece is lost: reload, restart, cut line, two tabs, an editor outside."""

from __future__ import annotations

import time
from collections.abc import Callable

from playwright.sync_api import Locator, Page, Route, expect
from tests.desk.e2e.served import DESK, Served
from tests.desk.e2e.visits import AWAY, Visits

PIECE = "/piece/sewing-desk"
MOMENT = 60_000  # ms; plans take long while other tests keep the machine busy


def opened(visit: Callable[..., Page], **more: object) -> Page:
    page = visit(PIECE, **more)
    page.locator("#pic[data-shown]").wait_for(timeout=MOMENT)
    return page


def size(page: Page, name: str = "fold depth") -> Locator:
    return page.get_by_label(name, exact=True)


def typed(page: Page, words: str) -> None:
    """Typed as a person does, and not sent."""
    size(page).click()
    page.keyboard.press("Control+A")
    page.keyboard.type(words)


def kept_on_the_desk(page: Page, words: str) -> None:
    with page.expect_response(lambda answer: answer.url.endswith("/drafts") and answer.ok):
        typed(page, words)


def file(desk: Served) -> str:
    return (desk.folder / "sewing-desk.yaml").read_text()


def until_written(page: Page, desk: Served, words: str) -> None:
    for _ in range(600):
        if words in file(desk):
            return
        page.wait_for_timeout(100)
    raise AssertionError(file(desk))


def test_words_in_a_field_survive_a_reload_and_can_be_sent(own_visit: Visits, own_desk: Served) -> None:
    page = opened(own_visit)
    typed(page, "6 1/2")
    page.reload()
    expect(size(page)).to_have_value("6 1/2")
    expect(page.locator("#sizes")).to_contain_text("Typed and not sent. 6 stands in the file.")
    assert "fold depth: 6," in file(own_desk)
    page.get_by_role("button", name="Send it").click()
    until_written(page, own_desk, "fold depth: 6 1/2,")
    expect(page.get_by_text("Typed and not sent.")).to_have_count(0, timeout=MOMENT)


def test_words_survive_a_killed_desk_and_another_browser_sees_them(
    own_visit: Visits, own_desk: Served
) -> None:
    own_visit.expect(*AWAY)
    page = opened(own_visit)
    kept_on_the_desk(page, "6 3/4")
    own_desk.restart()
    expect(size(page)).to_have_value("6 3/4")
    expect(page.locator("#line")).to_contain_text("The desk is back.", timeout=MOMENT)
    other = opened(own_visit)
    expect(size(other)).to_have_value("6 3/4")
    other.get_by_role("button", name="Let it go").click()
    expect(size(other)).to_have_value("6")
    assert "fold depth: 6," in file(own_desk)


def test_what_is_sent_while_the_desk_is_away_is_done_when_it_is_back(
    own_visit: Visits, own_desk: Served
) -> None:
    own_visit.expect(*AWAY)
    page = opened(own_visit)
    own_desk.kill()
    expect(page.locator("#line")).to_contain_text("The desk is away.", timeout=MOMENT)
    typed(page, "6 1/4")
    page.keyboard.press("Enter")
    size(page, "lip drop").fill("3 1/4")
    page.keyboard.press("Enter")
    own_desk.start()
    until_written(page, own_desk, "fold depth: 6 1/4,")
    until_written(page, own_desk, "lip drop: 3 1/4,")
    expect(size(page)).to_have_value("6 1/4")
    expect(page.locator("dialog[open]")).to_have_count(0)


def test_a_cut_line(own_visit: Visits, own_desk: Served) -> None:
    own_visit.expect(*AWAY)
    page = opened(own_visit)
    page.context.set_offline(True)
    typed(page, "6 1/8")
    page.keyboard.press("Enter")
    expect(page.locator("#line")).to_contain_text("The desk is away.", timeout=MOMENT)
    assert "fold depth: 6," in file(own_desk)
    page.context.set_offline(False)
    until_written(page, own_desk, "fold depth: 6 1/8,")


def test_two_tabs_follow_each_other_and_typed_words_stay(own_visit: Visits, own_desk: Served) -> None:
    first = opened(own_visit)
    second = opened(own_visit, beside=first)
    typed(second, "7 1/4")
    size(first, "lip drop").fill("3 1/2")
    size(first, "lip drop").press("Enter")
    expect(size(second, "lip drop")).to_have_value("3 1/2", timeout=MOMENT)
    expect(size(second)).to_have_value("7 1/4")

    # The same words changed in both: nothing is written over, both are shown.
    size(first).fill("6 1/2")
    size(first).press("Enter")
    until_written(first, own_desk, "fold depth: 6 1/2,")
    expect(first.locator("#line")).to_contain_text("fold depth", timeout=MOMENT)
    size(second).press("Enter")
    asking = second.locator("dialog[open]")
    expect(asking).to_contain_text("There stands now: 6 1/2", timeout=MOMENT)
    expect(asking).to_contain_text("You wrote: 7 1/4")
    assert "fold depth: 6 1/2," in file(own_desk)
    asking.get_by_role("button", name="Put mine there").click()
    until_written(second, own_desk, "fold depth: 7 1/4,")


SLOW_TO_PLAN = DESK.replace("run_desk(Path", "answering.PATIENCE = 0.05\nrun_desk(Path").replace(
    "import sys", "import sys\nfrom scantling.desk.piece import answering", 1
)


def test_a_plan_that_comes_while_the_page_still_loads_is_shown(own_visit: Visits, own_desk: Served) -> None:
    own_desk.kill()
    own_desk.program = SLOW_TO_PLAN
    own_desk.start()
    first = own_visit("/")

    def late(route: Route) -> None:
        time.sleep(4)  # the plan is there long before the script
        route.continue_()

    first.context.route("**/piece.*js*", late, times=1)
    page = opened(own_visit, beside=first)
    expect(page.get_by_text("Still working it out.")).to_have_count(0)


def test_an_editor_outside(own_visit: Visits, own_desk: Served) -> None:
    page = opened(own_visit)
    typed(page, "7 1/4")
    path = own_desk.folder / "sewing-desk.yaml"
    path.write_text(file(own_desk).replace("lip drop: 3,", "lip drop: 3 3/4,"))
    expect(size(page, "lip drop")).to_have_value("3 3/4", timeout=MOMENT)
    expect(size(page)).to_have_value("7 1/4")
    path.write_text(file(own_desk).replace("fold depth: 6,", "fold depth: 6 7/8,"))
    expect(page.get_by_role("status").first).to_be_attached()
    page.locator("input[data-was='6 7/8']").wait_for(state="attached", timeout=MOMENT)
    size(page).press("Enter")
    expect(page.locator("dialog[open]")).to_contain_text("There stands now: 6 7/8", timeout=MOMENT)
    page.get_by_role("button", name="Leave what stands there").click()
    assert "fold depth: 6 7/8," in file(own_desk)
    expect(size(page)).to_have_value("7 1/4")


def test_the_text_survives_too(own_visit: Visits, own_desk: Served) -> None:
    own_visit.expect(*AWAY)
    page = own_visit(f"{PIECE}/text")
    text = page.get_by_label("The text")
    with page.expect_response(lambda answer: answer.url.endswith("/drafts") and answer.ok):
        text.press("End")
        text.press_sequentially(" of ours")
    own_desk.restart()
    page.reload()
    page.locator("html.ready").wait_for()
    assert text.input_value().startswith("piece: Sewing desk for a narrow hall of ours")
    page.get_by_role("button", name="Keep it in the file").click()
    until_written(page, own_desk, "narrow hall of ours")
    expect(page.locator("#line")).to_contain_text("The text is kept.")
