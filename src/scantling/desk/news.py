"""Telling every open page what changed: one WebSocket a page, short words, no data."""

from __future__ import annotations

import asyncio
import contextlib
from dataclasses import dataclass, field

from starlette.websockets import WebSocket, WebSocketDisconnect


@dataclass
class Hub:
    """All pages that listen. A word told is `topic` or `topic:slug`, such as `piece:sewing-desk`."""

    _listening: set[WebSocket] = field(default_factory=set)

    async def listen(self, socket: WebSocket) -> None:
        """Keep one page's line open until it goes away; what the page says is not heard."""
        await socket.accept()
        self._listening.add(socket)
        try:
            while True:
                await socket.receive_text()
        except WebSocketDisconnect:
            pass
        finally:
            self._listening.discard(socket)

    async def tell(self, *words: str) -> None:
        """Send each word to every page; a page that has gone is forgotten."""
        await asyncio.gather(*(self._send(socket, word) for socket in set(self._listening) for word in words))

    async def _send(self, socket: WebSocket, word: str) -> None:
        with contextlib.suppress(RuntimeError, WebSocketDisconnect):
            await socket.send_text(word)
