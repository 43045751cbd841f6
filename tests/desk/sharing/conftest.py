from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from types import SimpleNamespace

import pytest
from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import HTMLResponse, Response
from starlette.routing import Route, WebSocketRoute
from starlette.testclient import TestClient
from starlette.websockets import WebSocket

from scantling.desk.guard import GuardSettings, guarded, trouble_handlers
from scantling.desk.news import Hub
from scantling.desk.sharing import Share, gated
from scantling.desk.sharing.routes import routes

PORT = 8123
OWN = f"http://192.168.1.20:{PORT}"


@dataclass
class Clock:
    now: float = 1_000_000.0

    def __call__(self) -> float:
        return self.now


async def show(request: Request) -> Response:
    return HTMLResponse("<p>a piece</p>")


async def news(socket: WebSocket) -> None:
    await socket.accept()
    async for word in socket.iter_text():
        await socket.send_text(word)


def small_app(share: Share | None) -> Starlette:
    pages = [
        Route("/", show),
        Route("/piece/tray", show, methods=["GET", "POST"]),
        Route("/static/desk.css", show),
    ]
    app = Starlette(
        routes=[*routes, *pages, WebSocketRoute("/news", news)], exception_handlers=trouble_handlers()
    )
    app.state.share = share
    app.state.desk = SimpleNamespace(hub=Hub())
    return app


Device = Callable[..., TestClient]


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def share(clock: Clock) -> Share:
    return Share(PORT, lambda: ("192.168.1.20",), clock)


@pytest.fixture
def device(share: Share) -> Device:
    """A browser at some address of the network, asking the guarded and gated app."""
    app = guarded(gated(small_app(share), share), GuardSettings.at(PORT, ["192.168.1.20"]))

    def make(address: str = "192.168.1.33", agent: str = "Mobile") -> TestClient:
        headers = {"origin": OWN, "user-agent": agent}
        return TestClient(app, base_url=OWN, headers=headers, client=(address, 5000), follow_redirects=False)

    return make


@pytest.fixture
def unshared() -> TestClient:
    """A browser at a desk that is not shared."""
    return TestClient(small_app(None), client=("127.0.0.1", 5000))
