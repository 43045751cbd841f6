"""The page where a device comes in, and the page at the desk that shows how, and who is in."""

from __future__ import annotations

import math
from datetime import datetime
from http import HTTPStatus

import segno
from starlette.datastructures import FormData
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response
from starlette.routing import Route

from scantling.desk.desk import desk_of
from scantling.desk.rendering import page
from scantling.desk.sharing.addresses import Whereabouts, visitor, whereabouts
from scantling.desk.sharing.codes import shown
from scantling.desk.sharing.devices import STAYS, kind_of
from scantling.desk.sharing.share import Entered, Refused, Share

NEWS = "sharing"
MOST_ADDRESSES = 3


async def show_entrance(request: Request) -> Response:
    """Where a device gives the pass code."""
    to = own_path(request.query_params.get("to", "/"))
    if whereabouts(visitor(request.scope)) is Whereabouts.HERE:
        return RedirectResponse(to, HTTPStatus.SEE_OTHER)
    return _entrance(request, to)


async def enter(request: Request) -> Response:
    """A try to come in, by the code that was typed or the link that was scanned."""
    async with request.form() as form:
        to = own_path(_text(form, "to"))
        outcome = _tried(_share(request), request, form)
    if isinstance(outcome, Refused):
        return _turned_away(request, to, outcome, scanned=bool(_text(form, "link")))
    await desk_of(request).hub.tell(NEWS)
    return _let_in(_share(request), to, outcome)


async def show_sharing(request: Request) -> Response:
    """How others come in, what that exposes, and who is in."""
    share = shared(request)
    if share is None:
        return page(request, "sharing/off.html")
    return page(
        request,
        "sharing/sharing.html",
        code=shown(share.code),
        ways=_ways(share),
        devices=[(device, _time_of_day(device.entered)) for device in share.devices()],
    )


async def send_away(request: Request) -> Response:
    """Show a device out."""
    _share(request).send_away(request.path_params["number"])
    await desk_of(request).hub.tell(NEWS)
    return RedirectResponse("/sharing", HTTPStatus.SEE_OTHER)


routes = [
    Route("/enter", show_entrance),
    Route("/enter", enter, methods=["POST"]),
    Route("/sharing", show_sharing),
    Route("/sharing/devices/{number:int}/away", send_away, methods=["POST"]),
]


def shared(request: Request) -> Share | None:
    """How the desk is shared, if it is."""
    share: Share | None = getattr(request.app.state, "share", None)
    return share


def own_path(to: str) -> str:
    """`to` if it is a page of ours, else the first page: nobody is led elsewhere."""
    plain = to.startswith("/") and not to.startswith(("//", "/\\")) and to.isprintable()
    return to if plain else "/"


def _share(request: Request) -> Share:
    share = shared(request)
    if share is None:
        raise HTTPException(404, "The desk is not shared.")
    return share


def _tried(share: Share, request: Request, form: FormData) -> Entered | Refused:
    address, kind = visitor(request.scope), kind_of(request.headers.get("user-agent", ""))
    if link := _text(form, "link"):
        return share.enter_by_link(link, address, kind)
    return share.enter_by_code(_text(form, "code"), address, kind)


def _turned_away(request: Request, to: str, refused: Refused, *, scanned: bool) -> Response:
    wait = math.ceil(refused.wait)
    status = HTTPStatus.FORBIDDEN if refused.looked else HTTPStatus.TOO_MANY_REQUESTS
    answer = _entrance(request, to, status, amiss=_amiss(refused, scanned=scanned), wait=wait)
    if wait:
        answer.headers["retry-after"] = str(wait)
    return answer


def _amiss(refused: Refused, *, scanned: bool) -> str:
    if scanned:
        return "That code to scan was used already or is too old. Scan a new one, or type the pass code."
    if refused.looked:
        return "That is not the pass code."
    return "That came too soon and was not looked at."


def _entrance(
    request: Request, to: str, status: int = HTTPStatus.OK, *, amiss: str = "", wait: int = 0
) -> HTMLResponse:
    return page(request, "sharing/enter.html", status, to=to, amiss=amiss, wait=wait)


def _let_in(share: Share, to: str, entered: Entered) -> Response:
    answer = RedirectResponse(to, HTTPStatus.SEE_OTHER)
    answer.set_cookie(share.cookie, entered.secret, max_age=int(STAYS), httponly=True, samesite="strict")
    return answer


def _ways(share: Share) -> list[tuple[str, str]]:
    """Addresses of the desk in the home network, each with its code to scan as the address of a picture."""
    link = share.new_link()
    addresses = [f"http://{address}:{share.port}" for address in share.addresses()[:MOST_ADDRESSES]]
    return [(address, _to_scan(f"{address}/enter#{link}")) for address in addresses]


def _to_scan(words: str) -> str:
    return segno.make(words, error="m", micro=False).svg_data_uri(scale=6, border=4, light="#fff")


def _time_of_day(moment: float) -> str:
    return datetime.fromtimestamp(moment).strftime("%H:%M")


def _text(form: FormData, name: str) -> str:
    value = form.get(name, "")
    return value if isinstance(value, str) else ""
