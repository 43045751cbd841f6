"""Sizes, choices and materials changed on the page, and every step taken back."""

from __future__ import annotations

import pytest
from tests.desk.piece.conftest import STAND, Bench, dialog, plain, triggers

HERE = "in this piece alone"


def test_the_page_shows_the_piece(bench: Bench) -> None:
    page = bench.get()
    assert page.status_code == 200
    words = plain(page.text)
    for told in ("12 × 10 × 8 inches", "walnut 3/4", "within 10 to 14", f"from {bench.style}", "left side"):
        assert told in words
    assert "Found for you: 1 in (25.4 mm)" in words
    assert 'id="undo" disabled' in page.text


def test_one_size_changes_its_own_characters_only(bench: Bench) -> None:
    bench.get()
    answer = bench.size("inset", "1", "1 1/4")
    assert bench.words == STAND.replace("house.yaml", bench.style).replace("inset: 1,", "inset: 1 1/4,")
    shape = triggers(answer)["piece:shape"]
    assert "left side" in shape["changed"]
    assert any("inset: 1 in → 1 1/4 in" in told for told in shape["told"])
    assert triggers(answer)["desk:taken"] == {"fields": ["f1"]}
    assert ">changed<" in answer.text


def test_words_that_cannot_be_read_are_told_at_their_field(bench: Bench) -> None:
    before = bench.words
    answer = bench.size("inset", "1", "1 1/")
    assert triggers(answer) == {"desk:amiss": {"field": "f1"}}
    assert 'hx-target="#amiss-f1"' in answer.text
    assert bench.words == before


def test_words_that_changed_meanwhile_are_both_shown(bench: Bench) -> None:
    bench.size("inset", "1", "2")
    told = dialog(bench.size("inset", "1", "1 1/2"))
    assert "There stands now: 2 You wrote: 1 1/2" in told
    assert "inset: 2," in bench.words
    bench.size("inset", "2", "1 1/2")  # what "Put mine there" sends
    assert "inset: 1 1/2," in bench.words


def test_a_change_that_is_sent_twice_is_one(bench: Bench) -> None:
    bench.size("inset", "1", "2")
    again = bench.size("inset", "1", "2")
    assert triggers(again)["desk:taken"] == {"fields": ["f1"]}
    bench.post("/undo")
    assert "inset: 1," in bench.words


def test_a_range_stays_where_it_is(bench: Bench) -> None:
    rest = " within 10 to 14"
    bench.act("words", ("overall", "wide"), was=f"12{rest}", words="13", rest=rest)
    assert "wide: 13 within 10 to 14" in bench.words


def test_steps_go_by_sixteenths_and_stay_in_the_range(bench: Bench) -> None:
    bench.act("nudge", name="inset", was="1", steps="3")
    assert "inset: 1 3/16," in bench.words
    bench.act("nudge", name="inset", was="1 3/16", steps="-4")
    assert "inset: 15/16," in bench.words
    answer = bench.act("nudge", name="overall wide", was="12 within 10 to 14", steps="99", field="f2")
    assert "goes from 10 to 14" in answer.text
    assert triggers(answer) == {"desk:amiss": {"field": "f2"}}


def test_a_followed_size_asks_where(bench: Bench) -> None:
    told = dialog(bench.size("foot", "3/4", "7/8"))
    assert f"Foot stands in {bench.style}. Where is it to be changed?" in told
    assert "In this piece alone" in told
    assert "foot" not in bench.words.partition("sizes")[2].partition("\n")[0]
    bench.size("foot", "3/4", "7/8", way=HERE)
    assert "foot: 7/8" in bench.words
    assert "foot: 3/4" in (bench.folder / bench.style).read_text()


def test_a_followed_size_changes_for_all(bench: Bench) -> None:
    before = bench.words
    dialog(bench.act("nudge", name="foot", was="3/4", steps="2"))
    there = f"in {bench.style}, for every piece that follows it"
    bench.act("nudge", name="foot", was="3/4", steps="2", way=there)
    assert "foot: 7/8" in (bench.folder / bench.style).read_text()
    assert bench.words == before
    bench.post("/undo")
    assert "foot: 3/4" in (bench.folder / bench.style).read_text()


def test_what_was_found_is_kept(bench: Bench) -> None:
    bench.act("keep", name="rise")
    assert "rise: 1 within 1 to 3 by 1/2" in bench.words


def test_a_material_is_chosen(bench: Bench) -> None:
    answer = bench.act("choose", ("materials", "case"), was="walnut 3/4 or pine 3/4", option="pine 3/4")
    assert "case: pine 3/4 or walnut 3/4" in bench.words
    assert "pine 3/4" in plain(answer.text)


def test_undo_and_redo_go_both_ways(bench: Bench) -> None:
    texts = [bench.words]
    for new in ("1 1/4", "1 1/2", "1 3/4"):
        bench.size("inset", texts[-1].partition("inset: ")[2].partition(",")[0], new)
        texts.append(bench.words)
    for text in texts[-2::-1]:
        bench.post("/undo")
        assert bench.words == text
    for text in texts[1:]:
        bench.post("/redo")
        assert bench.words == text


def test_a_step_that_is_not_next_any_more_is_not_taken(bench: Bench) -> None:
    bench.size("inset", "1", "2")
    number = bench.get().text.partition('name="number" value="')[2].partition('"')[0]
    bench.size("inset", "2", "2 1/2")
    bench.post("/undo", number=number)
    assert "inset: 2 1/2," in bench.words


@pytest.mark.parametrize(("way", "left"), [("passed", "deep: 11"), ("undo", "deep: 10")])
def test_undo_over_a_change_outside_asks(bench: Bench, way: str, left: str) -> None:
    bench.size("inset", "1", "2")
    bench.path.write_text(bench.words.replace("deep: 10", "deep: 11"))
    number = bench.client.app.state.desk.keeper.history(bench.slug).done[0].number  # type: ignore[attr-defined]
    told = dialog(bench.post("/undo", number=number))
    assert "Put it back anyway" in told
    assert "deep: 11" in bench.words
    bench.post(f"/{way}", number=number, **({"anyway": "yes"} if way == "undo" else {}))
    assert left in bench.words


def test_a_change_outside_is_shown_and_told(bench: Bench) -> None:
    digest = bench.get().text.partition('data-digest="')[2].partition('"')[0]
    assert bench.get("/answers", have=digest).status_code == 204
    bench.path.write_text(bench.words.replace("inset: 1,", "inset: 2,"))
    answer = bench.get("/answers", have=digest)
    assert any("inset: 1 in → 2 in" in told for told in triggers(answer)["piece:shape"]["told"])


def test_line_ends_of_another_system_stay(bench: Bench) -> None:
    bench.path.write_bytes(bench.words.replace("\n", "\r\n").encode())
    bench.size("inset", "1", "2")
    words = bench.path.read_bytes()
    assert b"inset: 2," in words
    assert words.count(b"\r\n") == words.count(b"\n")


@pytest.mark.parametrize(
    "fields", [{}, {"do": "dance"}, {"do": "words", "path": "nonsense"}, {"do": "nudge"}]
)
def test_a_form_that_makes_no_sense_is_refused(bench: Bench, fields: dict[str, str]) -> None:
    answer = bench.post("/act", **fields)
    assert answer.status_code == 400
    assert "Traceback" not in answer.text
