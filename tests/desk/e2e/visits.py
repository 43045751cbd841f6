"""Visits to a desk in a real browser: whatever goes wrong on a page, or leaves for elsewhere, is noted."""

from __future__ import annotations

import os
import re
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

from playwright.sync_api import Browser, BrowserContext, ConsoleMessage, Page, WebError, WebSocket
from tests.desk.e2e.axe import violations
from tests.desk.e2e.served import Served

PICTURES = "SCANTLING_PICTURES"  # a folder; pages that are looked over are saved there
PATIENCE = 30_000  # ms; other tests keep the machine busy
AGENT = "Mozilla/5.0 (Linux; Android 10; K) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/156.0.0.0"
SIZES: dict[str, dict[str, Any]] = {
    "desktop": {"viewport": {"width": 1280, "height": 800}},
    "tablet": {
        "viewport": {"width": 820, "height": 1180},
        "has_touch": True,
        "is_mobile": True,
        "user_agent": f"{AGENT} Safari/537.36",
    },
    "phone": {
        "viewport": {"width": 390, "height": 844},
        "has_touch": True,
        "is_mobile": True,
        "device_scale_factor": 2,
        "user_agent": f"{AGENT} Mobile Safari/537.36",
    },
}
# What a browser says while the desk is killed: `visit.expect(*AWAY)`. An answer may break off at any byte,
# so every trouble of the line itself counts; a wrong status or a script's fault does not.
AWAY = ("net::ERR_", "WebSocket connection", "Failed to fetch", "network error")
# Pages of the desk say when their script runs; the pages for trouble and for entering have none.
READY = "html.ready, body:not([data-page]), body[data-page='']"


@dataclass
class Visits:
    """Opens pages of one desk. `troubles` is what must stay empty."""

    browser: Browser
    desk: Served
    troubles: list[str] = field(default_factory=list)
    _allowed: list[str] = field(default_factory=list)
    _open: list[BrowserContext] = field(default_factory=list)

    def __call__(
        self, path: str = "/", size: str = "desktop", beside: Page | None = None, **more: Any
    ) -> Page:
        """A page at one of the SIZES, ready to use.

        `beside` another page it is a second tab of the same browser; otherwise it is a browser of its own,
        with nothing remembered. `more` goes to playwright's `new_context`.
        """
        page = (beside.context if beside else self._browser(size, more)).new_page()
        page.on("websocket", self._listened)
        page.goto(self.desk.url + path)
        page.locator(READY).first.wait_for(state="attached")
        return page

    def expect(self, *words: str) -> None:
        """Pass over troubles that hold these words: the test brings them about on purpose."""
        self._allowed.extend(words)

    def close(self) -> list[str]:
        """Close all pages. What went wrong and was not expected."""
        for context in self._open:
            context.close()
        self._open.clear()
        return [told for told in self.troubles if not any(words in told for words in self._allowed)]

    def _browser(self, size: str, more: dict[str, Any]) -> BrowserContext:
        context = self.browser.new_context(**{"reduced_motion": "reduce", **SIZES[size], **more})
        context.set_default_timeout(PATIENCE)
        context.on("request", lambda request: self._asked(request.url))
        context.on("console", self._said)
        context.on("weberror", self._stumbled)
        self._open.append(context)
        return context

    def _asked(self, url: str) -> None:
        if not is_own(url, self.desk.url):
            self.troubles.append(f"outside request: {url[:300]}")

    def _listened(self, socket: WebSocket) -> None:
        self._asked(socket.url)

    def _said(self, message: ConsoleMessage) -> None:
        if message.type in {"error", "warning"} and "GPU stall" not in message.text:
            self.troubles.append(
                f"console {message.type}: {message.text} ({message.location.get('url', '')})"
            )

    def _stumbled(self, error: WebError) -> None:
        self.troubles.append(f"script error: {error.error}")


def is_own(url: str, own: str) -> bool:
    """Whether a request stays with the desk at `own`, or never leaves the browser."""
    asked, desk = urlsplit(url), urlsplit(own)
    return asked.scheme in {"data", "blob", "about"} or (
        asked.scheme in {"http", "ws"} and asked.netloc == desk.netloc
    )


def look_over(page: Page, name: str) -> None:
    """What every page must stand at every size: no violation in axe, no scrolling sideways; a picture too.

    The picture goes to the folder named in the environment, if any, as `name-width.png`.
    """
    save_picture(page, name)
    assert violations(page) == []
    # Against the screen, not `innerWidth`: a phone zooms out until a page that is too wide fits.
    assert page.viewport_size
    assert page.evaluate("document.documentElement.scrollWidth") <= page.viewport_size["width"]


def save_picture(page: Page, name: str) -> None:
    """Save the whole page where people look at pictures; nothing without that folder."""
    folder = os.environ.get(PICTURES)
    if folder and page.viewport_size:
        plain = re.sub(r"[^\w]+", "-", name).strip("-")
        page.screenshot(path=Path(folder) / f"{plain}-{page.viewport_size['width']}.png", full_page=True)


LookOver = Callable[[Page, str], None]
