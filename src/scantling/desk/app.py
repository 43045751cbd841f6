"""The web app on one folder of pieces: routes, the watch over the files, start and end."""

from __future__ import annotations

import asyncio
import contextlib
from collections.abc import AsyncIterator
from importlib.resources import files
from pathlib import Path
from urllib.parse import unquote

from starlette.applications import Starlette
from starlette.middleware import Middleware
from starlette.middleware.gzip import GZipMiddleware
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Mount, Route, WebSocketRoute
from starlette.staticfiles import StaticFiles
from starlette.websockets import WebSocket

from scantling.desk.desk import Desk, desk_of
from scantling.desk.fields import number_in, words_in
from scantling.desk.guard import trouble_handlers
from scantling.desk.guard.trouble import Trouble, told
from scantling.desk.home.routes import routes as home
from scantling.desk.late import Late, every
from scantling.desk.sharing import Share
from scantling.desk.sharing.routes import routes as sharing
from scantling.desk.working import Cancelled
from scantling.desk.working.plans import warm
from scantling.errors import ScantlingError

WATCH_EVERY = 1.0  # seconds between looks at the files
LONGEST_DRAFT = 400_000
STOPPED = Trouble(409, "Working it out was stopped", "Nothing was changed by this. Load the page again.")


LATE = (
    Late(r"/rack(/|$)", "scantling.desk.rack.routes"),
    Late(r"/piece/[^/]+/build(/|$)", "scantling.desk.build.routes"),
    Late(r"/piece/[^/]+/publish(/|$)", "scantling.desk.publish.routes"),
    Late(r"/piece/[^/]+/wood(/|$)", "scantling.desk.wood.routes"),
    Late(r"/piece/", "scantling.desk.piece.routes"),
)


def desk_app(path: Path, share: Share | None = None) -> Starlette:
    """The app on the folder `path`. Its guard, and its gate when shared, are put round it by `serving`.

    Raises FolderInUse where another desk has the folder, ScantlingError where its ledger cannot be opened.
    """
    app = Starlette(
        routes=[
            *home,
            *LATE,
            *sharing,
            Route("/drafts", put_draft, methods=["POST"]),
            WebSocketRoute("/news", news),
            Mount("/static", StaticFiles(directory=str(files("scantling.desk") / "static"))),
        ],
        exception_handlers={**trouble_handlers(), ScantlingError: _say, Cancelled: _stopped},
        middleware=[Middleware(GZipMiddleware, minimum_size=800, compresslevel=5)],
        lifespan=_open,
    )
    app.state.desk = Desk.of(path)
    app.state.share = share
    return app


@contextlib.asynccontextmanager
async def _open(app: Starlette) -> AsyncIterator[None]:
    desk: Desk = app.state.desk
    first = asyncio.create_task(desk.planner.ask(warm))
    watch = asyncio.create_task(_watch(desk))
    rest = asyncio.create_task(_bring_in())
    try:
        yield
    finally:
        for task in (first, watch, rest):
            task.cancel()
        desk.close()


async def _bring_in() -> None:
    """Have the other pages ready before they are asked for, once the first has been shown."""
    await asyncio.sleep(WATCH_EVERY)
    await asyncio.to_thread(list, every(LATE))


async def _watch(desk: Desk) -> None:
    """Look at the files now and then, and tell open pages what an editor outside changed."""
    while True:
        await asyncio.sleep(WATCH_EVERY)
        try:
            changed = await asyncio.to_thread(desk.keeper.noticed)
        except ScantlingError:  # folder or ledger out of reach: looked at again in a second
            continue
        for file in changed:
            await desk.hub.tell(f"outside:{file}", "files")


async def _say(request: Request, error: Exception) -> Response:
    """What Scantling itself has to say, where no page says it better: a file that is no text, a full disk."""
    words = str(error)
    head = "That cannot be done as the files are"
    return told(Trouble(422, head, f"{words[:1].upper()}{words[1:]}."), request.headers)


async def _stopped(request: Request, error: Exception) -> Response:  # noqa: ARG001
    """Where a page cannot wait for its plan: it was dropped for something newer, or its process ended."""
    return told(STOPPED, request.headers)


async def news(socket: WebSocket) -> None:
    """A page's line to the desk."""
    await socket.app.state.desk.hub.listen(socket)


async def put_draft(request: Request) -> Response:
    """Keep words that are typed and not yet sent, or forget them when they are `gone`."""
    form = await request.form()
    page, field, text = (words_in(form, name) for name in ("page", "field", "text"))
    at = number_in(form, "at")
    drafts = desk_of(request).ledger.drafts
    if "gone" in form:
        drafts.clear(unquote(page), field)
    elif page and field and len(text) <= LONGEST_DRAFT and at is not None:
        drafts.put(unquote(page), field, text, at)
    return Response(status_code=204)
