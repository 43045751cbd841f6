"""Every route of the build, as a browser asks it."""

from __future__ import annotations

import html
import json
import re

from starlette.testclient import TestClient

from scantling.desk.build.view import BuildView, build_view
from scantling.desk.desk import Desk


def view_of(client: TestClient, desk: Desk, slug: str) -> BuildView:
    """The steps, as the desk's own worker gives them."""
    found: BuildView = client.portal.call(desk.planner.ask, build_view, desk.asked(slug))  # type: ignore[union-attr]
    return found


def words(text: str) -> str:
    return " ".join(html.unescape(re.sub(r"<[^>]+>", " ", text)).split())


def field(text: str, name: str) -> str:
    found = re.search(rf'name="{name}" value="([^"]*)"', text)
    assert found, name
    return html.unescape(found.group(1))


def test_the_page_shows_the_first_step_that_is_ready(
    client: TestClient, page: str, desk: Desk, slug: str
) -> None:
    text = client.get(page).text
    first = view_of(client, desk, slug).steps[0]
    assert f'<h2 id="step-head">{html.escape(first.title)}' in text.replace("&#34;", '"')
    assert "ready now" in text
    assert f"0 of {len(view_of(client, desk, slug).steps)} steps done" in words(text)
    assert "style=" not in text
    assert "<script>" not in text


def test_cautions_come_before_the_text_of_a_step(
    client: TestClient, page: str, desk: Desk, slug: str
) -> None:
    step = next(each for each in view_of(client, desk, slug).steps if each.cautions)
    text = words(client.get(f"{page}?step={step.number}").text)
    assert text.index(" ".join(step.cautions[0].split())) < text.index(" ".join(step.text.split()))


def test_ticked_and_taken_back(client: TestClient, page: str, desk: Desk, slug: str) -> None:
    key = view_of(client, desk, slug).steps[0].key
    answer = client.post(f"{page}/tick", data={"key": key, "step": "1"})
    assert json.loads(answer.headers["HX-Trigger"])["desk:say"]["words"] == "Ticked off."
    assert "take it back" in answer.text
    assert list(desk.ledger.builds.ticks(slug)) == [key]
    answer = client.post(f"{page}/untick", data={"key": key, "step": "1"})
    assert "Done: tick it off" in answer.text
    assert desk.ledger.builds.ticks(slug) == {}


def test_a_step_the_plan_does_not_have_is_not_ticked(
    client: TestClient, page: str, desk: Desk, slug: str
) -> None:
    answer = client.post(f"{page}/tick", data={"key": "Gild it ~a.b.c", "step": "1"})
    assert "has changed" in answer.headers["HX-Trigger"]
    assert desk.ledger.builds.ticks(slug) == {}


def test_a_step_that_changed_since_is_told_and_may_stand(
    client: TestClient, page: str, desk: Desk, slug: str
) -> None:
    key = view_of(client, desk, slug).steps[0].key
    old = re.sub(r"[0-9a-f]{8}$", "00000000", key)
    when = desk.ledger.builds.tick(slug, old)
    text = client.get(f"{page}?step=1").text
    assert "Done earlier, changed since" in words(text)
    client.post(f"{page}/still", data={"old": old, "key": key, "step": "1"})
    assert desk.ledger.builds.ticks(slug) == {key: when}


def test_a_tick_without_a_step_is_told_and_may_be_forgotten(
    client: TestClient, page: str, desk: Desk, slug: str
) -> None:
    desk.ledger.builds.tick(slug, "<b>Gild</b> it ~a.b.c")
    text = client.get(page).text
    assert "no longer in the plan (1)" in text
    assert "&lt;b&gt;Gild&lt;/b&gt; it" in text
    client.post(f"{page}/untick", data={"key": "<b>Gild</b> it ~a.b.c"})
    assert "no longer in the plan" not in client.get(page).text


