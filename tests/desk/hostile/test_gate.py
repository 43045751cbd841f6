"""Every address, asked from the home network without the pass code: only the way in is open."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from starlette.routing import Mount, Route, WebSocketRoute
from starlette.testclient import TestClient
from starlette.websockets import WebSocketDisconnect

from scantling.desk.app import desk_app
from scantling.desk.guard import GuardSettings, guarded
from scantling.desk.late import every
from scantling.desk.sharing import Share, gated

PORT = 8123
HOME = "192.168.7.5"
OWN = f"http://{HOME}:{PORT}"
OPEN = {"/enter"}


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("gate") / "pieces"
    folder.mkdir()
    (folder / "stand.yaml").write_text("piece: Stand of the secret words\n")
    return folder


@pytest.fixture(scope="module")
def app(folder: Path) -> Iterator[tuple[TestClient, list[object]]]:
    """A phone in the home network that was not let in, and the addresses there are."""
    share = Share(PORT, addresses=lambda: (HOME,))
    inner = desk_app(folder, share)
    entrance = guarded(gated(inner, share), GuardSettings.at(PORT, (HOME,)))
    phone = TestClient(
        entrance, base_url=OWN, client=("192.168.7.9", 4000), headers={"origin": OWN}, follow_redirects=False
    )
    with phone:
        yield phone, list(every(inner.routes))


def addresses(routes: list[object]) -> Iterator[tuple[str, str]]:
    for route in routes:
        if isinstance(route, Route):
            path = re.sub(r"\{number:int\}", "1", route.path)
            path = path.replace("{slug}", "stand").replace("{section}", "boards").replace("{name}", "a.pdf")
            yield from ((method, path) for method in sorted(route.methods or ()) if method != "HEAD")


def test_nothing_is_shown_and_nothing_done_before_coming_in(
    app: tuple[TestClient, list[object]], folder: Path
) -> None:
    phone, routes = app
    asked = [(method, path) for method, path in addresses(routes) if path not in OPEN]
    assert len(asked) > 70
    for method, path in asked:
        for address in (path, f"//{HOME}{path}", f"/.{path}", f"{path}?x=/static/"):
            answer = phone.request(method, address, data={"name": "x"} if method == "POST" else None)
            assert answer.status_code in (303, 401, 403), (method, address)
            assert answer.headers.get("location", "/enter").startswith("/enter"), (method, address)
            assert "secret" not in answer.text
            assert "set-cookie" not in answer.headers
    assert [path.name for path in folder.iterdir() if path.suffix == ".yaml"] == ["stand.yaml"]


def test_no_address_stands_outside_of_what_the_gate_knows(app: tuple[TestClient, list[object]]) -> None:
    phone, routes = app
    others = [route for route in routes if not isinstance(route, Route)]
    sockets = [route.path for route in others if isinstance(route, WebSocketRoute)]
    assert [type(route) for route in others if route not in sockets and isinstance(route, Mount)] == [Mount]
    for path in sockets:
        for headers in ({}, {"origin": "http://there.example"}, {"cookie": f"desk-{PORT}=guess"}):
            with pytest.raises(WebSocketDisconnect), phone.websocket_connect(path, headers=headers):
                pass


@pytest.mark.parametrize(
    "path",
    [
        "/static/../app.py",
        "/static/%2e%2e/app.py",
        "/static/..%2fapp.py",
        "/static/..%5capp.py",
        "/static//etc/hostname",
        "/static/%2fetc%2fhostname",
        "/static/%00",
        "/static/../../../piece/stand",
        "/static/../piece/stand",
        "/static",
        "/static/",
        "/static/" + "a/" * 400,
        "/static/" + "n" * 1500,
    ],
)
def test_only_our_own_files_lie_in_the_open(app: tuple[TestClient, list[object]], path: str) -> None:
    answer = app[0].get(path)
    assert answer.status_code in (303, 307, 404, 405)
    assert "secret" not in answer.text
    assert "import" not in answer.text
