"""The page to print and publish from: make, watch, stop, open, download."""

from __future__ import annotations

import asyncio
import re
from pathlib import Path
from typing import Any

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import FileResponse, Response
from starlette.routing import Route

from scantling.desk.desk import Desk, desk_of
from scantling.desk.publish.making import KINDS, Makings, files_made, packet_folder
from scantling.desk.rendering import page

PAPERS = ("letter", "a4")
UNITS = ("", "inches", "mm")
_OWN_STYLE = re.compile(rb"style-src &#x27;(sha256-[A-Za-z0-9+/=]{44})&#x27;")


def _makings(desk: Desk) -> Makings:
    return desk.kept(Makings)


def _context(desk: Desk, slug: str) -> dict[str, Any]:
    making = _makings(desk).by_slug.get(slug)
    return {
        "slug": slug,
        "piece": desk.piece(slug),
        "making": making,
        "files": files_made(desk, slug),
        "shared_as": f"packets/{slug}",
    }


async def publish(request: Request) -> Response:
    """The whole page."""
    slug = request.path_params["slug"]
    return page(request, "publish/page.html", **_context(desk_of(request), slug))


async def state(request: Request) -> Response:
    """How far it is, and what is there."""
    slug = request.path_params["slug"]
    return page(request, "publish/_state.html", **_context(desk_of(request), slug))


async def make(request: Request) -> Response:
    """Begin to make the packet."""
    desk, form, slug = desk_of(request), await request.form(), request.path_params["slug"]
    desk.piece(slug)
    paper, units = str(form.get("paper", "")), str(form.get("units", ""))
    if paper not in PAPERS or units not in UNITS:
        raise HTTPException(400, "Choose the paper and the units from the list.")
    _makings(desk).start(desk, slug, paper, units)
    return await state(request)


async def stop(request: Request) -> Response:
    """Stop making it."""
    desk, slug = desk_of(request), request.path_params["slug"]
    making = _makings(desk).by_slug.get(slug)
    if making is not None and not making.done:
        await asyncio.to_thread(making.cancel)
        if making.task is not None:
            await making.task
    return await state(request)


async def file(request: Request) -> Response:
    """One file of the packet, by a name that is in the list."""
    desk, slug, name = desk_of(request), request.path_params["slug"], request.path_params["name"]
    made = next((each for each in files_made(desk, slug) if each.name == name), None)
    if made is None:
        raise HTTPException(404, "This file is not in the packet; make the packet again.")
    path = packet_folder(desk, slug) / made.name
    inline = made.opens and "save" not in request.query_params
    return FileResponse(
        path,
        media_type=KINDS[path.suffix][1],
        filename=made.name,
        content_disposition_type="inline" if inline else "attachment",
        headers=_policy(path) if path.suffix == ".html" else None,
    )


def _policy(path: Path) -> dict[str, str]:
    """The page brings its own style, and is shown as a stranger to the desk, whoever put it there."""
    with path.open("rb") as page:
        found = _OWN_STYLE.search(page.read(4000))
    style = f"'{found[1].decode()}'" if found else "'none'"
    policy = f"sandbox; frame-ancestors 'none'; default-src 'none'; style-src {style}"
    return {"content-security-policy": f"{policy}; base-uri 'none'; form-action 'none'"}


routes = [
    Route("/piece/{slug}/publish", publish),
    Route("/piece/{slug}/publish/state", state),
    Route("/piece/{slug}/publish/make", make, methods=["POST"]),
    Route("/piece/{slug}/publish/stop", stop, methods=["POST"]),
    Route("/piece/{slug}/publish/{name}", file),
]
