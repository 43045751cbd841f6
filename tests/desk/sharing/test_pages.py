"""The entrance and the page at the desk, as HTML."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING
from urllib.parse import unquote

import pytest
import segno

from scantling.desk.sharing import Share
from scantling.desk.sharing.codes import shown
from scantling.desk.sharing.routes import own_path

if TYPE_CHECKING:
    from starlette.testclient import TestClient
    from tests.desk.sharing.conftest import Device


def test_the_cookie_is_for_this_site_and_out_of_reach_of_scripts(device: Device, share: Share) -> None:
    cookie = device().post("/enter", data={"code": share.code}).headers["set-cookie"]
    assert cookie.startswith("desk-8123=")
    assert {"HttpOnly", "SameSite=strict", "Path=/", "Max-Age=43200"} <= set(cookie.split("; "))


def test_a_wrong_code_is_told_and_kept_out(device: Device) -> None:
    answer = device().post("/enter", data={"code": "33333333", "to": "/piece/tray"})
    assert answer.status_code == 403
    assert "not the pass code" in answer.text
    assert 'value="/piece/tray"' in answer.text
    assert "set-cookie" not in answer.headers


def test_one_who_guesses_is_told_how_long_to_wait(device: Device, share: Share) -> None:
    browser = device()
    for _ in range(4):
        last = browser.post("/enter", data={"code": "33333333"})
    assert "Wait 2 seconds" in last.text
    too_soon = browser.post("/enter", data={"code": share.code})
    assert too_soon.status_code == 429
    assert too_soon.headers["retry-after"] == "2"
    assert "not looked at" in too_soon.text


def test_a_scanned_code_lets_in_once(device: Device, share: Share) -> None:
    link = share.new_link()
    assert device().post("/enter", data={"link": link}).status_code == 303
    again = device().post("/enter", data={"link": link})
    assert again.status_code == 403
    assert "used already" in again.text


@pytest.mark.parametrize("form", [{}, {"code": ""}, {"code": "é" * 9000}])
def test_odd_tries_are_only_wrong(device: Device, form: dict[str, str]) -> None:
    assert device().post("/enter", data=form).status_code == 403


def test_a_file_in_place_of_a_code_is_refused(device: Device) -> None:
    assert device().post("/enter", files={"code": b"CDFG"}).status_code == 415


@pytest.mark.parametrize(
    "to", ["//cupboard.example", "http://cupboard.example", "/\\cupboard.example", "/\n", ""]
)
def test_nobody_is_led_elsewhere(device: Device, share: Share, to: str) -> None:
    assert own_path(to) == "/"
    assert device().post("/enter", data={"code": share.code, "to": to}).headers["location"] == "/"


def test_the_entrance_leads_this_machine_straight_on(device: Device) -> None:
    assert device("127.0.0.1").get("/enter?to=/piece/tray").headers["location"] == "/piece/tray"


def test_the_page_at_the_desk_shows_how_to_come_in(
    device: Device, share: Share, monkeypatch: pytest.MonkeyPatch
) -> None:
    scanned: list[str] = []
    make = segno.make

    def noting(words: str, **more: object) -> segno.QRCode:
        scanned.append(words)
        return make(words, **more)

    monkeypatch.setattr(segno, "make", noting)
    text = device("127.0.0.1").get("/sharing").text
    assert shown(share.code) in text
    assert "http://192.168.1.20:8123" in text
    assert "not encrypted" in text
    address, _, link = scanned[0].partition("#")
    assert address == "http://192.168.1.20:8123/enter"
    assert device().post("/enter", data={"link": link}).status_code == 303


def test_the_code_to_scan_is_a_picture_without_style_or_script(
    device: Device, monkeypatch: pytest.MonkeyPatch
) -> None:
    found = re.search(
        r'src="data:image/svg\+xml;charset=utf-8,([^"]+)"', device("127.0.0.1").get("/sharing").text
    )
    assert found
    assert unquote(found[1]).startswith("<svg")
    assert not re.search(r"style|script", unquote(found[1]))


def test_without_a_home_network_it_says_so(device: Device, share: Share) -> None:
    share.addresses = tuple
    assert "in no home network" in device("127.0.0.1").get("/sharing").text


def test_who_is_in_is_shown_and_sent_away(device: Device, share: Share) -> None:
    desk, phone = device("127.0.0.1"), device("192.168.1.33")
    phone.post("/enter", data={"code": share.code})
    assert "A phone at 192.168.1.33, since" in desk.get("/sharing").text
    number = share.devices()[0].number
    assert desk.post(f"/sharing/devices/{number}/away").headers["location"] == "/sharing"
    assert "Nobody but this machine" in desk.get("/sharing").text
    assert phone.get("/").status_code == 303


def test_a_desk_that_is_not_shared_says_how_to(unshared: TestClient) -> None:
    assert "--share" in unshared.get("/sharing").text
    assert unshared.post("/enter", data={"code": "33333333"}).status_code == 404
    assert unshared.post("/sharing/devices/1/away").status_code == 404
