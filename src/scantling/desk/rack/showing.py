"""Pages of the rack: each stands on the shop file as read, or says what is amiss with it."""

from __future__ import annotations

import json
from collections.abc import Awaitable, Callable, Iterable
from functools import wraps
from typing import Any

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

from scantling.desk.desk import Desk, desk_of
from scantling.desk.rack.shelf import Refused, Shelf, bar_of, refusal, shelf_of, shop_text
from scantling.desk.rendering import fragments, page
from scantling.errors import Conflict, ReadError
from scantling.shop.editing import columns_of

SECTIONS = ("sheets", "lumber", "for sale", "machines", "clamps", "hardware", "supplies")
HEADS = {
    "boards": "Boards",
    "sheets": "Sheets",
    "lumber": "Lumber",
    "for sale": "Timber for sale",
    "machines": "Machines",
    "clamps": "Clamps",
    "hardware": "Hardware",
    "supplies": "Supplies",
    "head": "The shop",
    "text": "The file",
}
OnShelf = Callable[[Request, Shelf], Awaitable[Response]]


def address_of(section: str) -> str:
    """Where a section of the rack is shown."""
    if section in ("boards", "head", "text"):
        return {"boards": "/rack", "head": "/rack/head", "text": "/rack/text"}[section]
    return f"/rack/table/{section.replace(' ', '-')}"


def with_shelf(answer: OnShelf) -> Callable[[Request], Awaitable[Response]]:
    """A route that is given the shop file; where there is none, or it cannot be read, a page that says so."""

    @wraps(answer)
    async def route(request: Request) -> Response:
        desk = desk_of(request)
        try:
            if shop_text(desk) is None and not _inside(request):
                return shown(request, None, "rack/none.html", trouble="")
            shelf = shelf_of(desk)
        except ReadError as error:
            if _inside(request):
                return nothing_written(request, Refused(f"the shop file cannot be read now: {error}"))
            return broken(request, desk, error)
        return await answer(request, shelf)

    return route


def nothing_written(request: Request, why: Refused | ReadError | Conflict) -> Response:
    """Why, told on the page that is open."""
    told = why if isinstance(why, Refused) else refusal(why)
    return fragments(request, "rack/_refused.html", status=422, refused=told)


def _inside(request: Request) -> bool:
    """Whether a page that is open already asks for a part of itself."""
    return request.headers.get("hx-request") == "true"


def broken(request: Request, desk: Desk, error: ReadError) -> Response:
    """The file as text, with what cannot be read in it."""
    return page(
        request,
        "rack/text.html",
        422,
        nav=navigation(),
        at="text",
        bar=bar_of(desk),
        text=shop_text(desk) or "",
        error=error,
        typed=None,
    )


def shown(request: Request, shelf: Shelf | None, template: str, status: int = 200, **more: Any) -> Response:
    """A page of the rack, with its bar where there is a shop file."""
    bar = shelf.bar if shelf else None
    return page(request, template, status, nav=navigation(), bar=bar, **more)


def navigation() -> list[tuple[str, str, str]]:
    """Section, head and address of each page of the rack."""
    return [(section, head, address_of(section)) for section, head in HEADS.items()]


def check_column(section: str, key: str) -> None:
    """Answer with trouble for a column the table has not."""
    if key not in {column.key for column in columns_of(section)}:
        raise HTTPException(400)


def taken(desk: Desk, path: str, fields: Iterable[str], said: str = "") -> str:
    """Forget what was typed in fields that the file now holds; the header that tells the page so.

    `said` goes to the status line.
    """
    names = list(fields)
    for name in names:
        desk.ledger.drafts.clear(path, name)
    spoken = {"desk:say": {"words": said}} if said else {}
    return json.dumps({"desk:taken": {"fields": names}} | spoken)
