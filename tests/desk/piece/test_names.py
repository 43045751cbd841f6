"""Names that are up to no good are words like others."""

from __future__ import annotations

import json
from html import unescape
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import quote, urljoin

import pytest
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
PARTS = [
    "</script><img src=x onerror=alert(1)>",
    "{{ 7 * 7 }}",
    'say "rail"',
    "rail & co; it's",
    "🪚 rail",
    "כיסא",
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


@pytest.mark.parametrize("name", PARTS)
def test_a_part_of_any_name_is_shown_as_words(folder: Path, served: TestClient, name: str) -> None:
    quoted = "'" + name.replace("'", "''") + "'"
    bench = Bench(
        folder,
        served,
        text=STAND.replace("  rail: {", f"  {quoted}: {{").replace("join: rail", f"join: {quoted}"),
    )
    for page in (
        bench.get(),
        bench.get("/text"),
        bench.get("/part", name=name),
        bench.get("/add", what="work"),
    ):
        assert page.status_code == 200
        is_plain(page.text)
    described = bench.get("/picture").content
    assert b"<img" not in described
    assert b"</script" not in described
