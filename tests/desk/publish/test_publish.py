"""Print and publish: made beside the work, stopped, listed by name alone, opened as a stranger."""

from __future__ import annotations

import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from starlette.testclient import TestClient
from tests.desk.e2e.served import demo_folder

from scantling.desk.app import desk_app

AT = "/piece/sewing-desk/publish"
WITHIN = 120.0


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return demo_folder(tmp_path_factory.mktemp("publish") / "pieces")


@pytest.fixture(scope="module")
def asking(folder: Path) -> Iterator[TestClient]:
    with TestClient(desk_app(folder)) as client:
        yield client


def waited(asking: TestClient, words: str) -> str:
    until = time.monotonic() + WITHIN
    while time.monotonic() < until:
        page = asking.get(f"{AT}/state").text
        if words in page:
            return page
        time.sleep(0.2)
    raise AssertionError(f"{words!r} never came: {page}")


def test_a_packet_is_stopped_and_nothing_half_made_is_left(asking: TestClient, folder: Path) -> None:
    assert "Stop" in asking.post(f"{AT}/make", data={"paper": "letter", "units": ""}).text
    asking.post(f"{AT}/stop")
    waited(asking, "It was stopped")
    left = list((folder / "packets" / "sewing-desk").glob("*")) if (folder / "packets").exists() else []
    assert [path for path in left if path.suffix in (".pdf", ".html")] == []


def test_a_packet_is_made_opened_and_downloaded(asking: TestClient, folder: Path) -> None:
    asking.post(f"{AT}/make", data={"paper": "a4", "units": "mm"})
    page = waited(asking, "The packet is made")
    made = sorted(path.name for path in (folder / "packets" / "sewing-desk").iterdir())
    assert {Path(name).suffix for name in made} >= {".pdf", ".html", ".csv", ".glb"}
    assert all(name in page for name in made)
    pdf = asking.get(f"{AT}/sewing-desk-for-a-narrow-hall.pdf")
    assert pdf.content.startswith(b"%PDF")
    assert pdf.headers["content-disposition"].startswith("inline")
    saved = asking.get(f"{AT}/sewing-desk-for-a-narrow-hall.pdf?save")
    assert saved.headers["content-disposition"].startswith("attachment")


def test_the_published_page_is_shown_as_a_stranger_to_the_desk(asking: TestClient) -> None:
    policy = asking.get(f"{AT}/sewing-desk-for-a-narrow-hall.html").headers["content-security-policy"]
    assert policy.startswith("sandbox;")
    assert "default-src 'none'" in policy
    assert "style-src 'sha256-" in policy


@pytest.mark.parametrize("name", ["..%2F..%2Fshop.yaml", "shop.yaml", ".hidden.pdf", "nothing.pdf"])
def test_only_files_of_the_packet_are_given(asking: TestClient, name: str) -> None:
    assert asking.get(f"{AT}/{name}").status_code == 404


def test_a_paper_that_is_not_offered_is_refused(asking: TestClient) -> None:
    assert asking.post(f"{AT}/make", data={"paper": "vellum", "units": ""}).status_code == 400


def test_there_is_no_packet_of_a_piece_that_is_not_there(asking: TestClient) -> None:
    assert asking.get("/piece/nothing/publish").status_code == 404
    assert asking.post("/piece/nothing/publish/make", data={"paper": "a4", "units": ""}).status_code == 404
