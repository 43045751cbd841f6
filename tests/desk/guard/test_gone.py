"""A page closed while it still sends, as a phone that goes out of reach: no failure of the desk."""

from __future__ import annotations

import asyncio
from typing import Any

from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from scantling.desk.guard import GuardSettings, guarded, trouble_handlers


async def write(request: Request) -> Response:
    await request.form()
    raise AssertionError("half a form was taken")


def test_half_a_form_of_a_page_that_is_gone_is_dropped_quietly() -> None:
    app = Starlette(routes=[Route("/write", write, methods=["POST"])], exception_handlers=trouble_handlers())
    messages = [
        {"type": "http.request", "body": b"words=ha", "more_body": True},
        {"type": "http.disconnect"},
    ]
    sent: list[Any] = []

    async def receive() -> Any:
        return messages.pop(0) if messages else {"type": "http.disconnect"}

    async def send(message: Any) -> None:
        sent.append(message)

    headers = {
        "host": "127.0.0.1:8123",
        "origin": "http://127.0.0.1:8123",
        "content-type": "application/x-www-form-urlencoded",
    }
    scope = {
        "type": "http",
        "http_version": "1.1",
        "method": "POST",
        "path": "/write",
        "raw_path": b"/write",
        "root_path": "",
        "scheme": "http",
        "query_string": b"",
        "headers": [(name.encode(), value.encode()) for name, value in headers.items()],
        "client": ("127.0.0.1", 4000),
        "server": ("127.0.0.1", 8123),
    }
    asyncio.run(guarded(app, GuardSettings.at(8123))(scope, receive, send))
    assert sent[0]["status"] == 400
