"""How much may be sent, counted while it arrives; and files only where a photo is asked for."""

from __future__ import annotations

from dataclasses import dataclass

from starlette.datastructures import Headers
from starlette.exceptions import HTTPException
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from scantling.desk.guard.settings import Limits
from scantling.desk.guard.trouble import Trouble, refuse

MOST_DIGITS = 18
TOO_LONG = Trouble(414, "There is nothing at this address", "It is longer than any address of the desk.")
NO_FILES = Trouble(
    415, "No file can be sent here", "Nothing was changed. Load the page again and try once more."
)


@dataclass(frozen=True, slots=True)
class BodyLimit:
    """Refuses a body that says it is too large, and cuts off one that turns out to be."""

    app: ASGIApp
    limits: Limits

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        if trouble := _objection(scope, self.limits):
            await refuse(trouble, scope, receive, send)
        else:
            await self.app(scope, _counted(receive, self.limits.for_path(scope["path"])), send)


def too_large(limit: int) -> Trouble:
    """What is said about a body over `limit`. [bytes]"""
    words = (
        f"At most {limit // 1_000_000} MB can be sent at once here. Nothing was kept; send something smaller."
    )
    return Trouble(413, "That is too large", words)


def _objection(scope: Scope, limits: Limits) -> Trouble | None:
    path: str = scope["path"]
    if len(path) > limits.address:
        return TOO_LONG
    if _announced(scope) > limits.for_path(path):
        return too_large(limits.for_path(path))
    kind = Headers(scope=scope).get("content-type", "").strip().lower()
    return NO_FILES if kind.startswith("multipart/") and not limits.takes_files(path) else None


def _announced(scope: Scope) -> int:
    length = Headers(scope=scope).get("content-length", "0")
    return int(length[:MOST_DIGITS]) if length.isdecimal() else 0


def _counted(receive: Receive, limit: int) -> Receive:
    arrived = 0

    async def counting() -> Message:
        nonlocal arrived
        message = await receive()
        arrived += len(message.get("body", b""))
        if arrived > limit:
            trouble = too_large(limit)
            raise HTTPException(trouble.status, trouble.words)
        return message

    return counting
