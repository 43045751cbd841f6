"""The page's answers: what it shows now if that is ready soon, else as it was, and said so."""

from __future__ import annotations

import asyncio
import json
from collections import defaultdict
from dataclasses import dataclass, field, replace
from functools import partial
from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from scantling.desk.desk import Desk
from scantling.desk.piece.addresses import text_address
from scantling.desk.piece.naming_view import refreshed
from scantling.desk.piece.part_view import PartView
from scantling.desk.piece.view import Changes, Page, PieceView, page_of
from scantling.desk.rendering import fragments
from scantling.desk.working import Asked, Cancelled

PATIENCE = 1.5  # seconds an answer waits for its plan before it shows the old one
OVERTAKEN = 1.0  # seconds a plan may run on when a newer change waits
PANELS = (
    "piece/_calm.html",
    "piece/_state.html",
    "piece/_sizes.html",
    "piece/_choices.html",
    "piece/_findings.html",
    "piece/_parts.html",
)

WORDS = ("piece/_state.html", "piece/_sizes.html", "piece/_choices.html")  # where words stand to be changed


@dataclass
class Shown:
    """What the pages show, by piece.

    `last`: the last question answered, with its page; `good`: the last page that could be planned;
    `picked`: the last part that was shown.
    `stopped`: a question the maker stopped. `late`: answers under way. `turns`: one change after another.
    """

    last: dict[str, tuple[Asked, Page]] = field(default_factory=dict)
    good: dict[str, Page] = field(default_factory=dict)
    picked: dict[str, PartView] = field(default_factory=dict)
    stopped: dict[str, Asked] = field(default_factory=dict)
    late: dict[str, asyncio.Task[None]] = field(default_factory=dict)
    turns: defaultdict[str, asyncio.Lock] = field(default_factory=lambda: defaultdict(asyncio.Lock))

    def close(self) -> None:
        """Wait for nothing any more."""
        for task in self.late.values():
            task.cancel()


async def page_now(desk: Desk, slug: str) -> Page:
    """The page of a piece as its files are. Raises Cancelled if planning was stopped."""
    shown, asked = desk.kept(Shown), desk.asked(slug)
    before, page = shown.last.get(slug, (None, None))
    if page is not None and before == asked:
        return page
    page = await desk.planner.ask(page_of, asked, before)
    if page.view.trouble is None:
        shown.good[slug] = page
    else:
        page = await _as_old(desk, slug, asked, page)
    shown.last[slug] = (asked, page)
    return page


def begin_page(desk: Desk, slug: str, asked: Asked) -> None:
    """Have a page worked out while its words are written: the question `page_now` asks once they are."""
    before, _ = desk.kept(Shown).last.get(slug, (None, None))
    desk.planner.begin(page_of, asked, before)


async def _as_old(desk: Desk, slug: str, asked: Asked, page: Page) -> Page:
    """The last good page with the words as they stand now, where nothing can be planned from them."""
    old = await old_page(desk, slug)
    if old.shapes is None:
        return page
    return replace(old, view=replace(old.view, digest=asked.digest, trouble=page.view.trouble))


async def page_soon(desk: Desk, slug: str) -> Page | None:
    """The same; None where it takes longer than anyone should wait. The pages are told when it is there."""
    task = asyncio.ensure_future(page_now(desk, slug))
    done, _ = await asyncio.wait({task}, timeout=PATIENCE)
    if done:
        return task.result()
    late = asyncio.ensure_future(_tell_when_done(desk, slug, task))
    desk.kept(Shown).late[slug] = late
    return None


async def _tell_when_done(desk: Desk, slug: str, task: asyncio.Task[Page]) -> None:
    await asyncio.wait({task})
    if not task.cancelled() and task.exception() is None:
        await desk.hub.tell(f"piece:{slug}")


async def old_page(desk: Desk, slug: str) -> Page:
    """What can be shown while nothing is worked out: the last good page with the words as they are now, or
    the name alone. Does not ask the planner, which may be busy.
    """
    good = desk.kept(Shown).good.get(slug)
    if good is None:
        return Page(PieceView("", desk.piece(slug).title), None)
    named = await asyncio.to_thread(refreshed, good.view.named, desk.asked(slug))
    view = replace(good.view, digest="", named=named, changes=Changes(), old=True)
    return Page(view, good.shapes)


def is_stopped(desk: Desk, slug: str) -> bool:
    """Whether the maker stopped just this plan."""
    return desk.kept(Shown).stopped.get(slug) == desk.asked(slug)


async def answer(
    request: Request, desk: Desk, slug: str, taken: tuple[str, ...] = (), added: str = ""
) -> Response:
    """All panels of the page. `taken`: fields whose words are kept now; `added`: the name of what is new."""
    if is_stopped(desk, slug):
        return await _waiting(request, desk, slug, taken, added)
    try:
        page = await page_soon(desk, slug)
    except Cancelled:
        page = None
    if page is None:
        return await _waiting(request, desk, slug, taken, added)
    response = fragments(request, *PANELS, **context(desk, slug, page))
    changes = page.view.changes
    shape = {
        "changed": changes.parts,
        "told": changes.told,
        "pictured": page.shapes is not None,
    }
    response.headers["HX-Trigger"] = _triggers(request, taken, added, **{"piece:shape": shape})
    response.headers["Server-Timing"] = f"plan;dur={page.seconds * 1000:.1f}"
    return response


def context(desk: Desk, slug: str, page: Page) -> dict[str, Any]:
    """What the templates of the page are given."""
    return {
        "slug": slug,
        "piece": desk.piece(slug),
        "view": page.view,
        "history": desk.keeper.offered(slug),
        "has_shop": desk.folder.shop_file() is not None,
        "text_at": partial(text_address, desk),
        "drafts": desk.ledger.drafts.all(f"/piece/{slug}"),
    }


async def _waiting(request: Request, desk: Desk, slug: str, taken: tuple[str, ...], added: str) -> Response:
    """The panels stay, marked as old, with the words that stand in the file now."""
    old, stopped = await old_page(desk, slug), is_stopped(desk, slug)
    panels = WORDS if old.shapes else ()
    response = fragments(request, "piece/_waiting.html", *panels, **context(desk, slug, old), stopped=stopped)
    response.headers["HX-Trigger"] = _triggers(request, taken, added)
    return response


def _triggers(request: Request, taken: tuple[str, ...], added: str, **more: object) -> str:
    """What the page's script is told with the answer. What is asked stays open until it is answered here: a
    page that only follows another tab, or an editor outside, keeps its question.
    """
    new: dict[str, object] = {"piece:added": {"name": added}} if added else {}
    shut: dict[str, object] = {"desk:shut": {}} if request.method == "POST" else {}
    return json.dumps({**new, "desk:taken": {"fields": list(taken)}, **shut, **more})
