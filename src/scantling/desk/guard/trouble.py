"""Trouble told in plain words: a page for a person, a line for a page that is already open."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from http import HTTPStatus

from starlette.datastructures import Headers
from starlette.exceptions import HTTPException
from starlette.requests import ClientDisconnect, Request
from starlette.responses import HTMLResponse
from starlette.types import ExceptionHandler, Receive, Scope, Send

from scantling.desk.rendering import rendered

POLICY_VIOLATION = 1008


@dataclass(frozen=True, slots=True)
class Trouble:
    """What went wrong and what to do, for a maker."""

    status: int
    head: str
    words: str


USUAL = {
    trouble.status: trouble
    for trouble in (
        Trouble(400, "That could not be understood", "Go back, load the page again and try once more."),
        Trouble(403, "That is not allowed from here", "Nothing was changed."),
        Trouble(404, "There is nothing at this address", "It may have been renamed or taken away."),
        Trouble(405, "That cannot be done at this address", "Nothing was changed. Load the page again."),
        Trouble(413, "That is too large", "Nothing was kept; send something smaller."),
        Trouble(
            500,
            "Something went wrong in the desk",
            "Your files are as they were after the last change that was kept. "
            "What happened stands in the window where the desk was started.",
        ),
    )
}


def told(trouble: Trouble, headers: Headers, more: Mapping[str, str] | None = None) -> HTMLResponse:
    """The answer that tells `trouble`; `headers` are the request's, `more` those to add to the answer.

    A request by htmx gets one line for the page's status line, so that nothing on the page is replaced.
    """
    inside = headers.get("hx-request") == "true"
    text = rendered("guard/line.html" if inside else "guard/trouble.html", {"trouble": trouble})
    aim = {"hx-retarget": "#line", "hx-reswap": "innerHTML", "hx-reselect": ".told"} if inside else {}
    return HTMLResponse(text, trouble.status, {**(more or {}), **aim})


async def refuse(trouble: Trouble, scope: Scope, receive: Receive, send: Send) -> None:
    """Answer with `trouble` instead of the app; a socket is closed unopened."""
    if scope["type"] == "websocket":
        await send({"type": "websocket.close", "code": POLICY_VIOLATION, "reason": trouble.head})
    else:
        await told(trouble, Headers(scope=scope))(scope, receive, send)


def trouble_handlers() -> dict[int | type[Exception], ExceptionHandler]:
    """For `Starlette(exception_handlers=...)`.

    `HTTPException(404, "No piece is called ...")` becomes a page with these words; any other exception
    becomes the page for 500, and goes on to the server's log.
    """
    return {HTTPException: _answer_http, ClientDisconnect: _answer_nobody, Exception: _answer_any}


async def _answer_http(request: Request, error: Exception) -> HTMLResponse:
    assert isinstance(error, HTTPException)
    return told(_trouble(error), request.headers, error.headers)


async def _answer_nobody(request: Request, error: Exception) -> HTMLResponse:  # noqa: ARG001
    """A page that was closed while it still sent: nobody reads this, and nothing went wrong."""
    return told(USUAL[400], request.headers)


async def _answer_any(request: Request, error: Exception) -> HTMLResponse:  # noqa: ARG001
    return told(USUAL[500], request.headers)


def _trouble(error: HTTPException) -> Trouble:
    usual = USUAL.get(error.status_code, USUAL[400])
    own_words = error.detail != HTTPStatus(error.status_code).phrase
    return Trouble(error.status_code, usual.head, error.detail if own_words else usual.words)
