"""The gate: this machine comes and goes, the home network shows that it was let in, nobody else is heard."""

from __future__ import annotations

from dataclasses import dataclass
from urllib.parse import quote

from starlette.requests import HTTPConnection
from starlette.responses import RedirectResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from scantling.desk.guard.trouble import POLICY_VIOLATION, Trouble, refuse
from scantling.desk.sharing.addresses import Whereabouts, visitor, whereabouts
from scantling.desk.sharing.share import Share

ENTER = "/enter"
SHARING = "/sharing"
STATIC = "/static/"

TOO_FAR = Trouble(403, "The desk is shared with the home network only", "This device is not in it.")
NOT_FROM_HERE = Trouble(
    403,
    "Sharing is looked after at the desk itself",
    "Open this page on the machine where the desk was started.",
)
NOT_IN = Trouble(
    401,
    "This device has to come in again",
    "Nothing was changed. Open the desk in another tab and give the pass code; what you typed here stays.",
)


@dataclass(frozen=True, slots=True)
class Gate:
    """Stands between the guard and the app."""

    app: ASGIApp
    share: Share

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] == "lifespan" or whereabouts(visitor(scope)) is Whereabouts.HERE:
            await self.app(scope, receive, send)
        elif trouble := _objection(scope):
            await refuse(trouble, scope, receive, send)
        elif _open_to_all(scope):
            await self.app(scope, receive, send)
        else:
            await self._let_in(scope, receive, send)

    async def _let_in(self, scope: Scope, receive: Receive, send: Send) -> None:
        secret = HTTPConnection(scope).cookies.get(self.share.cookie, "")
        if self.share.device(secret):
            await self.app(scope, receive, self._while_in(secret, send))
        elif _looks_for_a_page(scope):
            await RedirectResponse(_way_in(scope), 303)(scope, receive, send)
        else:
            await refuse(NOT_IN, scope, receive, send)

    def _while_in(self, secret: str, send: Send) -> Send:
        """A socket that is open when its device is sent away tells it nothing more."""

        async def sending(message: Message) -> None:
            if message["type"] == "websocket.send" and not self.share.device(secret):
                message = {"type": "websocket.close", "code": POLICY_VIOLATION}
            await send(message)

        return sending


def gated(app: ASGIApp, share: Share) -> ASGIApp:
    """`app` behind the gate. It trusts the address of the connection: nothing may stand in front of the desk
    and ask for others (so serve without `proxy_headers`).
    """
    return Gate(app, share)


def _objection(scope: Scope) -> Trouble | None:
    if whereabouts(visitor(scope)) is Whereabouts.FAR:
        return TOO_FAR
    looked_after = scope["path"] == SHARING or scope["path"].startswith(f"{SHARING}/")
    return NOT_FROM_HERE if looked_after else None


def _open_to_all(scope: Scope) -> bool:
    path: str = scope["path"]
    return path == ENTER or path.startswith(STATIC)


def _looks_for_a_page(scope: Scope) -> bool:
    return (
        scope["type"] == "http"
        and scope["method"] == "GET"
        and HTTPConnection(scope).headers.get("hx-request") != "true"
    )


def _way_in(scope: Scope) -> str:
    asked = b"?".join(part for part in (scope["raw_path"], scope["query_string"]) if part)
    return f"{ENTER}?to={quote(asked, safe='/')}"
