"""The picked part, and what can be added: panels of the page fetched by themselves."""

from __future__ import annotations

import asyncio

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from scantling.desk.desk import Desk, desk_of
from scantling.desk.piece.answering import Shown
from scantling.desk.piece.part_view import offers_of, part_view, reworded, suggested
from scantling.desk.rendering import page
from scantling.desk.working import Cancelled
from scantling.errors import ReadError

KINDS = {
    "part": "a part",
    "kit": "a kit into a space",
    "joint": "a joint",
    "hardware": "hardware",
    "work": "edge work or a detail",
    "hold": "a thing it must hold",
    "load": "a load",
    "size": "a named size",
    "material": "a material",
}


async def part(request: Request) -> Response:
    """What is written of the picked part."""
    desk, slug, name = desk_of(request), request.path_params["slug"], request.query_params.get("name", "")
    try:
        view = await desk.planner.ask(part_view, desk.asked(slug), name)
    except ReadError as error:
        return await _as_written(request, desk, slug, name, error)
    except Cancelled:
        return Response(status_code=204)
    desk.kept(Shown).picked[slug] = view
    drafts = desk.ledger.drafts.all(f"/piece/{slug}")
    return page(request, "piece/_part.html", slug=slug, part=view, why="", drafts=drafts)


async def _as_written(request: Request, desk: Desk, slug: str, name: str, error: ReadError) -> Response:
    """The part as it was last, with its words as they stand now: to be mended where they were said."""
    last = desk.kept(Shown).picked.get(slug)
    view = None
    if last is not None and last.name == name and error.place:  # a part that is gone has none
        view = await asyncio.to_thread(reworded, last, desk.asked(slug))
    why = ": ".join([*error.chain, error.message]) + (f" ({error.remedy})" if error.remedy else "")
    drafts = desk.ledger.drafts.all(f"/piece/{slug}")
    return page(request, "piece/_part.html", slug=slug, part=view, why=why, drafts=drafts)


async def adding(request: Request) -> Response:
    """The form for one kind of thing, filled with words that work."""
    desk, slug, query = desk_of(request), request.path_params["slug"], request.query_params
    what = query.get("what", "part") if query.get("what") in KINDS else "part"
    try:
        asked = desk.asked(slug)
        offers = await desk.planner.ask(offers_of, asked)
        kind, on = query.get("kind", ""), query.get("on", "")
        said = await desk.planner.ask(
            suggested, asked, what, kind or _first(what, offers), on or _where(what, offers)
        )
    except ReadError as error:
        return page(
            request, "piece/_add.html", slug=slug, kinds=KINDS, what=what, why=str(error), offers=None
        )
    return page(
        request,
        "piece/_add.html",
        slug=slug,
        drafts=desk.ledger.drafts.all(f"/piece/{slug}"),
        kinds=KINDS,
        what=what,
        why="",
        offers=offers,
        said=dict(said),
        kind=kind or _first(what, offers),
        on=on or _where(what, offers),
    )


def _first(what: str, offers: object) -> str:
    """The kind that is offered first where the maker has not chosen yet."""
    lists = {"kit": "kits", "work": "edge_work", "load": "loads", "hardware": "hardware"}
    found: tuple[str, ...] = getattr(offers, lists[what]) if what in lists else ()
    return found[1 if what == "load" and len(found) > 1 else 0] if found else ""


def _where(what: str, offers: object) -> str:
    """The space or the part that is offered first."""
    lists = {"kit": "spaces", "hold": "parts", "load": "parts", "work": "parts"}
    found: tuple[str, ...] = getattr(offers, lists[what]) if what in lists else ()
    return found[0] if found else ""


routes = [Route("/piece/{slug}/part", part), Route("/piece/{slug}/add", adding)]
