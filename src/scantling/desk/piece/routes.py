"""The page of a piece."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from scantling.desk.desk import desk_of
from scantling.desk.piece.view import piece_view
from scantling.desk.rendering import page


async def piece(request: Request) -> Response:
    """The whole page."""
    desk = desk_of(request)
    found = desk.piece(request.path_params["slug"])
    view = await desk.planner.ask(piece_view, desk.asked(found.slug))
    return page(request, "piece/page.html", slug=found.slug, piece=found, view=view)


routes = [Route("/piece/{slug}", piece)]
