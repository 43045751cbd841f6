"""The pages of the rack that show all boards, and the one that adds a board."""

from __future__ import annotations

import asyncio
from typing import Any

from starlette.datastructures import FormData, UploadFile
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from scantling.desk.desk import Desk, desk_of
from scantling.desk.fields import words_in
from scantling.desk.keeping import SHOP_FILE
from scantling.desk.rack.drawing import wall_of
from scantling.desk.rack.measuring import HOW
from scantling.desk.rack.photos import keep_photo, photo_digests
from scantling.desk.rack.shelf import SCOPE, Refused, Shelf, refusal, shelf_of, written
from scantling.desk.rack.showing import shown, taken, with_shelf
from scantling.desk.rendering import fragments
from scantling.errors import Conflict, ReadError, ScantlingError
from scantling.quantity import LengthUnit
from scantling.shop.editing import add_row, faults_of, headings_of, new_shop_text, next_name
from scantling.shop.model import Surface
from scantling.wood import all_species

SEE_OTHER = 303
FIELDS = ("length", "width", "thickness", "bow", "crook", "cup", "twist", "moisture", "figure", "board")
KEPT = (*FIELDS, "wood", "price")
NOMINALS = ("3/4", "4/4", "5/4", "6/4", "8/4", "10/4", "12/4", "16/4")


@with_shelf
async def wall(request: Request, shelf: Shelf) -> Response:
    """All boards as pictures to scale."""
    view = wall_of(shelf.shop, photo_digests(shelf.desk))
    return shown(request, shelf, "rack/boards.html", at="boards", wall=view)


@with_shelf
async def adding(request: Request, shelf: Shelf) -> Response:
    """The form for a new board."""
    return shown(request, shelf, "rack/add.html", at="boards", **_form(shelf))


@with_shelf
async def add(request: Request, shelf: Shelf) -> Response:
    """Put a board on the rack, with its photo if there is one; the form again for the next."""
    async with request.form() as form:
        return await _answer(request, shelf, form)


async def _answer(request: Request, shelf: Shelf, form: FormData) -> Response:
    desk = shelf.desk
    try:
        name = await _added(desk, form)
    except (ReadError, Conflict) as error:
        amiss = _amiss(_cells(form), shelf) or {"": refusal(error)}
        return fragments(request, "rack/_amiss.html", status=422, amiss=amiss)
    trouble = await _photo_trouble(desk, name, form)
    sent = taken(desk, "/rack/add", KEPT, f"{name} is on the rack.")
    told = {**_form(shelf_of(desk), stack_words(form)), "added": name, "trouble": trouble}
    answer = fragments(request, "rack/_add.html", "rack/_bar.html", **told, bar=shelf.bar)
    answer.headers["HX-Trigger"] = sent
    return answer


async def begin(request: Request) -> Response:
    """Begin a shop file."""
    desk, form = desk_of(request), await request.form()
    unit = LengthUnit.MM if form.get("unit") == "mm" else LengthUnit.INCHES
    try:
        text = new_shop_text(words_in(form, "name"), unit)
        await asyncio.to_thread(desk.keeper.write, SCOPE, "begin a shop file", {SHOP_FILE: (None, text)})
    except ScantlingError as error:
        return shown(request, None, "rack/none.html", 422, trouble=str(error))
    await desk.hub.tell(SCOPE, "files")
    return RedirectResponse("/rack", SEE_OTHER)


async def _added(desk: Desk, form: FormData) -> str:
    cells = _cells(form)
    names: list[str] = []

    def edit(text: str) -> str:
        after, path = add_row(text, "boards", cells)
        names.append(path[-1])
        return after

    await written(desk, f"board {cells['board'] or 'added'}", edit)
    return _name_as_written(desk, names[-1])


def _cells(form: FormData) -> dict[str, str]:
    cells = {key: words_in(form, key) for key in FIELDS} | {"stack": stack_words(form)}
    return cells | {"for sale": "yes" if form.get("for sale") else "", "price": words_in(form, "price")}


def _amiss(cells: dict[str, str], shelf: Shelf) -> dict[str, Refused]:
    """What is wrong, by the field it stands in; the heading of a new stack stands in that of its wood."""
    faults = faults_of("boards", cells, shelf.shop.unit)
    return {"wood" if key == "stack" else key: refusal(fault) for key, fault in faults.items()}


def _name_as_written(desk: Desk, name: str) -> str:
    boards = shelf_of(desk).shop.boards
    return next((board.id for board in boards if board.id.lower() == name), name)


def stack_words(form: FormData) -> str:
    """The heading the board shall stand under: one that is there, or a wood and how it was sold."""
    if chosen := words_in(form, "stack"):
        return chosen
    sold_as = f"{words_in(form, 'nominal')} {words_in(form, 'surface')}".strip()
    return ", ".join(filter(None, (" ".join(words_in(form, "wood").split()), sold_as)))


async def _photo_trouble(desk: Desk, board: str, form: FormData) -> Refused | None:
    photo = form.get("photo")
    if not isinstance(photo, UploadFile) or not photo.filename:
        return None
    try:
        await keep_photo(desk, board, photo)
    except ScantlingError as error:
        return Refused(str(error))
    return None


def _form(shelf: Shelf, stack: str = "") -> dict[str, Any]:
    stacks = headings_of(shelf.text, "boards")
    return {
        "stacks": [(each, next_name(shelf.text, "boards", each)) for each in stacks],
        "chosen": stack if stack in stacks else (stacks[-1] if stacks else ""),
        "woods": sorted({species.spoken for species in all_species()}),
        "nominals": NOMINALS,
        "surfaces": [surface.value for surface in Surface],
        "how": HOW,
        "inches": shelf.shop.unit is LengthUnit.INCHES,
        "unit": shelf.shop.unit.value,
        "added": "",
        "trouble": None,
        "drafts": shelf.desk.ledger.drafts.all("/rack/add"),
    }


routes = [
    Route("/rack", wall),
    Route("/rack/add", adding),
    Route("/rack/boards/photo", add, methods=["POST"]),
    Route("/rack/begin", begin, methods=["POST"]),
]
