"""The page of a piece: look, change, undo, read the text."""

from __future__ import annotations

import asyncio
import struct

from starlette.background import BackgroundTask
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from scantling.desk.desk import Desk, desk_of
from scantling.desk.keeping import Overtaken
from scantling.desk.piece.answering import Shown, answer, context, page_now
from scantling.desk.piece.asking import amiss, conflict, question, refused, shown_first
from scantling.desk.piece.forms import act_of
from scantling.desk.piece.parts import routes as parts
from scantling.desk.piece.text import routes as text
from scantling.desk.piece.view import drawing
from scantling.desk.piece.writing import ShowFirst, Written, carried_out
from scantling.desk.rendering import page
from scantling.desk.working import Cancelled
from scantling.errors import Conflict, ReadError
from scantling.piece.editing.writes import Ask, Refused

SEE_OTHER = 303


async def piece(request: Request) -> Response:
    """The whole page."""
    desk, slug = desk_of(request), request.path_params["slug"]
    desk.piece(slug)
    shown = await page_now(desk, slug)
    return page(request, "piece/page.html", **context(desk, slug, shown))


async def answers(request: Request) -> Response:
    """The panels, unless the page has them already."""
    desk, slug = desk_of(request), request.path_params["slug"]
    if request.query_params.get("have") == desk.asked(slug).digest:
        return Response(status_code=204)
    return await answer(request, desk, slug)


async def act(request: Request) -> Response:
    """Do what a form of the page asks for."""
    desk, slug, form = desk_of(request), request.path_params["slug"], await request.form()
    field = str(form.get("field", ""))
    try:
        result = await carried_out(desk, slug, act_of(form), kept=form.get("keep") == "yes")
    except ReadError as error:
        return amiss(request, slug, field, error)
    except Conflict as error:
        return conflict(request, slug, form, error)
    except Cancelled:
        return await answer(request, desk, slug)
    if isinstance(result, Ask):
        return question(request, slug, form, result)
    if isinstance(result, Refused):
        return refused(request, slug, field, result)
    if isinstance(result, ShowFirst):
        return await shown_first(request, desk, slug, form, result)
    return await _written(request, desk, slug, result, field)


async def _written(request: Request, desk: Desk, slug: str, result: Written, field: str) -> Response:
    response = await answer(request, desk, slug, result.before, (field,))
    response.background = BackgroundTask(_tell, desk, slug)
    return response


async def _tell(desk: Desk, slug: str) -> None:
    await desk.hub.tell(f"piece:{slug}", "files")


async def undo(request: Request) -> Response:
    """Take the last change back."""
    return await _step(request, desk_of(request).keeper.undo)


async def redo(request: Request) -> Response:
    """Do again what was taken back."""
    return await _step(request, desk_of(request).keeper.redo)


async def _step(request: Request, step: object) -> Response:
    desk, slug, form = desk_of(request), request.path_params["slug"], await request.form()
    before = desk.asked(slug)
    number = str(form.get("number", ""))
    assert callable(step)
    try:
        await asyncio.to_thread(
            step, slug, int(number) if number.isdigit() else None, anyway="anyway" in form
        )
    except Overtaken:
        pass  # the answer shows what is next by now
    except Conflict as error:
        return conflict(request, slug, form, error, address=str(request.url.path))
    response = await answer(request, desk, slug, before)
    response.background = BackgroundTask(_tell, desk, slug)
    return response


async def stop(request: Request) -> Response:
    """Stop planning; the last good answer stays."""
    desk, slug = desk_of(request), request.path_params["slug"]
    desk.planner.cancel()
    return RedirectResponse(f"/piece/{slug}", SEE_OTHER)


async def picture(request: Request) -> Response:
    """What the viewer takes: four bytes of length, the description, then the shapes if they are others."""
    desk, slug = desk_of(request), request.path_params["slug"]
    shown = (await page_now(desk, slug)).shapes
    if shown is None:
        return Response(status_code=204)
    described = shown.description.encode()
    shapes = b"" if request.query_params.get("have") == shown.digest else shown.glb
    return Response(
        struct.pack("<I", len(described)) + described + shapes, media_type="application/octet-stream"
    )


async def flat(request: Request) -> Response:
    """The drawing that stands in where there is no 3D."""
    desk, slug = desk_of(request), request.path_params["slug"]
    asked = desk.kept(Shown).good.get(slug) or desk.asked(slug)
    svg = await desk.planner.ask(drawing, asked, request.query_params.get("pose") or "at rest")
    return Response(svg, media_type="image/svg+xml")


routes = [
    Route("/piece/{slug}", piece),
    Route("/piece/{slug}/answers", answers),
    Route("/piece/{slug}/act", act, methods=["POST"]),
    Route("/piece/{slug}/undo", undo, methods=["POST"]),
    Route("/piece/{slug}/redo", undo, methods=["POST"]),
    Route("/piece/{slug}/stop", stop, methods=["POST"]),
    Route("/piece/{slug}/picture", picture),
    Route("/piece/{slug}/flat.svg", flat),
    *parts,
    *text,
]
