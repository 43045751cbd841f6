"""Parts as they are made: measured, spoiled, boards cut. What it changes is shown first, then kept."""

from __future__ import annotations

import asyncio
import json
from dataclasses import replace

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

from scantling.desk.build.board import shared, this_minute, ticks_of
from scantling.desk.build.boards_view import boards_view
from scantling.desk.build.difference import difference
from scantling.desk.build.noting import Edit, Wish, edit_of
from scantling.desk.build.parts_view import part_view, parts_view
from scantling.desk.build.standing import standing_view
from scantling.desk.desk import Desk, desk_of
from scantling.desk.fields import number_in
from scantling.desk.rendering import fragments, page
from scantling.desk.working import Asked
from scantling.errors import ReadError, ScantlingError


async def parts(request: Request) -> Response:
    """All parts, to choose the one that is to be noted."""
    desk, slug = _desk(request)
    try:
        lines = await desk.planner.ask(parts_view, desk.asked(slug))
    except ReadError as error:
        return page(request, "build/unplanned.html", trouble=error, **shared(desk, slug))
    return page(
        request, "build/parts.html", lines=lines, history=desk.keeper.offered(slug), **shared(desk, slug)
    )


async def part(request: Request) -> Response:
    """One part: its sizes, and what may be noted of it."""
    desk, slug = _desk(request)
    asked, name = desk.asked(slug), request.query_params.get("name", "")
    try:
        shown = await desk.planner.ask(part_view, asked, name)
    except ReadError as error:
        return page(request, "build/unplanned.html", trouble=error, **shared(desk, slug))
    if shown is None:
        raise HTTPException(404, "The piece has no part of that name.")
    return page(
        request,
        "build/part.html",
        part=shown,
        stamp=asked.stamp[:12],
        drafts=desk.ledger.drafts.all(f"/piece/{slug}/build/part"),
        history=desk.keeper.offered(slug),
        **shared(desk, slug),
    )


async def boards(request: Request) -> Response:
    """Boards that may be noted as cut; those whose cuts are all ticked stand chosen."""
    desk, slug = _desk(request)
    asked = desk.asked(slug)
    try:
        lines = await desk.planner.ask(boards_view, asked)
        standing = await desk.planner.ask(standing_view, asked, ticks_of(desk, slug), (), this_minute())
    except ReadError as error:
        return page(request, "build/unplanned.html", trouble=error, **shared(desk, slug))
    history = desk.keeper.offered(slug)
    return page(
        request,
        "build/boards.html",
        boards=lines,
        ticked=standing.sawn,
        history=history,
        **shared(desk, slug),
    )


async def tried(request: Request) -> Response:
    """What a note would change. Nothing is kept yet."""
    desk, slug = _desk(request)
    asked, wish = desk.asked(slug), Wish.of(await request.form())
    try:
        edit = await desk.planner.ask(edit_of, asked, wish)
        return await _shown(request, desk, asked, wish, edit)
    except ReadError as error:
        return fragments(request, "build/_refused.html", trouble=error)


async def keep(request: Request) -> Response:
    """Keep a note that was tried, if the record is still the one it was tried on."""
    desk, slug = _desk(request)
    asked, form = desk.asked(slug), await request.form()
    wish = Wish.of(form)
    try:
        edit = await desk.planner.ask(edit_of, asked, wish)
        if form.get("was") != edit.was:
            return await _shown(request, desk, asked, wish, edit, late=True)
        texts = {asked.record_file: (edit.before, edit.after)}
        await asyncio.to_thread(desk.keeper.write, slug, edit.what, texts)
    except ScantlingError as error:
        return fragments(request, "build/_refused.html", trouble=error)
    if wish.act == "measured":
        field = f"size {wish.part}"
        await asyncio.to_thread(desk.ledger.drafts.clear, f"/piece/{slug}/build/part", field)
    await _told(desk, slug)
    history = desk.keeper.offered(slug)
    answer = fragments(request, "build/_kept.html", slug=slug, edit=edit, act=wish.act, history=history)
    if wish.act == "measured":
        answer.headers["HX-Trigger"] = json.dumps({"desk:taken": {"fields": [f"size {wish.part}"]}})
    return answer


async def _shown(
    request: Request, desk: Desk, asked: Asked, wish: Wish, edit: Edit, *, late: bool = False
) -> Response:
    """The difference an edit makes, with the button that keeps it."""
    slug = request.path_params["slug"]
    changes = await desk.planner.ask(difference, asked, replace(asked, record=edit.after))
    sawn = () if wish.act == "cut" else await _begun(desk, slug, asked)
    context = {"slug": slug, "wish": wish, "edit": edit, "late": late, "sawn": sawn}
    return fragments(request, "build/_tried.html", difference=changes, **context)


async def _begun(desk: Desk, slug: str, asked: Asked) -> tuple[str, ...]:
    """Boards that are ticked as sawn and not noted as cut: the plan may still choose others for them."""
    standing = await desk.planner.ask(standing_view, asked, ticks_of(desk, slug), (), this_minute())
    return standing.begun


async def undo(request: Request) -> Response:
    """Take the newest change of the piece's files back."""
    return await _step(request, back=True)


async def redo(request: Request) -> Response:
    """Do again what was taken back."""
    return await _step(request, back=False)


async def _step(request: Request, *, back: bool) -> Response:
    desk, slug = _desk(request)
    form = await request.form()
    number = number_in(form, "number")
    try:
        change = await asyncio.to_thread(desk.keeper.undo if back else desk.keeper.redo, slug, number)
    except ScantlingError as error:
        return fragments(request, "build/_refused.html", trouble=error)
    await _told(desk, slug)
    history = desk.keeper.offered(slug)
    return fragments(request, "build/_stepped.html", slug=slug, change=change, is_back=back, history=history)


async def _told(desk: Desk, slug: str) -> None:
    await desk.hub.tell(f"piece:{slug}", f"build:{slug}")


def _desk(request: Request) -> tuple[Desk, str]:
    desk, slug = desk_of(request), request.path_params["slug"]
    desk.piece(slug)
    return desk, slug
