"""What a maker does at a step: tick it off, note something, start and end timers."""

from __future__ import annotations

import asyncio
import json
from typing import Any
from urllib.parse import parse_qsl, urlsplit

from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import Response

from scantling.desk.build.board import board_of, shared
from scantling.desk.build.clock import minutes_said
from scantling.desk.build.view import build_view
from scantling.desk.desk import Desk, desk_of
from scantling.desk.rendering import fragments
from scantling.errors import ReadError, ScantlingError
from scantling.ledger import Builds

LONGEST_LABEL = 300
CHANGED = "The plan has changed since this page was shown. Look again, then tick."
NO_TIME = "Say how long, as in `45 min`, `2 h` or `1 h 30 min`."


async def stands(
    request: Request, step: int | None, said: str = "", told: dict[str, Any] | None = None
) -> Response:
    """The build and its timers as they stand now; `said` goes to the status line, `told` are page events."""
    desk, slug = desk_of(request), request.path_params["slug"]
    context = shared(desk, slug)
    try:
        board = await board_of(desk, slug, desk.asked(slug), step, board_in_hand(request))
    except ReadError as error:
        answer = fragments(request, "build/_timers.html", "build/_trouble.html", trouble=error, **context)
    else:
        answer = fragments(request, "build/_timers.html", "build/_build.html", board=board, **context)
    events = {"desk:say": {"words": said}} if said else {}
    if events or told:
        answer.headers["HX-Trigger"] = json.dumps(events | (told or {}))
    return answer


async def tick(request: Request) -> Response:
    """A step is done."""
    desk, slug, form = await _asked(request)
    key = str(form.get("key", ""))
    if key not in await _keys(desk, slug):
        return await stands(request, step_in(form), CHANGED)
    await asyncio.to_thread(desk.ledger.builds.tick, slug, key)
    await desk.hub.tell(f"build:{slug}")
    return await stands(request, step_in(form), "Ticked off.")


async def untick(request: Request) -> Response:
    """A step is not done after all, or a tick found no step and is forgotten."""
    desk, slug, form = await _asked(request)
    await asyncio.to_thread(desk.ledger.builds.untick, slug, str(form.get("key", "")))
    await desk.hub.tell(f"build:{slug}")
    return await stands(request, step_in(form), "The tick is taken off.")


async def still(request: Request) -> Response:
    """A step that changed since it was ticked is done all the same, and was when it was ticked."""
    desk, slug, form = await _asked(request)
    old, key = str(form.get("old", "")), str(form.get("key", ""))
    when = desk.ledger.builds.ticks(slug).get(old)
    if when is None or key not in await _keys(desk, slug):
        return await stands(request, step_in(form), CHANGED)
    await asyncio.to_thread(desk.ledger.builds.tick, slug, key, when)
    await asyncio.to_thread(desk.ledger.builds.untick, slug, old)
    await desk.hub.tell(f"build:{slug}")
    return await stands(request, step_in(form), "Ticked off as it is now.")


async def note(request: Request) -> Response:
    """Words at a step, or at the build as a whole; under the step's key as it is now."""
    desk, slug, form = await _asked(request)
    key, old, text = (str(form.get(name, "")) for name in ("key", "old", "text"))
    try:
        await asyncio.to_thread(_noted, desk.ledger.builds, slug, key, old, text)
    except ScantlingError as error:
        return await stands(request, step_in(form), str(error))
    await asyncio.to_thread(desk.ledger.drafts.clear, f"/piece/{slug}/build", f"note {key}")
    taken = {"desk:taken": {"fields": [f"note {key}"]}}
    return await stands(request, step_in(form), "Noted.", taken)


def _noted(builds: Builds, slug: str, key: str, old: str, text: str) -> None:
    kept = builds.notes(slug)
    if (kept[key].text if key in kept else "") != text:
        builds.note(slug, text, key)
    if old != key and old in kept:
        builds.note(slug, "", old)


async def start_timer(request: Request) -> Response:
    """Wait for something from now on."""
    desk, slug, form = await _asked(request)
    label = " ".join(str(form.get("label", "")).split())[:LONGEST_LABEL] or "Timer"
    minutes = minutes_said(str(form.get("minutes", "")))
    if minutes is None:
        return await stands(request, step_in(form), NO_TIME)
    try:
        await asyncio.to_thread(desk.ledger.builds.start_timer, slug, label, minutes)
    except ScantlingError as error:
        return await stands(request, step_in(form), f"{error}.")
    await desk.hub.tell(f"build:{slug}")
    return await stands(request, step_in(form), "The timer runs.")


async def timers(request: Request) -> Response:
    """The timers as they run by now."""
    desk, slug = desk_of(request), request.path_params["slug"]
    desk.piece(slug)
    return fragments(request, "build/_timers.html", **shared(desk, slug))


async def end_timer(request: Request) -> Response:
    """A timer is stopped, or its ring was heard."""
    desk, slug, form = await _asked(request)
    number = str(form.get("number", ""))
    if number.isdecimal() and len(number) < 10:
        builds = desk.ledger.builds
        await asyncio.to_thread(builds.rung if form.get("heard") else builds.stop_timer, int(number))
    await desk.hub.tell(f"build:{slug}")
    return await stands(request, step_in(form))


def board_in_hand(request: Request) -> str:
    """The board the page shows: said with the question, or in the address of the page that asks."""
    page = urlsplit(request.headers.get("hx-current-url", "")).query
    said = request.query_params.get("board") or dict(parse_qsl(page)).get("board", "")
    return said[:LONGEST_LABEL]


def step_in(form: FormData) -> int | None:
    """The step the page looks at."""
    said = str(form.get("step", ""))
    return int(said) if said.isdecimal() and len(said) < 6 else None


async def _asked(request: Request) -> tuple[Desk, str, FormData]:
    desk, slug = desk_of(request), request.path_params["slug"]
    desk.piece(slug)
    return desk, slug, await request.form()


async def _keys(desk: Desk, slug: str) -> frozenset[str]:
    """The keys of the plan's steps; none where it cannot be planned."""
    try:
        view = await desk.planner.ask(build_view, desk.asked(slug))
    except ReadError:
        return frozenset()
    return frozenset(step.key for step in view.steps)
