"""Whose requests are heard: those for a name of this machine, and writes only from its own pages."""

from __future__ import annotations

from dataclasses import dataclass

from starlette.datastructures import Headers
from starlette.types import ASGIApp, Receive, Scope, Send

from scantling.desk.guard.trouble import Trouble, refuse

READING = frozenset({"GET", "HEAD"})

STRANGE_NAME = Trouble(
    400,
    "The desk does not go by this name",
    "It was asked for under an address that is not its own, as a strange web page may do behind your back. "
    "Open it at the address it printed when it was started.",
)
STRANGE_PAGE = Trouble(
    403,
    "Only the desk's own pages may change things",
    "This came from another web page, so nothing was done. Open the desk in its own tab and try again there.",
)


@dataclass(frozen=True, slots=True)
class Door:
    """Refuses strange Host headers, and strange Origins wherever something may be changed or listened to."""

    app: ASGIApp
    hosts: frozenset[str]

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        trouble = None if scope["type"] == "lifespan" else _objection(scope, self.hosts)
        if trouble is None:
            await self.app(scope, receive, send)
        else:
            await refuse(trouble, scope, receive, send)


def _objection(scope: Scope, hosts: frozenset[str]) -> Trouble | None:
    headers = Headers(scope=scope)
    named = headers.getlist("host")
    if len(named) != 1 or named[0].lower() not in hosts:
        return STRANGE_NAME
    reads = scope["type"] == "http" and scope["method"] in READING
    return None if reads or _from_own_page(headers, named[0]) else STRANGE_PAGE


def _from_own_page(headers: Headers, host: str) -> bool:
    # Every browser sends Origin with a write and with a socket; Sec-Fetch-Site only where it trusts the line.
    origins = headers.getlist("origin")
    same_site = headers.get("sec-fetch-site", "same-origin") == "same-origin"
    return same_site and [origin.lower() for origin in origins] == [f"http://{host}".lower()]
