"""The page of the wood plan: look, wish, undo, compare."""

from __future__ import annotations

import asyncio
import json
from dataclasses import dataclass, field
from typing import Any

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from scantling.desk.desk import Desk, desk_of
from scantling.desk.fields import number_in
from scantling.desk.keeping import Overtaken
from scantling.desk.rendering import fragments, page
from scantling.desk.wood.view import WoodView, routes_view, wood_view
from scantling.desk.wood.wishes import Wish, wished
from scantling.desk.working import Asked
from scantling.errors import Conflict, ReadError

PATIENCE = 1.5  # seconds a page waits for its plan before it shows without one
LONGEST = 300  # characters of a name


@dataclass
class Since:
    """For each piece, what was asked last and what it changed from, so that a page tells the change again."""

    by_slug: dict[str, tuple[Asked, Asked]] = field(default_factory=dict)

    def close(self) -> None:
        """Nothing is open."""


async def wood(request: Request) -> Response:
    """The whole page."""
    desk, slug = desk_of(request), request.path_params["slug"]
    piece = desk.piece(slug)
    working = asyncio.ensure_future(_view(desk, slug))
    await asyncio.wait({working}, timeout=PATIENCE)
    if not working.done():
        return page(request, "wood/working.html", slug=slug, piece=piece)
    try:
        view = working.result()
    except ReadError as error:
        return page(request, "wood/unplanned.html", slug=slug, piece=piece, trouble=error)
    return page(request, "wood/page.html", **_context(desk, slug, view))


async def now(request: Request) -> Response:
    """The plan as it stands, for a page that heard of a change."""
    desk, slug = desk_of(request), request.path_params["slug"]
    if request.query_params.get("have") == desk.asked(slug).digest:
        return Response(status_code=204)
    return await _answer(request, desk, slug)


async def wish(request: Request) -> Response:
    """Write a wish into the build record, and show what it changes."""
    desk, slug, form = desk_of(request), request.path_params["slug"], await request.form()
    said = {name: str(form.get(name, ""))[:LONGEST] for name in ("act", "part", "board", "grain")}
    before = desk.asked(slug)
    try:
        piece = desk.piece(slug)
        write = wished(before.record, piece.title, before.record_file, Wish(**said))
        await desk.planner.ask(
            wood_view, desk.asked(slug, record=dict(write.files)[before.record_file]), before
        )
        texts = {file: (before.record, text) for file, text in write.files}
        await asyncio.to_thread(desk.keeper.write, slug, write.what, texts)
    except (ReadError, Conflict) as error:
        return fragments(request, "wood/_refused.html", slug=slug, why=str(error))
    return await _changed(request, desk, slug, before)


async def step(request: Request) -> Response:
    """Undo, or at the address that says so, redo."""
    desk, slug, form = desk_of(request), request.path_params["slug"], await request.form()
    before, number = desk.asked(slug), number_in(form, "number")
    go = desk.keeper.redo if request.url.path.endswith("/redo") else desk.keeper.undo
    try:
        await asyncio.to_thread(go, slug, number)
    except Overtaken:
        pass  # the answer shows what is next by now
    except Conflict as error:
        return fragments(request, "wood/_refused.html", slug=slug, why=str(error))
    return await _changed(request, desk, slug, before)


async def routes_compared(request: Request) -> Response:
    """The routes side by side."""
    desk, slug = desk_of(request), request.path_params["slug"]
    try:
        found = await desk.planner.ask(routes_view, desk.asked(slug))
    except ReadError as error:
        return page(request, "wood/_routes.html", slug=slug, routes=(), why=str(error))
    return page(request, "wood/_routes.html", slug=slug, routes=found, why="")


async def _changed(request: Request, desk: Desk, slug: str, before: Asked) -> Response:
    desk.kept(Since).by_slug[slug] = (desk.asked(slug), before)
    response = await _answer(request, desk, slug)
    response.headers["HX-Trigger"] = json.dumps({"desk:say": {"words": await _sentence(desk, slug)}})
    await desk.hub.tell(f"piece:{slug}", f"build:{slug}")
    return response


async def _sentence(desk: Desk, slug: str) -> str:
    """What changed, for the line that is in sight wherever one is on the page."""
    try:
        told = (await _view(desk, slug)).told
    except ReadError:
        return "The piece cannot be planned now."
    return f"Changed: {'; '.join(told)}." if told else ""


async def _answer(request: Request, desk: Desk, slug: str) -> Response:
    try:
        view = await _view(desk, slug)
    except ReadError as error:
        return fragments(request, "wood/_refused.html", slug=slug, why=str(error))
    return fragments(request, "wood/_plan.html", **_context(desk, slug, view))


async def _view(desk: Desk, slug: str) -> WoodView:
    asked = desk.asked(slug)
    last, before = desk.kept(Since).by_slug.get(slug, (None, None))
    return await desk.planner.ask(wood_view, asked, before if last == asked else None)


def _context(desk: Desk, slug: str, view: WoodView) -> dict[str, Any]:
    return {
        "slug": slug,
        "piece": desk.piece(slug),
        "view": view,
        "digest": desk.asked(slug).digest,
        "history": desk.keeper.offered(slug),
        "has_shop": desk.folder.shop_file() is not None,
    }


HERE = "/piece/{slug}/wood"
routes = [
    Route(HERE, wood),
    Route(f"{HERE}/now", now),
    Route(f"{HERE}/wish", wish, methods=["POST"]),
    Route(f"{HERE}/undo", step, methods=["POST"]),
    Route(f"{HERE}/redo", step, methods=["POST"]),
    Route(f"{HERE}/routes", routes_compared),
]