def test_a_note_stays_through_a_changed_step(client: TestClient, page: str, desk: Desk, slug: str) -> None:
    key = view_of(client, desk, slug).steps[0].key
    old = re.sub(r"[0-9a-f]{8}$", "00000000", key)
    desk.ledger.builds.note(slug, "mind the <knot>", old)
    text = client.get(f"{page}?step=1").text
    assert "mind the &lt;knot&gt;" in text
    assert field(text, "old") == old
    answer = client.post(f"{page}/note", data={"key": key, "old": old, "text": "it is gone", "step": "1"})
    assert json.loads(answer.headers["HX-Trigger"])["desk:taken"]["fields"] == [f"note {key}"]
    assert {k: n.text for k, n in desk.ledger.builds.notes(slug).items()} == {key: "it is gone"}
    client.post(f"{page}/note", data={"key": key, "old": key, "text": "it is gone", "step": "1"})
    assert len(desk.ledger.builds.note_history(slug, key)) == 1


def test_timers_run_stop_and_are_heard(client: TestClient, page: str, desk: Desk, slug: str) -> None:
    answer = client.post(f"{page}/timer", data={"label": "glue <b>up</b>", "minutes": "1 h 30", "step": "1"})
    assert "glue &lt;b&gt;up&lt;/b&gt;" in answer.text
    (timer,) = desk.ledger.builds.timers(slug)
    assert timer.minutes == 90
    left = int(re.search(r'data-left="(\d+)"', answer.text).group(1))  # type: ignore[union-attr]
    assert 89 * 60_000 < left <= 90 * 60_000
    assert "glue &lt;b&gt;up" in client.get(f"{page}/parts").text
    client.post(f"{page}/timer/end", data={"number": str(timer.number), "heard": ""})
    assert desk.ledger.builds.timers(slug)[0].state == "stopped"
    assert "glue" not in client.get(f"{page}/timers").text


def test_a_timer_without_a_time_says_what_to_write(
    client: TestClient, page: str, desk: Desk, slug: str
) -> None:
    for said in ("soon", "", "0", "9999 h"):
        answer = client.post(f"{page}/timer", data={"label": "x", "minutes": said})
        assert json.loads(answer.headers["HX-Trigger"])["desk:say"]["words"]
    assert desk.ledger.builds.timers(slug) == ()


def test_what_fits_is_proposed_with_a_reason(client: TestClient, page: str) -> None:
    text = client.get(f"{page}/spare?minutes=120").text
    assert 'aria-pressed="true"' in text
    assert "?step=" in text


def test_pictures_are_drawn_and_kept(client: TestClient, page: str) -> None:
    answer = client.get(f"{page}/picture/1")
    assert answer.headers["content-type"].startswith("image/svg+xml")
    assert "max-age" in answer.headers["cache-control"]
    assert client.get(f"{page}/picture/999").status_code == 404
    assert client.get(f"{page}/part-picture?name=lid").text.startswith("<svg")


def part_of(client: TestClient, page: str) -> str:
    found = re.search(r"/part\?name=([^\"]+)\"", client.get(f"{page}/parts").text)
    assert found
    return found.group(1)


def test_measured_shown_kept_and_undone(client: TestClient, page: str, desk: Desk, slug: str) -> None:
    name = part_of(client, page)
    text = client.get(f"{page}/part?name={name}").text
    wish = {
        "act": "measured",
        "part": field(text, "part"),
        "axis": field(text, "axis"),
        "size": "7",
        "done": "yes",
    }
    shown = client.post(f"{page}/try", data=wish)
    assert "What changes" in shown.text
    assert not desk.folder.has(desk.folder.record_file(slug))
    kept = client.post(f"{page}/keep", data=wish | {"was": field(shown.text, "was")})
    assert "Kept:" in kept.text
    record = desk.folder.text(desk.folder.record_file(slug)).text
    assert f"{wish['axis']}: 7" in record
    change = desk.keeper.history(slug).done[0]
    undone = client.post(f"{page}/undo", data={"number": str(change.number)})
    assert "Taken back" in undone.text
    assert not desk.folder.has(desk.folder.record_file(slug))
    again = client.post(f"{page}/redo", data={"number": str(change.number)})
    assert "Done again" in again.text
    assert desk.folder.text(desk.folder.record_file(slug)).text == record


