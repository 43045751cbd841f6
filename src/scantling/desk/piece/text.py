"""The text of the file: always one step away, with what is wrong shown at its character."""

from __future__ import annotations

import asyncio
import json

from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from scantling.desk.desk import Desk, desk_of
from scantling.desk.piece.view import page_of
from scantling.desk.rendering import fragments, page
from scantling.desk.working import Cancelled
from scantling.desk.working.asked import Trouble
from scantling.errors import Conflict, ReadError
from scantling.piece.editing.differing import difference

SEE_OTHER = 303


async def text(request: Request) -> Response:
    """The text, what was typed and not kept yet, and what is wrong with it."""
    desk, slug = desk_of(request), request.path_params["slug"]
    piece = desk.piece(slug)
    draft = desk.ledger.drafts.get(request.url.path, "text")
    try:
        now = desk.folder.text(piece.file).text
    except ReadError as error:
        return page(request, "piece/unreadable.html", slug=slug, piece=piece, why=str(error))
    return page(
        request,
        "piece/text.html",
        slug=slug,
        piece=piece,
        text=now,
        draft=draft,
        line=request.query_params.get("line", ""),
        trouble=await _trouble(desk, slug, now),
    )


async def tried(request: Request) -> Response:
    """What is wrong with the text as typed; nothing is written."""
    desk, slug, form = desk_of(request), request.path_params["slug"], await request.form()
    return fragments(
        request,
        "piece/_text_trouble.html",
        slug=slug,
        trouble=await _trouble(desk, slug, _typed(form.get("text"))),
    )


async def keep(request: Request) -> Response:
    """Write the text as typed, unless the file holds other words by now than the page was given."""
    desk, slug, form = desk_of(request), request.path_params["slug"], await request.form()
    piece = desk.piece(slug)
    was, new = _typed(form.get("was")), _typed(form.get("text"))
    newline = "\r\n" if "\r\n" in desk.folder.text(piece.file).text else "\n"
    pair = (was.replace("\n", newline), new.replace("\n", newline))
    try:
        await asyncio.to_thread(desk.keeper.write, slug, "the text changed by hand", {piece.file: pair})
    except Conflict as error:
        return _conflict(request, slug, new, error)
    desk.ledger.drafts.clear(f"/piece/{slug}/text", "text")
    await desk.hub.tell(f"piece:{slug}", "files")
    trouble = await _trouble(desk, slug, new)
    response = fragments(
        request, "piece/_text_kept.html", "piece/_text_trouble.html", slug=slug, text=new, trouble=trouble
    )
    response.headers["HX-Trigger"] = json.dumps(
        {"desk:taken": {"fields": ["text"]}, "desk:say": {"words": "The text is kept."}}
    )
    return response


def _conflict(request: Request, slug: str, new: str, error: Conflict) -> Response:
    now = error.now.replace("\r\n", "\n")
    return fragments(
        request, "piece/_text_conflict.html", slug=slug, now=now, lines=difference(now, new), new=new
    )


async def _trouble(desk: Desk, slug: str, words: str) -> Trouble | None:
    try:
        found = await desk.planner.ask(page_of, desk.asked(slug, text=words))
    except Cancelled:
        return None
    return found.view.trouble


def _typed(value: object) -> str:
    """A text as browsers send it, with plain line ends."""
    return value.replace("\r\n", "\n") if isinstance(value, str) else ""


async def back(request: Request) -> Response:
    """Forget what was typed and not kept."""
    desk, slug = desk_of(request), request.path_params["slug"]
    desk.ledger.drafts.clear(f"/piece/{slug}/text", "text")
    return RedirectResponse(f"/piece/{slug}/text", SEE_OTHER)


routes = [
    Route("/piece/{slug}/text", text),
    Route("/piece/{slug}/text", keep, methods=["POST"]),
    Route("/piece/{slug}/text/tried", tried, methods=["POST"]),
    Route("/piece/{slug}/text/back", back, methods=["POST"]),
]
