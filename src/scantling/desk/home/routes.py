"""Home: the folder's pieces, newest first; begin another; put one away and take it out again."""

from __future__ import annotations

import json
from typing import Any
from urllib.parse import quote

from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from scantling.desk.desk import Desk, desk_of
from scantling.desk.home.cards import remembered, shown
from scantling.desk.keeping import PieceFile, begin_following, begin_like, remove, removed, restore
from scantling.desk.rendering import page
from scantling.errors import ScantlingError
from scantling.starting import example_names

SEE_OTHER = 303


async def home(request: Request) -> Response:
    """The list; each card is fetched by the page once it shows."""
    return _home(request, desk_of(request))


async def listed(request: Request) -> Response:
    """The list alone, with the pieces whose names hold the words looked for."""
    desk = desk_of(request)
    return page(request, "home/_list.html", **_list(request, desk))


async def card(request: Request) -> Response:
    """One piece's card, or why it cannot be planned."""
    desk = desk_of(request)
    found = await shown(desk, desk.piece(request.path_params["slug"]))
    return page(request, "home/_card.html", shown=found)


async def begin(request: Request) -> Response:
    """Begin a piece and go to its page; where that cannot be, the form again with the reason."""
    desk, form = desk_of(request), await request.form()
    try:
        piece = _begun(desk, form)
    except ScantlingError as error:
        if _is_htmx(request):
            return page(request, "home/_trouble.html", trouble=str(error))
        return _home(request, desk, trouble=str(error), name=str(form.get("name", "")), status=422)
    await desk.hub.tell("files")
    desk.ledger.drafts.clear("/", "name")
    there = f"/piece/{quote(piece.slug, safe='')}"
    if _is_htmx(request):
        taken = json.dumps({"desk:taken": {"fields": ["name"]}})
        return Response(headers={"HX-Redirect": there, "HX-Trigger": taken})
    return RedirectResponse(there, SEE_OTHER)


def _is_htmx(request: Request) -> bool:
    return request.headers.get("hx-request") == "true"


async def put_away(request: Request) -> Response:
    """Take a piece out of the folder."""
    desk = desk_of(request)
    remove(desk.keeper, request.path_params["slug"])
    await desk.hub.tell("files")
    return RedirectResponse("/", SEE_OTHER)


async def take_out(request: Request) -> Response:
    """Put a piece back that was taken out."""
    desk, form = desk_of(request), await request.form()
    try:
        restore(desk.keeper, str(form.get("name", "")))
    except ScantlingError as error:
        return _home(request, desk, trouble=str(error), status=422)
    await desk.hub.tell("files")
    return RedirectResponse("/", SEE_OTHER)


def _begun(desk: Desk, form: FormData) -> PieceFile:
    name, start = str(form.get("name", "")), str(form.get("start", ""))
    way, _, which = start.partition(":")
    if way == "follow":
        return begin_following(desk.keeper, name, which)
    return begin_like(desk.keeper, name, which)


def _home(request: Request, desk: Desk, trouble: str = "", name: str = "", status: int = 200) -> Response:
    return page(
        request,
        "home/page.html",
        status,
        **_list(request, desk),
        examples=example_names(),
        away=removed(desk.folder),
        notices=desk.keeper.notices,
        has_shop=desk.folder.shop_file() is not None,
        trouble=trouble,
        name=name,
        draft=desk.ledger.drafts.get("/", "name"),
    )


def _list(request: Request, desk: Desk) -> dict[str, Any]:
    wanted = " ".join(request.query_params.get("find", "").lower().split())
    pieces = desk.folder.pieces()
    found = [piece for piece in pieces if wanted in f"{piece.title} {piece.file}".lower()]
    known = {piece.slug: remembered(desk, piece) for piece in found}
    return {"pieces": found, "known": known, "find": wanted, "count": len(pieces)}


routes = [
    Route("/", home),
    Route("/pieces", listed),
    Route("/pieces", begin, methods=["POST"]),
    Route("/pieces/back", take_out, methods=["POST"]),
    Route("/pieces/{slug}/away", put_away, methods=["POST"]),
    Route("/card/{slug}", card),
]
