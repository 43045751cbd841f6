"""The head of the shop file, the file as text, and the steps back and forward."""

from __future__ import annotations

import asyncio
from typing import Any
from urllib.parse import urlsplit

from starlette.requests import Request
from starlette.responses import PlainTextResponse, RedirectResponse, Response
from starlette.routing import Route

from scantling.desk.desk import desk_of
from scantling.desk.fields import number_in
from scantling.desk.keeping import SHOP_FILE
from scantling.desk.rack.shelf import SCOPE, Refused, Shelf, bar_of, refusal, shelf_of, shop_text, written
from scantling.desk.rack.showing import navigation, nothing_written, shown, taken, with_shelf
from scantling.desk.rendering import fragments, page
from scantling.errors import Conflict, ReadError, ScantlingError
from scantling.ledger import digest_of
from scantling.shop import read_shop_text
from scantling.shop.editing import air_of, head_of, set_air, set_head

SEE_OTHER = 303
LINES = {
    "shop": ("Name of the shop", "such as A shed with a small planer"),
    "hours a week": ("Hours a week", "time you spend in the shop; weeks follow from it"),
    "fraction": ("Finest fraction of an inch shown", "1/16, 1/32 or 1/64"),
    "currency": ("Sign of your money", "such as $ or €"),
    "hour rate": ("What an hour is worth", "0 if you do not count it"),
    "likes": ("Ways to join, best liked first", "such as dowels, tenon; with commas between"),
    "note": ("Note", "anything"),
}
AIR = {
    "dry": ("Driest air", "such as 38 %"),
    "damp": ("Dampest air", "such as 45 %"),
    "at": ("How warm", "such as 66 F or 19 C"),
}


@with_shelf
async def head(request: Request, shelf: Shelf) -> Response:
    """The lines at the top of the file."""
    return shown(request, shelf, "rack/head.html", at="head", **_head(shelf))


@with_shelf
async def set_line(request: Request, shelf: Shelf) -> Response:
    """Say one line of the head anew."""
    form = await request.form()
    key, words, was = (str(form.get(name, "")) for name in ("key", "words", "was"))
    if key not in LINES:
        return nothing_written(request, Refused("there is no such line"))
    try:
        await written(shelf.desk, f"{key} {words}", lambda text: set_head(text, key, words, was))
    except (ReadError, Conflict) as error:
        return _answer(request, shelf, {key: (words, refusal(error))}, 422)
    answer = _answer(request, shelf_of(shelf.desk))
    answer.headers["HX-Trigger"] = taken(shelf.desk, "/rack/head", [key])
    return answer


@with_shelf
async def set_all_air(request: Request, shelf: Shelf) -> Response:
    """Say the air of the shop anew."""
    form = await request.form()
    air = {key: str(form.get(key, "")) for key in AIR}
    was = {key: str(form.get(f"was {key}", "")) for key in AIR}
    try:
        await written(shelf.desk, "air of the shop", lambda text: set_air(text, air, was))
    except (ReadError, Conflict) as error:
        told = refusal(error)
        return _answer(request, shelf, {"air": ("", told)}, 422, air)
    return _answer(request, shelf_of(shelf.desk))


async def as_text(request: Request) -> Response:
    """The whole file as text."""
    desk = desk_of(request)
    try:
        text = shop_text(desk)
    except ReadError as error:
        return shown(request, None, "rack/none.html", 422, trouble=str(error))
    if text is None:
        return shown(request, None, "rack/none.html", trouble="")
    try:
        read_shop_text(text, SHOP_FILE)
    except ReadError as error:
        return _text(request, text, error)
    return _text(request, text)


