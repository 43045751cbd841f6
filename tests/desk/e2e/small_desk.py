"""A small stand-in for the desk, with pages that do what a page must not, to try the harness on."""

from __future__ import annotations

import sys
from pathlib import Path

import uvicorn
from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import HTMLResponse, Response
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles

from scantling.desk.guard import GuardSettings, guarded, trouble_handlers

PAGE = """<!doctype html><html lang="en"><head>
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Small</title><link rel="icon" href="/static/mark.svg"></head>
<body><main><h1>Small</h1>{}</main></body></html>"""
PAGES = {
    "/": "<p>Good</p>",
    "/outside": '<img alt="" src="http://cupboard.example/picture.png">',
    "/inline": "<script>document.title = 'mine'</script>",
    "/nameless": '<img src="data:image/gif;base64,R0lGODlhAQABAAAAACwAAAAAAQABAAA="><button></button>',
    "/wide": f"<p>{'wide' * 30}</p>",
    "/script-error": '<script src="/stumbles.js"></script>',
}


async def show(request: Request) -> Response:
    return HTMLResponse(PAGE.format(PAGES[request.url.path]))


async def script(request: Request) -> Response:
    return Response("throw new Error('stumbled')", media_type="text/javascript")


async def fail(request: Request) -> Response:
    raise RuntimeError("on purpose")


async def count(request: Request) -> Response:
    ticks = Path(sys.argv[1]) / "ticks"
    ticks.write_text(f"{ticks.read_text() if ticks.exists() else ''}|")
    return HTMLResponse(PAGE.format(f"<p>{ticks.read_text()}</p>"))


def serve() -> None:
    """On the folder and the port given, as the desk is."""
    routes = [Route(path, show) for path in PAGES]
    more = [Route("/stumbles.js", script), Route("/fail", fail), Route("/count", count)]
    static = Mount("/static", StaticFiles(packages=[("scantling.desk", "static")]))
    app = Starlette(routes=[*routes, *more, static], exception_handlers=trouble_handlers())
    port = int(sys.argv[2])
    uvicorn.run(guarded(app, GuardSettings.at(port)), host="127.0.0.1", port=port, log_level="warning")
