"""Photos of boards: kept in the ledger, straightened by their four corners, shown by their digest."""

from __future__ import annotations

import asyncio
from hashlib import sha256
from urllib.parse import quote

from starlette.datastructures import UploadFile
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from scantling.desk.desk import Desk, desk_of
from scantling.desk.rack.pictures import kept_picture, straightened
from scantling.desk.rack.shelf import SCOPE, Refused, shelf_of
from scantling.desk.rack.showing import nothing_written
from scantling.desk.rack.straight import check_round
from scantling.errors import ReadError, ScantlingError
from scantling.ledger import Corners, Photo
from scantling.shop.editing import board_of


def photo_digests(desk: Desk) -> dict[str, str]:
    """A word for each board's photo, another one when the photo or its corners change."""
    return {board: digest(photo) for board, photo in desk.ledger.photos.all(SCOPE).items()}


def digest(photo: Photo) -> str:
    """A word that changes with the photo or its corners."""
    told = f"{photo.when.isoformat()} {photo.corners}"
    return sha256(told.encode()).hexdigest()[:12]


async def keep_photo(desk: Desk, board: str, sent: UploadFile) -> None:
    """Keep a photo of a board. Raises ScantlingError for what is no picture."""
    data = await sent.read()
    jpeg, wide, high = await asyncio.to_thread(kept_picture, data)
    desk.ledger.photos.put(SCOPE, board, jpeg, wide, high)
    await desk.hub.tell(SCOPE)


def copy_photo(desk: Desk, board: str, new: str) -> None:
    """Give a renamed board its photo; the old name keeps its own, for when the renaming is undone."""
    photo, jpeg = desk.ledger.photos.get(SCOPE, board), desk.ledger.photos.jpeg(SCOPE, board)
    if photo and jpeg:
        desk.ledger.photos.put(SCOPE, new, jpeg, photo.width, photo.height, photo.corners)


async def send_photo(request: Request) -> Response:
    """Keep the photo that was sent, and show the board's page with it."""
    desk, board = desk_of(request), request.query_params.get("board", "")
    try:
        board_of(shelf_of(desk).shop.boards, board)
        async with request.form() as form:
            photo = form.get("photo")
            if not isinstance(photo, UploadFile) or not photo.filename:
                raise ReadError("no photo was chosen", None, "choose one first")
            await keep_photo(desk, board, photo)
    except ScantlingError as error:
        return nothing_written(request, Refused(str(error)))
    return _again(board)


async def original(request: Request) -> Response:
    """The photo as kept."""
    return Response(_jpeg(request), media_type="image/jpeg")


async def straight(request: Request) -> Response:
    """The board alone, straightened."""
    desk, board = desk_of(request), request.query_params.get("board", "")
    photo, jpeg = desk.ledger.photos.get(SCOPE, board), _jpeg(request)
    if photo is None or photo.corners is None:
        raise HTTPException(404, "This photo has no corners yet.")
    try:
        measured = board_of(shelf_of(desk).shop.boards, board)
    except ReadError as error:
        raise HTTPException(404, str(error)) from None
    sizes = (measured.length, measured.width)
    flat = await asyncio.to_thread(straightened, jpeg, photo.corners, *sizes)
    return Response(flat, media_type="image/jpeg")


async def set_corners(request: Request) -> Response:
    """Keep where the board's four corners are in its photo."""
    desk, board = desk_of(request), request.query_params.get("board", "")
    form = await request.form()
    try:
        corners = _corners(str(form.get("corners", "")))
        desk.ledger.photos.set_corners(SCOPE, board, corners)
    except ScantlingError as error:
        return nothing_written(request, Refused(str(error)))
    await desk.hub.tell(SCOPE)
    return _again(board)


async def put_away(request: Request) -> Response:
    """Forget the photo of a board."""
    desk, board = desk_of(request), request.query_params.get("board", "")
    desk.ledger.photos.remove(SCOPE, board)
    await desk.hub.tell(SCOPE)
    return _again(board)


def _again(board: str) -> Response:
    return Response(status_code=200, headers={"HX-Redirect": f"/rack/board?board={quote(board, safe='')}"})


def _jpeg(request: Request) -> bytes:
    jpeg = desk_of(request).ledger.photos.jpeg(SCOPE, request.query_params.get("board", ""))
    if jpeg is None:
        raise HTTPException(404, "There is no photo of that board.")
    return jpeg


def _corners(words: str) -> Corners | None:
    """`0.1 0.2 0.9 0.2 0.9 0.8 0.1 0.8` as four points; nothing as none. Raises ScantlingError."""
    if not words.strip():
        return None
    try:
        parts = [min(1.0, max(0.0, float(word))) for word in words.split()]
    except ValueError:
        parts = []
    if len(parts) != 8:
        raise ReadError("four corners are wanted", None, "set all four")
    corners = ((parts[0], parts[1]), (parts[2], parts[3]), (parts[4], parts[5]), (parts[6], parts[7]))
    check_round(corners)
    return corners


routes = [
    Route("/rack/board/photo", original),
    Route("/rack/board/photo", send_photo, methods=["POST"]),
    Route("/rack/board/photo/away", put_away, methods=["POST"]),
    Route("/rack/board/straight", straight),
    Route("/rack/board/corners", set_corners, methods=["POST"]),
]
