"""Names that are up to no good are words like others."""

from __future__ import annotations

import json
from html import unescape
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import quote, urljoin

import pytest
from markupsafe import escape
from starlette.testclient import TestClient
from tests.desk.piece.conftest import STAND, Bench, triggers

FILES = [
    'a "quoted" one',
    "it's",
    "<script>alert(1)<img src=x onerror=alert(2)>",
    "{{ 7 * 7 }} {% raw %}",
    "#1 & only",
    "what?now=1",
    "two  words",
    "🪑 chair",
    "כיסא",
]
# The language takes tame names for parts alone; what it does not take is told, as words.
GOOD_PARTS = ["כיסא", "it's rail", "règle à côté"]
BAD_PARTS = [
    "</script><img src=x onerror=alert(1)>",
    "<b>rail</b>",
    "{{ 7 * 7 }}",
    'rail" onfocus="alert(1)',
    "🪚 rail",
    "rail%2Fback?a=1#b",
]


class Seen(HTMLParser):
    """The tags and links of a page."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.links: list[str] = []
        self.handlers: list[str] = []
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        for name, value in attrs:
            if name.startswith("on"):
                self.handlers.append(name)
            if name in ("href", "hx-get", "action", "hx-post") and value:
                self.links.append(value)


def is_plain(html: str) -> Seen:
    """Scripts only of the desk's own, no pictures, nothing that runs."""
    seen = Seen(html)
    assert seen.handlers == []
    assert html.count("<script") == html.count('<script src="/static/')
    assert "img" not in seen.tags
    return seen


@pytest.mark.parametrize("name", FILES)
def test_a_file_of_any_name_has_its_pages(folder: Path, served: TestClient, name: str) -> None:
    bench = Bench(folder, served, slug=name)
    mine = f"/piece/{quote(name, safe='')}"
    home = is_plain(served.get("/").text)
    assert mine in home.links
    assert is_plain(served.get(f"/card/{quote(name, safe='')}").text).links[0] == mine
    page = served.get(mine)
    assert unescape(page.text.partition('data-slug="')[2].partition('"')[0]) == name
    for link in is_plain(page.text).links:
        if link.startswith(mine) and "/act" not in link and not link.endswith(("/undo", "/redo", "/stop")):
            found = served.get(urljoin(mine, link))
            assert found.status_code in (200, 204), link
    answer = served.post(f"{mine}/act", data=_size("1", "2"))
    assert "piece:shape" in triggers(answer)
    assert "inset: 2," in bench.path.read_text()
    bench.path.unlink()


def _size(was: str, new: str) -> dict[str, str]:
    return {"do": "words", "path": json.dumps(["sizes", "inset"]), "was": was, "words": new}


def named(folder: Path, served: TestClient, name: str) -> Bench:
    """A piece whose rail has another name."""
    quoted = "'" + name.replace("'", "''") + "'"
    text = STAND.replace("  rail: {", f"  {quoted}: {{").replace("join: rail", f"join: {quoted}")
    return Bench(folder, served, text=text)


@pytest.mark.parametrize("name", GOOD_PARTS)
def test_a_part_of_any_name_is_shown_as_words(folder: Path, served: TestClient, name: str) -> None:
    bench = named(folder, served, name)
    assert f'data-part="{escape(name)}"' in bench.get().text
    for page in (
        bench.get(),
        bench.get("/part", name=name),
        bench.get("/add", what="work"),
    ):
        is_plain(page.text)
        assert escape(name) in page.text
    assert name in bench.get("/picture").content.decode(errors="replace")


@pytest.mark.parametrize("name", BAD_PARTS)
def test_a_name_the_language_does_not_take_is_told(folder: Path, served: TestClient, name: str) -> None:
    bench = named(folder, served, name)
    page = bench.get()
    assert "It cannot be worked out." in page.text
    is_plain(page.text)
    text = bench.get("/text").text
    is_plain(text)
    assert (
        unescape(text.partition("<textarea")[2].partition(">\n")[2].partition("</textarea>")[0])
        == bench.words
    )


def test_a_piece_may_call_itself_anything(folder: Path, served: TestClient) -> None:
    title = "</title></script><img src=x onerror=alert(1)> {{ 7 * 7 }}"
    bench = Bench(folder, served, text=STAND.replace("Small stand", f"'{title}'"))
    for page in (bench.get(), served.get("/"), served.get(f"/card/{bench.slug}"), bench.get("/text")):
        is_plain(page.text)
        assert escape(title) in page.text
    content = bench.get("/picture").content
    described = content[4 : 4 + int.from_bytes(content[:4], "little")]
    assert b"<" not in described