async def set_text(request: Request) -> Response:
    """Write the whole file, if it reads and nothing changed it meanwhile."""
    desk, form = desk_of(request), await request.form()
    was = str(form.get("digest", ""))
    now = desk.folder.text(SHOP_FILE)
    typed = now.in_its_lines(str(form.get("text", "")))
    try:
        read_shop_text(typed, SHOP_FILE)
        if now.digest != was:
            raise ReadError(
                "the file was changed elsewhere since this page was shown",
                None,
                "copy your text, then load the page again",
            )
        texts = {SHOP_FILE: (now.text, typed)}
        await asyncio.to_thread(desk.keeper.write, SCOPE, "the file as text", texts)
    except (ReadError, Conflict) as error:
        told = error if isinstance(error, ReadError) else ReadError(str(error))
        return _text(request, now.text, told, typed, 422)
    await desk.hub.tell(SCOPE, "files")
    taken(desk, "/rack/text", ("text",))
    return RedirectResponse("/rack/text", SEE_OTHER)


async def step(request: Request) -> Response:
    """One step back or forward, then the page again."""
    desk, form = desk_of(request), await request.form()
    back = _here(request.headers.get("referer", ""))
    number = number_in(form, "number") or 0
    move = desk.keeper.undo if request.url.path.endswith("undo") else desk.keeper.redo
    try:
        await asyncio.to_thread(move, SCOPE, number)
    except ScantlingError as error:
        trouble = refusal(error) if isinstance(error, Conflict | ReadError) else Refused(str(error))
        return shown(request, None, "rack/not_taken.html", 409, refused=trouble, back=back)
    await desk.hub.tell(SCOPE, "files")
    return RedirectResponse(back, SEE_OTHER)


async def stamp(request: Request) -> Response:
    """A word for the text of the shop file, by which an open page sees whether it is old."""
    return PlainTextResponse(digest_of(shop_text(desk_of(request)) or ""))


def _here(referer: str) -> str:
    """The page of the rack a step was taken from, never one elsewhere."""
    try:
        found = urlsplit(referer)
    except ValueError:
        return "/rack"
    back = found.path + (f"?{found.query}" if found.query else "")
    return back if found.path == "/rack" or found.path.startswith("/rack/") else "/rack"


def _text(
    request: Request, text: str, error: ReadError | None = None, typed: str | None = None, status: int = 200
) -> Response:
    bar = bar_of(desk_of(request))
    more = {"nav": navigation(), "at": "text", "bar": bar, "text": text, "error": error, "typed": typed}
    return page(request, "rack/text.html", status, **more)


def _answer(
    request: Request,
    shelf: Shelf,
    told: dict[str, tuple[str, Refused]] | None = None,
    status: int = 200,
    air: dict[str, str] | None = None,
) -> Response:
    parts = ("rack/_head.html", "rack/_bar.html", "rack/_quiet.html")
    return fragments(request, *parts, status=status, **_head(shelf, told, air), bar=shelf.bar)


def _head(
    shelf: Shelf, told: dict[str, tuple[str, Refused]] | None = None, air: dict[str, str] | None = None
) -> dict[str, Any]:
    now, said = head_of(shelf.text), told or {}
    lines = [
        (
            key,
            name,
            hint,
            said[key][0] if key in said else now[key],
            now[key],
            said[key][1] if key in said else None,
        )
        for key, (name, hint) in LINES.items()
    ]
    was = air_of(shelf.text)
    return {
        "lines": lines,
        "air": [(key, name, hint, (air or was)[key], was[key]) for key, (name, hint) in AIR.items()],
        "air_trouble": said["air"][1] if "air" in said else None,
        "unit": shelf.shop.unit.value,
    }


routes = [
    Route("/rack/head", head),
    Route("/rack/head", set_line, methods=["POST"]),
    Route("/rack/air", set_all_air, methods=["POST"]),
    Route("/rack/text", as_text),
    Route("/rack/text", set_text, methods=["POST"]),
    Route("/rack/undo", step, methods=["POST"]),
    Route("/rack/redo", step, methods=["POST"]),
    Route("/rack/stamp", stamp),
]
