"""Telling every open page what changed: one WebSocket a page, short words, no data."""

from __future__ import annotations

import asyncio
import contextlib
from dataclasses import dataclass, field

from starlette.websockets import WebSocket, WebSocketDisconnect

MOST_PAGES = 200
TRY_LATER = 1013  # RFC 6455, registered close code
PATIENCE = 2.0  # seconds a page may take to hear a word: nobody waits for a phone that sleeps


@dataclass
class Hub:
    """All pages that listen. A word told is `topic` or `topic:slug`, such as `piece:sewing-desk`."""

    _listening: set[WebSocket] = field(default_factory=set)

    async def listen(self, socket: WebSocket) -> None:
        """Keep one page's line open until it goes away; what the page says is not heard."""
        if len(self._listening) >= MOST_PAGES:
            await socket.close(TRY_LATER)
            return
        await socket.accept()
        self._listening.add(socket)
        try:
            while (await socket.receive())["type"] != "websocket.disconnect":
                pass
        finally:
            self._listening.discard(socket)

    async def tell(self, *words: str) -> None:
        """Send each word to every page; a page that has gone, or does not take it in time, is forgotten."""
        await asyncio.gather(*(self._send(socket, words) for socket in set(self._listening)))

    async def _send(self, socket: WebSocket, words: tuple[str, ...]) -> None:
        with contextlib.suppress(RuntimeError, WebSocketDisconnect):
            try:
                async with asyncio.timeout(PATIENCE):
                    for word in words:
                        await socket.send_text(word)
            except TimeoutError:  # its line is cut by the server soon; then it comes back and looks anew
                self._listening.discard(socket)
