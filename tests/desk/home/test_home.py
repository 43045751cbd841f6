"""Home in process: the pieces with their state, beginning one, putting one away, finding one."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from scantling.desk.app import desk_app

EXAMPLES = Path(__file__).parents[3] / "src" / "scantling" / "examples"


@pytest.fixture(scope="module")
def served(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    folder = tmp_path_factory.mktemp("pieces")
    with TestClient(desk_app(folder), follow_redirects=False) as client:
        yield client


@pytest.fixture
def folder(served: TestClient) -> Path:
    path: Path = served.app.state.desk.folder.path  # type: ignore[attr-defined]
    return path


def begin(served: TestClient, name: str, start: str) -> str:
    """Begins a piece; where the browser is sent."""
    answer = served.post("/pieces", data={"name": name, "start": start})
    assert answer.status_code == 303, answer.text
    return str(answer.headers["location"])


def an_example(served: TestClient) -> str:
    """What the list of examples offers first."""
    return served.get("/").text.partition('value="like:')[2].partition('"')[0]


def test_an_empty_folder_says_what_to_do(served: TestClient) -> None:
    page = served.get("/").text
    assert "No piece lies in this folder yet. Begin one." in page
    assert "There is no shop file in this folder yet." in page


def test_a_piece_is_begun_from_an_example_and_another_follows_it(served: TestClient, folder: Path) -> None:
    first = begin(served, "First one", f"like:{an_example(served)}")
    slug = first.removeprefix("/piece/")
    card = served.get(f"/card/{slug}").text
    assert "First one" in card
    assert "<svg" in card
    assert "ready to build" in card or "must fix first" in card
    second = begin(served, "Second one", f"follow:{slug}").removeprefix("/piece/")
    assert f'follows: "{slug}.yaml"' in (folder / f"{second}.yaml").read_text()
    home = served.get("/").text
    assert home.index("Second one") < home.index("First one")  # newest first


def test_what_cannot_be_begun_is_told_and_what_was_typed_stays(served: TestClient) -> None:
    said = {"name": "Of nothing", "start": "like:no such example"}
    answer = served.post("/pieces", data=said)
    assert answer.status_code == 422
    assert 'value="Of nothing"' in answer.text
    assert 'role="alert"' in answer.text
    inside = served.post("/pieces", data=said, headers={"hx-request": "true"})
    assert inside.text.startswith('<p class="trouble" role="alert">')


def test_beginning_inside_the_page_goes_there_and_forgets_the_draft(served: TestClient) -> None:
    served.post("/drafts", data={"page": "/", "field": "name", "text": "Half a na", "at": "4000000000000"})
    assert 'data-draft="Half a na"' in served.get("/").text
    said = {"name": "Ça & là", "start": f"like:{an_example(served)}"}
    answer = served.post("/pieces", data=said, headers={"hx-request": "true"})
    assert served.get(answer.headers["hx-redirect"]).status_code == 200
    assert "data-draft" not in served.get("/").text


def test_a_piece_is_put_away_and_taken_out_again(served: TestClient, folder: Path) -> None:
    slug = begin(served, "Away", f"like:{an_example(served)}").removeprefix("/piece/")
    text = (folder / f"{slug}.yaml").read_text()
    served.post(f"/pieces/{slug}/away")
    assert not (folder / f"{slug}.yaml").exists()
    home = served.get("/").text
    name = home.partition('name="name" value="')[2]
    kept = home[home.index("Put away (") :].partition('name="name" value="')[2].partition('"')[0]
    assert name
    served.post("/pieces/back", data={"name": kept})
    assert (folder / f"{slug}.yaml").read_text() == text


def test_pieces_are_found_by_name(served: TestClient) -> None:
    begin(served, "Walnut shelf", f"like:{an_example(served)}")
    assert "Walnut shelf" in served.get("/pieces", params={"find": "  WALNUT  sh"}).text
    assert "No piece is called" in served.get("/pieces", params={"find": "oak throne"}).text


def test_a_draft_says_why(served: TestClient, folder: Path) -> None:
    (folder / "half.yaml").write_text("piece: Half\nunits: inches\nparts: {leg: {wide: 1}}\n")
    card = served.get("/card/half").text
    assert "draft" in card
    assert "half.yaml:" in card


def test_a_piece_that_is_being_built_is_said_to_be(served: TestClient, folder: Path) -> None:
    slug = begin(served, "Building", f"like:{an_example(served)}").removeprefix("/piece/")
    served.app.state.desk.ledger.builds.tick(slug, "a step")  # type: ignore[attr-defined]
    assert "being built" in served.get(f"/card/{slug}").text


def test_a_card_is_planned_once(served: TestClient, monkeypatch: pytest.MonkeyPatch) -> None:
    slug = begin(served, "Once", f"like:{an_example(served)}").removeprefix("/piece/")
    first = served.get(f"/card/{slug}").text
    desk = served.app.state.desk  # type: ignore[attr-defined]
    monkeypatch.setattr(desk.printer, "ask", None)
    assert served.get(f"/card/{slug}").text == first


def test_a_shop_file_is_seen(served: TestClient, folder: Path) -> None:
    shutil.copy(EXAMPLES / "shops" / "sewing-desk.yaml", folder / "shop.yaml")
    assert "Boards, sheets, machines, clamps, hardware and prices." in served.get("/").text
