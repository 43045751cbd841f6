"""The page of a build: one step at a time, the whole list beside it, timers above."""

from __future__ import annotations

from collections.abc import Awaitable
from typing import TypeVar

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from scantling.desk.build import acts, printing, recording
from scantling.desk.build.board import board_of, shared, this_minute, ticks_of
from scantling.desk.build.standing import proposals
from scantling.desk.build.view import part_picture, step_picture
from scantling.desk.desk import desk_of
from scantling.desk.rendering import fragments, page
from scantling.errors import ReadError

T = TypeVar("T")
SPARE = (15, 30, 60, 120)  # minutes a maker may have
KEPT = {"cache-control": "private, max-age=86400"}  # a picture's address changes with the files


async def build(request: Request) -> Response:
    """The whole page."""
    desk, slug = desk_of(request), request.path_params["slug"]
    desk.piece(slug)
    try:
        board = await board_of(desk, slug, desk.asked(slug), _step(request), acts.board_in_hand(request))
    except ReadError as error:
        return page(request, "build/unplanned.html", trouble=error, **shared(desk, slug))
    return page(request, "build/page.html", board=board, spare=SPARE, said="", **shared(desk, slug))


async def now(request: Request) -> Response:
    """The build as it stands by now, for a page that heard of a change."""
    return await acts.stands(request, _step(request))


async def spare(request: Request) -> Response:
    """What to do in the minutes there are."""
    desk, slug = desk_of(request), request.path_params["slug"]
    minutes = _minutes(request.query_params.get("minutes", ""))
    found = await _drawn(
        desk.planner.ask(proposals, desk.asked(slug), ticks_of(desk, slug), this_minute(), minutes)
    )
    return fragments(request, "build/_spare.html", slug=slug, spare=SPARE, minutes=minutes, proposals=found)


async def picture(request: Request) -> Response:
    """The picture of one step."""
    desk, slug = desk_of(request), request.path_params["slug"]
    svg = await _drawn(desk.planner.ask(step_picture, desk.asked(slug), request.path_params["number"]))
    if not svg:
        raise HTTPException(404, "There is no step of that number.")
    return Response(svg, media_type="image/svg+xml", headers=KEPT)


async def picture_of_part(request: Request) -> Response:
    """The piece with one part in full colour."""
    desk, slug = desk_of(request), request.path_params["slug"]
    part = request.query_params.get("name", "")
    svg = await _drawn(desk.planner.ask(part_picture, desk.asked(slug), part))
    return Response(svg, media_type="image/svg+xml", headers=KEPT)


async def _drawn(answer: Awaitable[T]) -> T:
    """An answer of the worker, where there is a plan to answer from."""
    try:
        return await answer
    except ReadError as error:
        raise HTTPException(404, f"The plan can’t be worked out now: {error.message}.") from None


def _step(request: Request) -> int | None:
    said = request.query_params.get("step", "")
    return int(said) if said.isdecimal() and len(said) < 6 else None


def _minutes(said: str) -> int:
    return int(said) if said.isdecimal() and int(said) in SPARE else SPARE[1]


HERE = "/piece/{slug}/build"

routes = [
    Route(HERE, build),
    Route(f"{HERE}/now", now),
    Route(f"{HERE}/spare", spare),
    Route(HERE + "/picture/{number:int}", picture),
    Route(f"{HERE}/part-picture", picture_of_part),
    Route(f"{HERE}/tick", acts.tick, methods=["POST"]),
    Route(f"{HERE}/untick", acts.untick, methods=["POST"]),
    Route(f"{HERE}/still", acts.still, methods=["POST"]),
    Route(f"{HERE}/note", acts.note, methods=["POST"]),
    Route(f"{HERE}/timer", acts.start_timer, methods=["POST"]),
    Route(f"{HERE}/timer/end", acts.end_timer, methods=["POST"]),
    Route(f"{HERE}/timers", acts.timers),
    Route(f"{HERE}/parts", recording.parts),
    Route(f"{HERE}/boards", recording.boards),
    Route(f"{HERE}/part", recording.part),
    Route(f"{HERE}/try", recording.tried, methods=["POST"]),
    Route(f"{HERE}/keep", recording.keep, methods=["POST"]),
    Route(f"{HERE}/undo", recording.undo, methods=["POST"]),
    Route(f"{HERE}/redo", recording.redo, methods=["POST"]),
    Route(f"{HERE}/labels", printing.labels),
    Route(f"{HERE}/labels.pdf", printing.labels_file),
]
