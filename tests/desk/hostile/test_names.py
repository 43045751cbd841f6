"""Names that are HTML, drawn and written on every page: they stay words."""

from __future__ import annotations

import re
from collections.abc import Iterator
from html.parser import HTMLParser
from xml.etree import ElementTree

import pytest
from starlette.testclient import TestClient
from tests.desk.hostile.bench import SHOP, STOOL, Bench, bench

BAD = "<svg/onload=alert(1)><script src=/static/x></script></text></svg></textarea>\\\" ' onx=y {{7*7}}"
PIECE = STOOL.replace("Small stand", f'"{BAD}"')  # names of parts hold letters alone, by the language
RACK = SHOP.replace("W1:", f'"{BAD[:60]}":').replace("A shed", f'"{BAD}"').replace("$", f'"{BAD[:12]}"')
PAGES = (
    "",
    "/text",
    "/wood",
    "/wood/routes",
    "/build",
    "/build/parts",
    "/build/boards",
    "/build/labels",
    "/publish",
)
DRAWINGS = ("/flat.svg", "/build/picture/1", "/build/picture/2", "/build/part-picture?name=side")


class Tags(HTMLParser):
    """Elements and attributes that would do something."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        said = dict(attrs)
        if tag == "script" and not re.match(r"/static/[\w./-]+\?[0-9a-f]{12}$", said.get("src") or ""):
            self.found.append(f"<{tag} {said}>")
        self.found += [f"{tag} {name}" for name in said if name.startswith("on") and name != "on"]


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Bench]:
    folder = tmp_path_factory.mktemp("names") / "pieces"
    folder.mkdir()
    with bench(folder) as opened:
        (folder / "stand.yaml").write_text(PIECE)
        (folder / "shop.yaml").write_text(RACK)
        opened.desk.keeper.noticed()
        yield opened


def looked_at(client: TestClient, address: str) -> str:
    answer = client.get(address)
    assert answer.status_code in (200, 404, 422), address
    tags = Tags()
    tags.feed(answer.text)
    assert tags.found == [], address
    return answer.text


@pytest.mark.parametrize("page", PAGES)
def test_no_page_does_what_a_name_says(desk: Bench, page: str) -> None:
    looked_at(desk.client, f"/piece/stand{page}")


@pytest.mark.parametrize(
    "page", ["/", "/card/stand", "/rack", "/rack/head", "/rack/text", "/rack/add", "/rack/table/boards"]
)
def test_no_page_of_the_folder_does(desk: Bench, page: str) -> None:
    looked_at(desk.client, page)


def test_the_names_are_there_as_words(desk: Bench) -> None:
    assert "&lt;svg/onload=alert(1)&gt;" in looked_at(desk.client, "/piece/stand")
    assert "&lt;svg/onload=alert(1)&gt;" in looked_at(desk.client, "/rack")


@pytest.mark.parametrize("drawing", DRAWINGS)
def test_a_drawing_is_whole_and_holds_no_script(desk: Bench, drawing: str) -> None:
    answer = desk.client.get(f"/piece/stand{drawing}")
    assert answer.headers["content-type"].startswith("image/svg+xml")
    for element in ElementTree.fromstring(answer.text).iter():
        assert element.tag.rpartition("}")[2] not in (
            "script",
            "foreignObject",
            "a",
            "image",
            "use",
            "animate",
            "set",
        )
        assert not any(name.lower().startswith("on") or "href" in name for name in element.attrib)
