from __future__ import annotations

from collections.abc import Callable

import pytest
from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import HTMLResponse, PlainTextResponse, Response
from starlette.routing import Route, WebSocketRoute
from starlette.testclient import TestClient
from starlette.websockets import WebSocket

from scantling.desk.guard import GuardSettings, Limits, guarded, trouble_handlers

PORT = 8123
OWN = f"http://127.0.0.1:{PORT}"


async def show(request: Request) -> Response:
    return HTMLResponse("<p>a page</p>")


async def write(request: Request) -> Response:
    return PlainTextResponse(str(len(await request.body())))


async def ignore(request: Request) -> Response:
    return PlainTextResponse("not read")


async def published(request: Request) -> Response:
    return HTMLResponse("<p>by itself</p>", headers={"content-security-policy": "sandbox"})


async def stumble(request: Request) -> Response:
    raise RuntimeError("/home/someone/secret.yaml is amiss")


async def missing(request: Request) -> Response:
    raise HTTPException(404, 'No piece is called "<b>tray</b>".')


async def news(socket: WebSocket) -> None:
    await socket.accept()
    await socket.send_text("heard")
    await socket.close()


ROUTES = [
    Route("/", show),
    Route("/write", write, methods=["POST", "PUT", "DELETE"]),
    Route("/rack/photo", write, methods=["POST"]),
    Route("/ignore", ignore, methods=["POST"]),
    Route("/published", published),
    Route("/stumble", stumble),
    Route("/missing", missing),
    Route("/static/desk.css", show),
    WebSocketRoute("/news", news),
]

Asking = Callable[..., TestClient]


@pytest.fixture
def asking() -> Asking:
    """A browser's requests to a small guarded app; `at` is the address it was asked under."""
    app = guarded(
        Starlette(routes=ROUTES, exception_handlers=trouble_handlers()),
        GuardSettings(GuardSettings.at(PORT).hosts, Limits(usual=100, photo=1000)),
    )

    def make(at: str = OWN, **headers: str) -> TestClient:
        named = {name.replace("_", "-"): value for name, value in headers.items()}
        return TestClient(app, base_url=at, headers=named, raise_server_exceptions=False)

    return make
