"""The line to the pages: whatever they say over it, however many they are, and one that does not listen."""

from __future__ import annotations

import asyncio
from time import monotonic
from typing import Any

import pytest
from starlette.applications import Starlette
from starlette.routing import WebSocketRoute
from starlette.testclient import TestClient
from starlette.websockets import WebSocket, WebSocketDisconnect

from scantling.desk import news
from scantling.desk.news import Hub


def client_of(hub: Hub) -> TestClient:
    async def tell(socket: WebSocket) -> None:
        await socket.accept()
        await hub.tell("files")
        await socket.close()

    return TestClient(Starlette(routes=[WebSocketRoute("/news", hub.listen), WebSocketRoute("/tell", tell)]))


def test_what_a_page_says_is_not_heard() -> None:
    with client_of(Hub()) as client, client.websocket_connect("/news") as page:
        for said in (b"\xff\x00", b"", b"x" * 60_000):
            page.send_bytes(said)
            page.send_text("\0\u202e" * 1000)
        with client.websocket_connect("/tell"):
            assert page.receive_text() == "files"


def test_no_more_pages_than_a_shop_has(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(news, "MOST_PAGES", 2)
    with client_of(Hub()) as client, client.websocket_connect("/news"), client.websocket_connect("/news"):
        with pytest.raises(WebSocketDisconnect) as refused, client.websocket_connect("/news"):
            pass
        assert refused.value.code == news.TRY_LATER


def test_nobody_waits_for_a_page_that_does_not_listen(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(news, "PATIENCE", 0.05)
    heard: list[str] = []

    class Asleep:
        async def send_text(self, word: str) -> None:
            await asyncio.sleep(60)

    class Awake:
        async def send_text(self, word: str) -> None:
            heard.append(word)

    pages: Any = {Asleep(), Awake()}
    hub = Hub(pages)
    start = monotonic()
    asyncio.run(hub.tell("files", "shop"))
    assert (heard, len(hub._listening)) == (["files", "shop"], 1)
    assert monotonic() - start < 30
