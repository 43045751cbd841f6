"""Home: the folder's pieces, newest first."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from scantling.desk.desk import desk_of
from scantling.desk.home.view import card_of
from scantling.desk.rendering import page
from scantling.errors import ReadError


async def home(request: Request) -> Response:
    """The list; each card is fetched by the page once it shows."""
    return page(request, "home/page.html", pieces=desk_of(request).folder.pieces())


async def card(request: Request) -> Response:
    """One piece's card, or why it cannot be planned."""
    desk = desk_of(request)
    piece = desk.piece(request.path_params["slug"])
    try:
        shown = await desk.printer.ask(card_of, desk.asked(piece.slug))
    except ReadError as error:
        return page(request, "home/_card.html", piece=piece, card=None, trouble=error)
    return page(request, "home/_card.html", piece=piece, card=shown, trouble=None)


routes = [Route("/", home), Route("/card/{slug}", card)]
