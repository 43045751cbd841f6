"""A part picked, pulled, taken out; things added; kits opened; findings mended."""

from __future__ import annotations

import re
from html import unescape
from pathlib import Path

import pytest
from starlette.testclient import TestClient
from tests.desk.piece.conftest import STAND, Bench, dialog, plain, triggers

from scantling.desk.piece.parts import KINDS


def test_a_part_is_shown_with_what_each_span_comes_to(bench: Bench) -> None:
    words = plain(bench.get("/part", name="left side").text)
    for told in (
        "Written once, as side, for 2: left side, right side",
        "3/4 in (19.1 mm): from 1 to 1 3/4",
        "grain up",
        "Joints",
        "dowels",
        "What follows it",
    ):
        assert told in words


def test_a_part_that_is_gone_is_said_to_be(bench: Bench) -> None:
    assert "no part" in plain(bench.get("/part", name="lid").text)


def test_a_part_taken_out_while_it_was_picked_is_gone_from_its_panel(bench: Bench) -> None:
    bench.get("/part", name="rail")
    bench.act("remove", ("parts", "rail"), keep="yes")
    assert "Spans" not in plain(bench.get("/part", name="rail").text)


def test_a_span_is_changed(bench: Bench) -> None:
    was = "thick forward from back"
    bench.act(
        "change",
        ("parts", "rail", "deep"),
        file=f"{bench.slug}.yaml",
        was=was,
        words="thick forward from back - 1",
    )
    assert "deep: thick forward from back - 1," in bench.words


def test_a_slip_in_a_span_leaves_the_part_there_to_mend_it(bench: Bench) -> None:
    bench.get("/part", name="rail")
    right, slip = "thick forward from back", "thick forward from front of tpo"
    of_rail = {"file": f"{bench.slug}.yaml"}
    bench.act("change", ("parts", "rail", "deep"), was=right, words=slip, **of_rail)
    told = bench.get("/part", name="rail").text
    assert f'value="{slip}"' in told
    assert "tpo" in plain(told).split("Spans")[0]
    bench.act("change", ("parts", "rail", "deep"), was=slip, words=right, **of_rail)
    assert 'class="trouble"' not in bench.get("/part", name="rail").text


def test_a_key_that_says_nothing_yet_is_said(bench: Bench) -> None:
    bench.act("say", ("parts", "rail", "grain"), words="wide")
    assert "grain: wide}" in bench.words


def test_a_pulled_face_writes_its_term(bench: Bench) -> None:
    answer = bench.act("pull", part="rail", face="back", by="-3.175")
    assert "piece:shape" in triggers(answer), plain(answer.text)
    assert "deep: thick forward from back - 1/8," in bench.words


def test_a_pulled_name_asks_everywhere_or_here(bench: Bench) -> None:
    answer = bench.act("pull", part="top", face="bottom", by="3.175")
    assert "This end is the size foot: change it everywhere, or only here?" in dialog(answer)
    assert STAND.replace("house.yaml", bench.style) == bench.words
    ways = re.findall(r'name="way" value="([^"]+)"', answer.text)
    bench.act("pull", part="top", face="bottom", by="3.175", way=unescape(ways[1]))
    assert "high: foot + 1/8 down from top," in bench.words


def test_joints_that_are_lost_are_listed_before(bench: Bench) -> None:
    told = dialog(bench.act("pull", part="rail", face="left", by="-3.175"))
    assert "Joints lost: " in told
    assert "right of left side" not in bench.words
    bench.act("pull", part="rail", face="left", by="-3.175", keep="yes")
    assert "wide: right of left side + 1/8 to" in bench.words


def test_a_pull_that_cannot_be_says_why(bench: Bench) -> None:
    answer = bench.act("pull", part="rail", face="left", by="0.1")
    assert triggers(answer) == {"desk:amiss": {"field": ""}}
    assert 'hx-target="#line"' in answer.text
    assert "a drag goes by 1/16" in plain(answer.text)


def test_a_part_is_taken_out_after_a_look(bench: Bench) -> None:
    before = bench.words
    told = dialog(bench.act("remove", ("parts", "rail")))
    assert "rail" in told
    assert bench.words == before
    bench.act("remove", ("parts", "rail"), keep="yes")
    assert "rail" not in bench.words.replace("rail to", "")


def test_taking_out_what_others_need_says_what_comes_of_it(bench: Bench) -> None:
    told = plain(bench.act("remove", ("parts", "side"), field="f3").text)
    assert "side" in told


@pytest.mark.parametrize("what", KINDS)
def test_each_kind_can_be_added_as_it_is_offered(bench: Bench, what: str) -> None:
    form = bench.get("/add", what=what)
    assert form.status_code == 200
    fields = {
        **_fields(form.text),
        "name": "new thing" if 'name="name"' in form.text and what != "work" else "rail",
    }
    if what == "joint":
        fields |= {"join": "rail", "to": "top"}
    if what == "hardware":
        fields |= {"joins": "rail, top"}
    if what == "material":
        fields |= {"words": "pine 1/2"}
    before = bench.words
    answer = bench.post("/act", **fields)
    assert bench.words != before, plain(answer.text)
    assert "piece:shape" in triggers(answer), plain(answer.text)
    bench.post("/undo")
    assert bench.words == before


def _fields(html: str) -> dict[str, str]:
    """What the form for adding holds when nobody changes it."""
    form = html.partition('class="adding-form"')[2]
    inputs = re.findall(r'<input[^>]*name="([^"]+)"[^>]*?value="([^"]*)"', form)
    selects = re.findall(r'<select[^>]*name="([^"]+)">(.*?)</select>', form, re.DOTALL)
    taken = [(name, _chosen(options)) for name, options in selects]
    return {name: unescape(value) for name, value in (*inputs, *taken)}


def _chosen(options: str) -> str:
    found = re.findall(r"<option( selected)?>([^<]*)</option>", options)
    return next((value for selected, value in found if selected), found[0][1] if found else "")


def test_a_name_that_is_taken_is_told_at_the_form(bench: Bench) -> None:
    fields = {**_fields(bench.get("/add", what="part").text), "name": "rail"}
    answer = bench.post("/act", **fields)
    assert triggers(answer) == {"desk:amiss": {"field": "add-amiss"}}
    assert bench.words.count("rail:") == 1


def test_a_kit_is_opened_after_a_look(bench: Bench) -> None:
    fields = {**_fields(bench.get("/add", what="kit").text), "name": "inner"}
    bench.post("/act", **fields)
    assert "kit:" in bench.words
    told = dialog(bench.act("open", ("parts", "inner")))
    assert "inner" in told
    bench.act("open", ("parts", "inner"), keep="yes")
    assert "kit:" not in bench.words
    assert "parts:" in bench.words.partition("inner:")[2]


def test_a_mend_is_shown_and_then_kept(folder: Path, served: TestClient) -> None:
    text = STAND.replace("high: 8}", "high: 8}\nroom: {passes: 30 x 80, against: back, wide: 11}")
    bench = Bench(folder, served, text=text)
    page = bench.get().text
    number = re.search(r'value="mend"><input type="hidden" name="number" value="(\d+)"', page)
    assert number, plain(page)
    before = bench.words
    dialog(bench.act("mend", number=number[1]))
    assert bench.words == before
    bench.act("mend", number=number[1], keep="yes")
    assert bench.words != before
