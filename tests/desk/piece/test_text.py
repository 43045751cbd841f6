"""The text of a file: kept whole, with what is wrong at its character."""

from __future__ import annotations

import re
from html import unescape

from starlette.testclient import TestClient
from tests.desk.piece.conftest import Bench, plain, triggers


def typed(page: str) -> str:
    """The text in the field."""
    found = re.search(r"<textarea[^>]*>\n?(.*?)</textarea>", page, re.DOTALL)
    assert found
    return unescape(found[1])


def test_the_text_is_that_of_the_file(bench: Bench) -> None:
    page = bench.get("/text", line="4").text
    assert typed(page) == bench.words
    assert 'data-line="4"' in page
    assert "It can be read, and every size worked out." in page


def test_it_is_kept_and_the_words_it_counts_on_follow(bench: Bench) -> None:
    was, new = bench.words, bench.words.replace("inset: 1,", "inset: 2,")
    answer = bench.post("/text", was=was.replace("\n", "\r\n"), text=new.replace("\n", "\r\n"))
    assert bench.words == new
    assert triggers(answer)["desk:taken"] == {"fields": ["text"]}
    assert "inset: 2," in unescape(answer.text.partition('id="was"')[2])
    bench.post("/undo")
    assert bench.words == was


def test_what_is_wrong_is_told_at_its_character(bench: Bench) -> None:
    wrong = bench.words.replace("forward from back,", "forward from bakc,")
    answer = bench.post("/text/tried", text=wrong)
    assert 'data-at-line="13"' in answer.text
    assert 'data-at-character="' in answer.text
    assert "bakc" in plain(answer.text)
    assert "Go there" in answer.text
    assert "bakc" not in bench.words


def test_text_that_is_wrong_is_kept_all_the_same(bench: Bench) -> None:
    bench.get()
    new = bench.words.replace("high: foot down", "high: fooot down")
    bench.post("/text", was=bench.words, text=new)
    assert bench.words == new
    page = bench.get()
    assert "It cannot be worked out." in page.text
    assert f"/piece/{bench.slug}/text?line=10" in page.text
    assert "What is shown is old" in plain(page.text)
    assert "12 × 10 × 8 inches" in plain(page.text)


def test_a_file_changed_meanwhile_is_not_written_over(bench: Bench) -> None:
    was = bench.words
    outside = was.replace("deep: 10", "deep: 11")
    bench.path.write_text(outside)
    answer = bench.post("/text", was=was, text=was.replace("inset: 1,", "inset: 2,"))
    assert "The file was changed meanwhile" in answer.text
    assert bench.words == outside
    bench.post("/text", was=outside, text=was.replace("inset: 1,", "inset: 2,"))
    assert "deep: 10" in bench.words
    assert "inset: 2," in bench.words


def test_what_was_typed_comes_back(bench: Bench, served: TestClient) -> None:
    at = f"/piece/{bench.slug}/text"
    served.post("/drafts", data={"page": at, "field": "text", "text": "half of it", "at": "1700000000000"})
    assert 'data-draft="half of it"' in bench.get("/text").text
    bench.post("/text/back")
    assert "data-draft" not in bench.get("/text").text


def test_a_style_has_its_text_too(bench: Bench, served: TestClient) -> None:
    at = f"/piece/{bench.style.removesuffix('.yaml')}/text"
    page = served.get(at)
    assert typed(page.text) == bench.house
    assert "Back to the piece" not in page.text
    served.post(at, data={"was": bench.house, "text": bench.house.replace("3/4", "7/8")})
    assert "foot: 7/8" in (bench.folder / bench.style).read_text()


def test_trouble_in_a_followed_file_leads_there(bench: Bench) -> None:
    (bench.folder / bench.style).write_text(bench.house.replace("3/4", "3/"))
    page = bench.get()
    assert page.status_code == 200
    style = bench.style.removesuffix(".yaml")
    assert f'href="/piece/{style}/text?line=3"' in page.text
    assert "To that file" in bench.get("/text").text


def test_a_followed_file_that_is_missing(bench: Bench) -> None:
    (bench.folder / bench.style).unlink()
    page = bench.get()
    assert page.status_code == 200
    assert "It cannot be worked out." in page.text
    assert f"/piece/{bench.slug}/text?line=3" in page.text
    assert bench.get("/text").status_code == 200


def test_a_file_that_cannot_be_read_at_all(bench: Bench, served: TestClient) -> None:
    (bench.folder / "sawdust.yaml").write_bytes(b"\xff\xfe\x00\x81piece: x")
    for at in ("/piece/sawdust", "/piece/sawdust/text", "/card/sawdust", "/"):
        page = served.get(at)
        assert page.status_code == (422 if at == "/piece/sawdust" else 200), at
        assert "not plain text" in page.text or at == "/"
    (bench.folder / "sawdust.yaml").unlink()


def test_a_file_with_nothing_in_it(bench: Bench, served: TestClient) -> None:
    (bench.folder / "blank.yaml").write_text("")
    assert "It cannot be worked out." in served.get("/piece/blank").text
    assert typed(served.get("/piece/blank/text").text) == ""


def test_a_piece_that_is_not_there(served: TestClient) -> None:
    for more in ("", "/text", "/answers", "/picture", "/part?name=x", "/add"):
        assert served.get(f"/piece/no-such{more}").status_code == 404