def test_a_record_changed_meanwhile_is_not_written_over(
    client: TestClient, page: str, desk: Desk, slug: str
) -> None:
    text = client.get(f"{page}/part?name={part_of(client, page)}").text
    wish = {"act": "spoiled", "part": field(text, "part")}
    shown = client.post(f"{page}/try", data=wish)
    file = desk.folder.path / desk.folder.record_file(slug)
    file.write_text("build: another hand's\n")
    late = client.post(f"{page}/keep", data=wish | {"was": field(shown.text, "was")})
    assert "changed meanwhile" in late.text
    assert file.read_text() == "build: another hand's\n"
    client.post(f"{page}/keep", data=wish | {"was": field(late.text, "was")})
    assert "spoiled: 1" in file.read_text()
    assert "another hand's" in file.read_text()


def test_what_cannot_be_noted_says_why(client: TestClient, page: str, desk: Desk, slug: str) -> None:
    for wish, told in [
        ({"act": "measured", "part": "mantelpiece", "axis": "wide", "size": "3"}, "no part called"),
        ({"act": "spoiled", "part": "<b>lid</b>"}, "&lt;b&gt;lid&lt;/b&gt;"),
        ({"act": "cut"}, "no board is chosen"),
        ({}, "no part called"),
    ]:
        answer = client.post(f"{page}/try", data=wish)
        assert told in answer.text
        assert "Not kept" in answer.text
    assert not desk.folder.has(desk.folder.record_file(slug))


def test_boards_whose_cuts_are_ticked_are_offered(
    client: TestClient, page: str, desk: Desk, slug: str
) -> None:
    view = view_of(client, desk, slug)
    for step in view.steps:
        if step.stage == "rough cut":
            desk.ledger.builds.tick(slug, step.key)
    assert "is ticked. Once" in words(client.get(page).text)
    text = client.get(f"{page}/boards").text
    assert text.count("checked") == text.count('name="board"') > 0
    boards = re.findall(r'name="board" value="([^"]+)"', text)
    shown = client.post(f"{page}/try", data={"act": "cut", "board": boards})
    kept = client.post(f"{page}/keep", data={"act": "cut", "board": boards, "was": field(shown.text, "was")})
    assert "Kept:" in kept.text
    assert "boards:" in desk.folder.text(desk.folder.record_file(slug)).text
    assert "No board is left to be cut" in client.get(f"{page}/boards").text
    assert "no longer in the plan" not in client.get(page).text


def test_labels_are_made(client: TestClient, page: str) -> None:
    text = client.get(f"{page}/labels").text
    sheet = field(text, "sheet")
    answer = client.get(f"{page}/labels.pdf", params={"sheet": sheet, "start": "2"})
    assert answer.headers["content-type"] == "application/pdf"
    assert answer.content.startswith(b"%PDF")
    refused = client.get(f"{page}/labels.pdf", params={"sheet": "own", "across": "three"})
    assert refused.status_code == 400
    assert "is not a number" in refused.text


def test_a_piece_that_cannot_be_planned_says_so_on_every_page(
    client: TestClient, page: str, desk: Desk, slug: str
) -> None:
    key = view_of(client, desk, slug).steps[0].key
    (desk.folder.path / f"{slug}.yaml").write_text("piece: broken\nparts: {leg: {wide: <b>nonsense</b>}}\n")
    for path in ("", "/parts", "/part?name=lid", "/boards", "/labels"):
        answer = client.get(f"{page}{path}")
        assert answer.status_code == 200
        assert "can’t be worked out" in answer.text
        assert "<b>nonsense" not in answer.text
    assert "can’t be worked out" in client.post(f"{page}/tick", data={"key": key}).text
    assert client.get(f"{page}/labels.pdf?sheet=a4%20plain").status_code == 400


def test_a_piece_nobody_has_is_not_found(client: TestClient) -> None:
    for path in ("", "/parts", "/labels", "/labels.pdf", "/timers", "/spare", "/picture/1"):
        assert client.get(f"/piece/nothing/build{path}").status_code == 404
    assert client.post("/piece/nothing/build/tick", data={}).status_code == 404
