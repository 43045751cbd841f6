"""The text of the file: always one step away, with what is wrong shown at its character."""

from __future__ import annotations

import asyncio
import json
from functools import partial
from urllib.parse import quote

from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from scantling.desk.desk import Desk, desk_of
from scantling.desk.keeping import PieceFile
from scantling.desk.keeping.heads import Kind
from scantling.desk.piece.addresses import text_address
from scantling.desk.piece.view import trouble_of
from scantling.desk.rendering import fragments, page
from scantling.desk.working import Cancelled
from scantling.desk.working.asked import Trouble
from scantling.errors import Conflict, ReadError
from scantling.piece.editing.differing import difference

SEE_OTHER = 303


async def text(request: Request) -> Response:
    """The text, what was typed and not kept yet, and what is wrong with it."""
    desk, slug = desk_of(request), request.path_params["slug"]
    piece = desk.readable(slug)
    draft = desk.ledger.drafts.get(_page(slug), "text")
    try:
        now = desk.folder.text(piece.file).text
    except ReadError as error:
        return page(request, "piece/unreadable.html", slug=slug, piece=piece, why=str(error))
    return page(
        request,
        "piece/text.html",
        slug=slug if piece.kind is Kind.PIECE else "",
        own=slug,
        piece=piece,
        text=now,
        draft=draft,
        line=request.query_params.get("line", ""),
        text_at=partial(text_address, desk),
        trouble=await _trouble(desk, piece, now),
    )


async def tried(request: Request) -> Response:
    """What is wrong with the text as typed; nothing is written."""
    desk, slug, form = desk_of(request), request.path_params["slug"], await request.form()
    return fragments(
        request,
        "piece/_text_trouble.html",
        piece=desk.readable(slug),
        text_at=partial(text_address, desk),
        trouble=await _trouble(desk, desk.readable(slug), _typed(form.get("text"))),
    )


async def keep(request: Request) -> Response:
    """Write the text as typed, unless the file holds other words by now than the page was given."""
    desk, slug, form = desk_of(request), request.path_params["slug"], await request.form()
    piece = desk.readable(slug)
    was, new = _typed(form.get("was")), _typed(form.get("text"))
    newline = "\r\n" if "\r\n" in desk.folder.text(piece.file).text else "\n"
    pair = (was.replace("\n", newline), new.replace("\n", newline))
    try:
        await asyncio.to_thread(desk.keeper.write, slug, "the text changed by hand", {piece.file: pair})
    except Conflict as error:
        return _conflict(request, slug, new, error)
    desk.ledger.drafts.clear(_page(slug), "text")
    await desk.hub.tell(f"piece:{slug}", "files")
    response = fragments(
        request,
        "piece/_text_kept.html",
        "piece/_text_trouble.html",
        piece=piece,
        text=new,
        text_at=partial(text_address, desk),
        trouble=await _trouble(desk, piece, new),
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


async def _trouble(desk: Desk, piece: PieceFile, words: str) -> Trouble | None:
    asked = desk.asked_text(piece, words)
    try:
        return await desk.planner.ask(trouble_of, asked, piece.kind is Kind.STYLE)
    except Cancelled:
        return None


def _page(slug: str) -> str:
    """What drafts of this page are kept under."""
    return f"/piece/{slug}/text"


def _typed(value: object) -> str:
    """A text as browsers send it, with plain line ends."""
    return value.replace("\r\n", "\n") if isinstance(value, str) else ""


async def back(request: Request) -> Response:
    """Forget what was typed and not kept."""
    desk, slug = desk_of(request), request.path_params["slug"]
    desk.ledger.drafts.clear(_page(slug), "text")
    return RedirectResponse(f"/piece/{quote(slug, safe='')}/text", SEE_OTHER)


routes = [
    Route("/piece/{slug}/text", text),
    Route("/piece/{slug}/text", keep, methods=["POST"]),
    Route("/piece/{slug}/text/tried", tried, methods=["POST"]),
    Route("/piece/{slug}/text/back", back, methods=["POST"]),
]
