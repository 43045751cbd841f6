"""The page's answers: what it shows now if that is ready soon, else as it was, and said so."""

from __future__ import annotations

import asyncio
import json
from dataclasses import dataclass, field
from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from scantling.desk.desk import Desk
from scantling.desk.piece.view import Page, page_of
from scantling.desk.rendering import fragments
from scantling.desk.working import Asked, Cancelled

PATIENCE = 1.5  # seconds an answer waits for its plan before it shows the old one
PANELS = (
    "piece/_state.html",
    "piece/_sizes.html",
    "piece/_choices.html",
    "piece/_findings.html",
    "piece/_parts.html",
)


@dataclass
class Shown:
    """What each piece's page last showed.

    `good`: the last question that could be planned. `since`: the last one, and the one it changed from, so
    that every tab is told the same changes. `late`: those under way.
    """

    good: dict[str, Asked] = field(default_factory=dict)
    since: dict[str, tuple[Asked, Asked]] = field(default_factory=dict)
    late: dict[str, asyncio.Task[None]] = field(default_factory=dict)

    def close(self) -> None:
        """Wait for nothing any more."""
        for task in self.late.values():
            task.cancel()


async def page_now(desk: Desk, slug: str, before: Asked | None = None) -> Page:
    """The page of a piece as its files are. Raises Cancelled if planning was stopped."""
    shown, asked = desk.kept(Shown), desk.asked(slug)
    if before is not None:
        shown.since[slug] = (asked, before)
    last, before = shown.since.get(slug, (None, None))
    before = before if last == asked else None
    page = await desk.planner.ask(page_of, asked, before, shown.good.get(slug))
    if page.view.trouble is None:
        shown.good[slug] = asked
    return page


async def page_soon(desk: Desk, slug: str, before: Asked | None = None) -> Page | None:
    """The same; None where it takes longer than anyone should wait. The pages are told when it is there."""
    task = asyncio.ensure_future(page_now(desk, slug, before))
    done, _ = await asyncio.wait({task}, timeout=PATIENCE)
    if done:
        return task.result()
    desk.kept(Shown).late[slug] = asyncio.ensure_future(_tell_when_done(desk, slug, task))
    return None


async def _tell_when_done(desk: Desk, slug: str, task: asyncio.Task[Page]) -> None:
    await asyncio.wait({task})
    if not task.cancelled():
        task.exception()
    await desk.hub.tell(f"piece:{slug}")


async def answer(
    request: Request, desk: Desk, slug: str, before: Asked | None = None, taken: tuple[str, ...] = ()
) -> Response:
    """All panels of the page. `taken`: fields whose words are kept now."""
    try:
        page = await page_soon(desk, slug, before)
    except Cancelled:
        return waiting(request, slug, "Planning was stopped. The picture and the numbers are old.")
    if page is None:
        return waiting(request, slug, "Still working it out. The picture and the numbers are old.")
    response = fragments(request, *PANELS, **context(desk, slug, page))
    response.headers["HX-Trigger"] = triggers(page, taken)
    return response


def context(desk: Desk, slug: str, page: Page) -> dict[str, Any]:
    """What the templates of the page are given."""
    return {
        "slug": slug,
        "piece": desk.piece(slug),
        "view": page.view,
        "history": desk.keeper.history(slug, most=1),
        "has_shop": desk.folder.shop_file() is not None,
    }


def waiting(request: Request, slug: str, words: str) -> Response:
    """The old panels stay; a line says so."""
    return fragments(request, "piece/_waiting.html", slug=slug, words=words)


def triggers(page: Page, taken: tuple[str, ...]) -> str:
    """What the page's script is told with the answer."""
    shape = {"digest": page.view.digest, "changed": list(page.view.changes.parts), "old": page.view.old}
    return json.dumps({"piece:shape": shape, "desk:taken": {"fields": list(taken)}, "desk:shut": {}})
