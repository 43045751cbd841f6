"""Who comes through the gate."""

from __future__ import annotations

import re
from html import unescape
from typing import TYPE_CHECKING

import pytest
from starlette.websockets import WebSocketDisconnect

from scantling.desk.sharing import Share

if TYPE_CHECKING:
    from starlette.testclient import TestClient
    from tests.desk.sharing.conftest import Device

SOCKET = "ws://192.168.1.20:8123/news"


def come_in(browser: TestClient, share: Share, to: str = "/") -> None:
    assert browser.post("/enter", data={"code": share.code, "to": to}).status_code == 303


@pytest.mark.parametrize("address", ["127.0.0.1", "::1"])
def test_this_machine_needs_no_code(device: Device, address: str) -> None:
    assert device(address).get("/").text == "<p>a piece</p>"
    assert device(address).post("/piece/tray").status_code == 200


@pytest.mark.parametrize("address", ["8.8.4.4", "testclient"])
def test_nobody_from_far_away_is_heard(device: Device, share: Share, address: str) -> None:
    browser = device(address)
    assert browser.get("/").status_code == browser.get("/static/desk.css").status_code == 403
    assert browser.post("/enter", data={"code": share.code}).status_code == 403


def test_a_page_leads_to_the_entrance_and_back(device: Device, share: Share) -> None:
    browser = device()
    asked = browser.get("/piece/tray")
    assert (asked.status_code, asked.headers["location"]) == (303, "/enter?to=/piece/tray")
    assert 'name="to" value="/piece/tray"' in browser.get(asked.headers["location"]).text
    let_in = browser.post("/enter", data={"code": share.code, "to": "/piece/tray"})
    assert (let_in.status_code, let_in.headers["location"]) == (303, "/piece/tray")
    assert browser.get("/piece/tray").text == "<p>a piece</p>"


def test_what_was_asked_of_a_page_is_kept_on_the_way_in(device: Device, share: Share) -> None:
    browser = device()
    asked = "/piece/tray?part=back%20rail&open=1"
    way = browser.get(asked).headers["location"]
    assert way == "/enter?to=/piece/tray%3Fpart%3Dback%2520rail%26open%3D1"
    kept = unescape(re.findall(r'name="to" value="([^"]+)"', browser.get(way).text)[0])
    assert browser.post("/enter", data={"code": share.code, "to": kept}).headers["location"] == asked


def test_the_entrance_may_be_dressed(device: Device) -> None:
    assert device().get("/static/desk.css").status_code == 200


def test_anything_but_a_page_is_refused_in_words(device: Device) -> None:
    browser = device()
    assert browser.post("/piece/tray").status_code == 401
    inside = browser.get("/", headers={"hx-request": "true"})
    assert inside.status_code == 401
    assert inside.headers["hx-retarget"] == "#line"
    assert "has to come in again" in inside.text


def test_a_socket_stays_shut_until_one_is_in(device: Device, share: Share) -> None:
    browser = device()
    with pytest.raises(WebSocketDisconnect), browser.websocket_connect(SOCKET):
        pass
    come_in(browser, share)
    with browser.websocket_connect(SOCKET) as socket:
        socket.send_text("hello")
        assert socket.receive_text() == "hello"


def test_an_open_socket_tells_nothing_to_one_sent_away(device: Device, share: Share) -> None:
    browser = device()
    come_in(browser, share)
    with browser.websocket_connect(SOCKET) as socket:
        share.send_away(share.devices()[0].number)
        socket.send_text("hello")
        with pytest.raises(WebSocketDisconnect):
            socket.receive_text()


def test_one_sent_away_stands_at_the_entrance_again(device: Device, share: Share) -> None:
    browser = device()
    come_in(browser, share)
    share.send_away(share.devices()[0].number)
    assert browser.get("/").headers["location"] == "/enter?to=/"


@pytest.mark.parametrize("path", ["/sharing", "/sharing/devices/1/away"])
def test_only_this_machine_looks_after_sharing(device: Device, share: Share, path: str) -> None:
    browser = device()
    come_in(browser, share)
    assert browser.get(path).status_code == browser.post(path).status_code == 403
    assert share.code not in browser.get("/sharing").text.replace("-", "")


def test_a_cookie_of_another_makes_no_entry(device: Device, share: Share) -> None:
    browser = device()
    browser.cookies.set(share.cookie, "guessed")
    assert browser.get("/").status_code == 303
