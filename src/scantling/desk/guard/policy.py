"""What a page of ours may do in the browser, written on every answer."""

from __future__ import annotations

import re
from dataclasses import dataclass
from http import HTTPStatus

from starlette.datastructures import Headers, MutableHeaders
from starlette.types import ASGIApp, Message, Receive, Scope, Send

STATIC = "/static/"
_DIGEST = re.compile(rb"[0-9a-f]{12,64}")

# `same-origin`, not `no-referrer`: with that, browsers send `Origin: null` with our own forms.
FIXED = {
    "x-content-type-options": "nosniff",
    "referrer-policy": "same-origin",
    "permissions-policy": "camera=(), display-capture=(), geolocation=(), microphone=(), payment=(), usb=()",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
}


@dataclass(frozen=True, slots=True)
class Policy:
    """Adds the headers; one that the page set itself stays (a published page brings its own policy)."""

    app: ASGIApp
    hosts: frozenset[str]

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        async def dressed(message: Message) -> None:
            if message["type"] == "http.response.start":
                _add_headers(message, scope, self.hosts)
            await send(message)

        await self.app(scope, receive, dressed)


def content_policy(socket: str) -> str:
    """Everything from ourselves alone; `socket` is the address that pages listen to, or empty."""
    return (
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; "
        f"font-src 'self'; connect-src 'self'{f' {socket}' if socket else ''}; "
        "form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
    )


def _add_headers(message: Message, scope: Scope, hosts: frozenset[str]) -> None:
    headers = MutableHeaders(scope=message)
    host = Headers(scope=scope).get("host", "").lower()
    headers.setdefault("content-security-policy", content_policy(f"ws://{host}" if host in hosts else ""))
    headers.setdefault("cache-control", _keeping(scope, message["status"]))
    for name, value in FIXED.items():
        headers.setdefault(name, value)


def _keeping(scope: Scope, status: int) -> str:
    """How long a browser may keep an answer: a file asked for by its digest for good, pages never."""
    if not scope["path"].startswith(STATIC):
        return "no-store"
    named = status == HTTPStatus.OK and _DIGEST.fullmatch(scope["query_string"])
    return "public, max-age=31536000, immutable" if named else "no-cache"
