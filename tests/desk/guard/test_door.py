"""Who is heard: the machine's own names, and for writes and sockets only the desk's own pages."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from starlette.websockets import WebSocketDisconnect

from scantling.desk.guard import GuardSettings

if TYPE_CHECKING:
    from tests.desk.guard.conftest import Asking

OWN = "http://127.0.0.1:8123"
SOCKET = "ws://127.0.0.1:8123/news"
STRANGE = [
    "http://cupboard.example:8123",
    "http://127.0.0.1:9000",
    "http://127.0.0.1",
    "http://127.0.0.1.cupboard.example:8123",
]


@pytest.mark.parametrize("at", [OWN, "http://localhost:8123", "http://[::1]:8123", "http://LOCALHOST:8123"])
def test_the_machines_own_names_are_heard(asking: Asking, at: str) -> None:
    assert asking(at).get("/").text == "<p>a page</p>"


@pytest.mark.parametrize("at", STRANGE)
def test_a_name_that_leads_here_from_elsewhere_is_refused(asking: Asking, at: str) -> None:
    answer = asking(at).get("/")
    assert answer.status_code == 400
    assert "does not go by this name" in answer.text


def test_two_names_at_once_are_refused(asking: Asking) -> None:
    answer = asking().get("/", headers=[("host", "127.0.0.1:8123"), ("host", "cupboard.example")])  # type: ignore[arg-type]
    assert answer.status_code == 400


@pytest.mark.parametrize("method", ["POST", "PUT", "DELETE"])
def test_a_write_from_an_own_page_is_done(asking: Asking, method: str) -> None:
    assert asking(origin=OWN, sec_fetch_site="same-origin").request(method, "/write").status_code == 200
    assert asking(origin=OWN).request(method, "/write").status_code == 200


@pytest.mark.parametrize("method", ["POST", "PUT", "DELETE"])
@pytest.mark.parametrize("origin", [*STRANGE, "null", "https://127.0.0.1:8123", "http://localhost:8123", ""])
def test_a_write_from_any_other_page_is_not(asking: Asking, method: str, origin: str) -> None:
    answer = asking(origin=origin).request(method, "/write")
    assert answer.status_code == 403
    assert "nothing was done" in answer.text


def test_a_write_without_an_origin_is_not_done(asking: Asking) -> None:
    assert asking().post("/write").status_code == 403


@pytest.mark.parametrize("site", ["cross-site", "same-site", "none"])
def test_a_write_that_the_browser_calls_foreign_is_not_done(asking: Asking, site: str) -> None:
    assert asking(origin=OWN, sec_fetch_site=site).post("/write").status_code == 403


def test_a_socket_opens_for_an_own_page(asking: Asking) -> None:
    with asking(origin=OWN).websocket_connect(SOCKET) as socket:
        assert socket.receive_text() == "heard"


@pytest.mark.parametrize("headers", [{}, {"origin": "http://cupboard.example"}, {"origin": "null"}])
def test_a_socket_stays_shut_for_any_other_page(asking: Asking, headers: dict[str, str]) -> None:
    with pytest.raises(WebSocketDisconnect) as shut, asking(**headers).websocket_connect(SOCKET):
        pass
    assert shut.value.code == 1008


def test_a_socket_stays_shut_under_a_strange_name(asking: Asking) -> None:
    browser = asking(origin="http://cupboard.example:8123")
    with pytest.raises(WebSocketDisconnect), browser.websocket_connect("ws://cupboard.example:8123/news"):
        pass


def test_names_on_the_home_network_are_told_with_the_port() -> None:
    hosts = GuardSettings.at(8123, ["192.168.1.20", "Bench.local"]).hosts
    assert {"192.168.1.20:8123", "bench.local:8123", "localhost:8123"} <= hosts
    assert "192.168.1.20" not in hosts


def test_at_the_usual_port_browsers_leave_it_out() -> None:
    assert {"localhost", "localhost:80"} <= GuardSettings.at(80).hosts
