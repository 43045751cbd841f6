"""A tiny desk with nothing but pictures, under the strict policy."""

from __future__ import annotations

import threading
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import uvicorn
from jinja2 import ChoiceLoader, Environment, FileSystemLoader, PackageLoader
from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import FileResponse, HTMLResponse, Response
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles

from scantling.desk.piece.picture import drawing_of, picture_of

HERE = Path(__file__).parent
STATIC = HERE.parents[2] / "src" / "scantling" / "desk" / "static"
POLICY = "default-src 'self'; img-src 'self' data:"


def pictures_app(plans: Mapping[str, Any]) -> Starlette:
    """`plans` by name; the first is also drawn flat."""
    loader = ChoiceLoader([FileSystemLoader(HERE), PackageLoader("scantling.desk", "templates")])
    page = Environment(loader=loader, autoescape=True).get_template("demo.html")
    pictures = {name: picture_of(plan) for name, plan in plans.items()}
    first = next(iter(plans.values()))

    def drawing(request: Request) -> Response:
        return answer(drawing_of(first, request.query_params["pose"]), "image/svg+xml")

    return Starlette(
        routes=[
            Route("/", lambda _: HTMLResponse(page.render(), headers={"content-security-policy": POLICY})),
            Route("/demo.js", lambda _: FileResponse(HERE / "demo.js", media_type="text/javascript")),
            Route("/description/{of}", lambda r: answer(pictures[r.path_params["of"]].description)),
            Route("/shapes/{of}", lambda r: answer(pictures[r.path_params["of"]].glb, "model/gltf-binary")),
            Route("/drawing", drawing),
            Mount("/static", StaticFiles(directory=STATIC)),
        ]
    )


def answer(content: str | bytes, kind: str = "application/json") -> Response:
    return Response(content, media_type=kind)


@contextmanager
def serving(app: Starlette) -> Iterator[str]:
    """The address at which `app` answers, on this machine only."""
    server = uvicorn.Server(uvicorn.Config(app, port=0, log_level="error", lifespan="off"))
    thread = threading.Thread(target=server.run, daemon=True)
    thread.start()
    while not server.started:
        thread.join(0.01)
    yield f"http://127.0.0.1:{server.servers[0].sockets[0].getsockname()[1]}"
    server.should_exit = True
    thread.join(10)
