"""The page of a piece: look, change, undo, read the text."""

from __future__ import annotations

import asyncio
import struct
from contextlib import suppress
from typing import Protocol

from starlette.background import BackgroundTask
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from scantling.desk.desk import Desk, desk_of
from scantling.desk.fields import number_in
from scantling.desk.keeping import Overtaken
from scantling.desk.piece.acts import Act, Add
from scantling.desk.piece.answering import (
    OVERTAKEN,
    Shown,
    answer,
    context,
    is_stopped,
    old_page,
    page_now,
    page_soon,
)
from scantling.desk.piece.asking import amiss, conflict, question, refused, shown_first, step_conflict
from scantling.desk.piece.forms import act_of
from scantling.desk.piece.parts import routes as parts
from scantling.desk.piece.text import routes as text
from scantling.desk.piece.view import drawing
from scantling.desk.piece.writing import ShowFirst, carried_out
from scantling.desk.rendering import page
from scantling.desk.working import Cancelled
from scantling.errors import Conflict, ReadError
from scantling.ledger import Change
from scantling.piece.editing.writes import Ask, Refused


class Step(Protocol):
    """Undo or redo."""

    def __call__(self, scope: str, number: int | None, *, anyway: bool) -> Change | None: ...


SHOWN_WITHIN = 0.2  # seconds an answer takes to be on the page


async def piece(request: Request) -> Response:
    """The whole page; while it is worked out, the one that was, or the name with what can be done."""
    desk, slug = desk_of(request), request.path_params["slug"]
    desk.piece(slug)
    stopped, shown = is_stopped(desk, slug), None
    if not stopped:
        try:
            shown = await page_soon(desk, slug)
        except Cancelled:
            stopped = is_stopped(desk, slug)
    waits = "" if shown else "stopped" if stopped else "working"
    told = context(desk, slug, shown or await old_page(desk, slug))
    return page(request, "piece/page.html", **told, waits=waits, stopped=stopped)


async def answers(request: Request) -> Response:
    """The panels, unless the page has them already. `go`: work out what was stopped."""
    desk, slug = desk_of(request), request.path_params["slug"]
    shown = desk.kept(Shown)
    if "go" in request.query_params:
        shown.stopped.pop(slug, None)
    elif request.query_params.get("have") == desk.asked(slug).digest:
        return Response(status_code=204, background=BackgroundTask(_warm, desk, slug))
    return await answer(request, desk, slug)


async def _warm(desk: Desk, slug: str) -> None:
    """After a new start of the desk: have the plan of an open page ready for its first change.

    If something more urgent stops it, nobody is waiting to be told.
    """
    if slug not in desk.kept(Shown).last and not is_stopped(desk, slug):
        with suppress(Cancelled):
            await page_soon(desk, slug)


async def act(request: Request) -> Response:
    """Do what a form of the page asks for."""
    desk, slug, form = desk_of(request), request.path_params["slug"], await request.form()
    field, wanted = str(form.get("field", "")), act_of(form)
    desk.planner.hurry(OVERTAKEN)
    try:
        result = await carried_out(desk, slug, wanted, kept=form.get("keep") == "yes")
    except ReadError as error:
        return amiss(request, slug, field, error)
    except Conflict as error:
        if error.now != error.wanted:
            return conflict(request, slug, form, error)
        result = None  # sent twice: it stands there already
    except Cancelled:
        return await answer(request, desk, slug)
    if isinstance(result, Ask):
        return question(request, slug, form, result)
    if isinstance(result, Refused):
        return refused(request, slug, field, result)
    if isinstance(result, ShowFirst):
        return await shown_first(request, desk, slug, form, result)
    return await _written(request, desk, slug, wanted, field)


async def _written(request: Request, desk: Desk, slug: str, done: Act, field: str) -> Response:
    desk.ledger.drafts.clear(f"/piece/{slug}", field)
    taken = (field, *_fields_of(done))
    response = await answer(request, desk, slug, taken, added=done.name if isinstance(done, Add) else "")
    response.background = BackgroundTask(_tell, desk, slug)
    return response


def _fields_of(done: Act) -> tuple[str, ...]:
    """The fields of a form for something new, which is sent as a whole."""
    return tuple(f"add {key}" for key in ("name", *dict(done.said))) if isinstance(done, Add) else ()


async def _tell(desk: Desk, slug: str) -> None:
    await asyncio.sleep(SHOWN_WITHIN)  # the page that asked has its answer, and need not ask again
    await desk.hub.tell(f"piece:{slug}", "files")


async def undo(request: Request) -> Response:
    """Take the last change back."""
    return await _step(request, desk_of(request).keeper.undo)


async def redo(request: Request) -> Response:
    """Do again what was taken back."""
    return await _step(request, desk_of(request).keeper.redo)


async def _step(request: Request, step: Step) -> Response:
    desk, slug, form = desk_of(request), request.path_params["slug"], await request.form()
    number = number_in(form, "number")
    desk.planner.hurry(OVERTAKEN)
    try:
        async with desk.kept(Shown).turns[slug]:
            await asyncio.to_thread(step, slug, number, anyway="anyway" in form)
    except Overtaken:
        pass  # the answer shows what is next by now
    except Conflict as error:
        return step_conflict(request, slug, number, error, address=str(request.url.path))
    return await _after_step(request, desk, slug)


async def pass_over(request: Request) -> Response:
    """Leave the files as they are, and forget the step that could not be taken."""
    desk, slug, form = desk_of(request), request.path_params["slug"], await request.form()
    number = number_in(form, "number")
    if number is not None:
        await asyncio.to_thread(desk.keeper.pass_over, slug, number)
    return await _after_step(request, desk, slug)


async def _after_step(request: Request, desk: Desk, slug: str) -> Response:
    response = await answer(request, desk, slug)
    response.background = BackgroundTask(_tell, desk, slug)
    return response


async def stop(request: Request) -> Response:
    """Stop planning; the last good answer stays."""
    desk, slug = desk_of(request), request.path_params["slug"]
    desk.kept(Shown).stopped[slug] = desk.asked(slug)
    desk.planner.cancel()
    return await answer(request, desk, slug)


async def picture(request: Request) -> Response:
    """What the viewer takes: four bytes of length, the description, then the shapes if they are others."""
    desk, slug = desk_of(request), request.path_params["slug"]
    _, known = desk.kept(Shown).last.get(slug, (None, None))
    shown = (known or await page_now(desk, slug)).shapes
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
    try:
        svg = await desk.planner.ask(drawing, desk.asked(slug), request.query_params.get("pose") or "at rest")
    except (ReadError, Cancelled):
        return Response(status_code=204)
    return Response(svg, media_type="image/svg+xml")


routes = [
    Route("/piece/{slug}", piece),
    Route("/piece/{slug}/answers", answers),
    Route("/piece/{slug}/act", act, methods=["POST"]),
    Route("/piece/{slug}/undo", undo, methods=["POST"]),
    Route("/piece/{slug}/redo", redo, methods=["POST"]),
    Route("/piece/{slug}/passed", pass_over, methods=["POST"]),
    Route("/piece/{slug}/stop", stop, methods=["POST"]),
    Route("/piece/{slug}/picture", picture),
    Route("/piece/{slug}/flat.svg", flat),
    *parts,
    *text,
]
