"""The page of one board: its measures, its defects on the drawing or the photo, and what is cut from it."""

from __future__ import annotations

import asyncio
import json
from dataclasses import dataclass
from typing import Any
from urllib.parse import quote

from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from scantling.desk.desk import Desk
from scantling.desk.fields import number_in
from scantling.desk.keeping import PieceFile
from scantling.desk.rack.drawing import drawn, exaggeration
from scantling.desk.rack.measuring import HOW
from scantling.desk.rack.photos import copy_photo, digest
from scantling.desk.rack.shelf import SCOPE, Refused, Shelf, refusal, said_anew, shelf_of, written
from scantling.desk.rack.showing import check_column, nothing_written, shown, taken, with_shelf
from scantling.desk.rack.uses import stock_used
from scantling.desk.rack.words import FACES, both, defect_told
from scantling.desk.rendering import fragments, page
from scantling.desk.working import Cancelled
from scantling.errors import Conflict, ReadError
from scantling.quantity import LengthUnit
from scantling.shop.defects import DEFECTS
from scantling.shop.editing import (
    add_defect,
    board_of,
    board_path,
    change_defect,
    column_named,
    defect_lines,
    defect_reaches,
    headings_of,
    remove_defect,
    remove_row,
    set_cell,
    table_of,
)
from scantling.shop.model import Board, BoardFace, Defect
from scantling.shop.words import AmissError, length

MEASURES = ("length", "width", "thickness")
OTHERS = ("moisture", "rings", "figure", "ends", "price", "for sale")
PAGE = "/rack/board"  # typed words are kept by the page, for all boards
REACHES = ("from", "to", "near", "far")
LEAST = 4.0  # mm; nobody draws a smaller defect with a finger


@dataclass(frozen=True, slots=True)
class Field:
    """One cell of the board's line. `echo`: the value in both units; `trouble`: what was refused."""

    column: str
    head: str
    words: str
    was: str
    echo: str = ""
    shared: bool = False
    trouble: Refused | None = None


@dataclass(frozen=True, slots=True)
class DefectLine:
    """A defect in its list. The four reaches are in the unit of the file; `was` is the line's clause."""

    number: int
    kind: str
    face: str
    reaches: tuple[str, str, str, str]
    words: str
    was: str


@with_shelf
async def one(request: Request, shelf: Shelf) -> Response:
    """The page of a board."""
    name = request.query_params.get("board", "")
    try:
        board = board_of(shelf.shop.boards, name)
    except ReadError:
        return shown(request, shelf, "rack/gone.html", 404, at="boards", name=name)
    return shown(request, shelf, "rack/board.html", at="boards", **_board(shelf, board))


@with_shelf
async def set_field(request: Request, shelf: Shelf) -> Response:
    """Say one cell of the board's line anew."""
    form = await request.form()
    board, column, words, was = _said(form, "board", "column", "words", "was")
    check_column("boards", column)
    try:
        path = board_path(shelf.text, board)
        await written(
            shelf.desk,
            said_anew(board, "boards", column, words),
            lambda t: set_cell(t, path, column, words, was),
        )
    except (ReadError, Conflict) as error:
        return _answer(request, shelf, board, {column: (words, refusal(error))}, status=422)
    sent = taken(shelf.desk, PAGE, [f"{board}, {column}"])
    name = " ".join(words.split()) if column == "board" else board
    if name != board:
        copy_photo(shelf.desk, board, name)
        return Response(headers={"HX-Redirect": address(name), "HX-Trigger": sent})
    return _answer(request, shelf_of(shelf.desk), board, sent=sent)


@with_shelf
async def draw(request: Request, shelf: Shelf) -> Response:
    """Add a defect, change one or take one out; lengths in mm from the drawing, or words from its fields."""
    form = await request.form()
    board, was = _said(form, "board", "was")
    try:
        await written(shelf.desk, *_drawing(shelf, form, board, number_in(form, "number") or 0, was))
    except (ReadError, Conflict) as error:
        return nothing_written(request, error)
    sent = taken(shelf.desk, PAGE, [f"{board}, {was}, {key}" for key in REACHES])
    return _answer(request, shelf_of(shelf.desk), board, sent=sent)


@with_shelf
async def put_away(request: Request, shelf: Shelf) -> Response:
    """Take the board off the rack."""
    (board,) = _said(await request.form(), "board")
    try:
        path = board_path(shelf.text, board)
        await written(shelf.desk, f"{board} taken off the rack", lambda text: remove_row(text, path))
    except (ReadError, Conflict) as error:
        return nothing_written(request, error)
    return Response(headers={"HX-Redirect": "/rack"})


@with_shelf
async def uses(request: Request, shelf: Shelf) -> Response:
    """Which pieces are cut from the board as they are planned now."""
    board = request.query_params.get("board", "")
    found = await asyncio.gather(*(_use(shelf.desk, piece, board) for piece in shelf.desk.folder.pieces()))
    return page(request, "rack/_uses.html", uses=[use for use in found if use], board=board)


def address(board: str) -> str:
    """The page of a board."""
    return f"/rack/board?board={quote(board, safe='')}"


async def _use(desk: Desk, piece: PieceFile, board: str) -> tuple[PieceFile, tuple[str, ...] | None] | None:
    """The piece and its parts from that board; None parts if the piece cannot be planned."""
    try:
        used = dict(await desk.printer.ask(stock_used, desk.asked(piece.slug)))
    except (ReadError, Cancelled):
        return piece, None
    return (piece, used[board]) if board in used else None


def _drawing(shelf: Shelf, form: FormData, name: str, number: int, was: str) -> tuple[str, Any]:
    """What is done, in words, and the edit that does it."""
    if form.get("away"):
        return f"{name}: {was} taken out", lambda text: remove_defect(text, name, number, was)
    defect = _defect(form, board_of(shelf.shop.boards, name), shelf.shop.unit)
    if number:
        what = f"{name}: {defect.kind} changed"
        return what, lambda text: change_defect(text, name, number, defect, was)
    return f"{name}: {defect.kind} marked", lambda text: add_defect(text, name, defect)


def _defect(form: FormData, board: Board, unit: LengthUnit) -> Defect:
    """Raises ReadError for a kind, a face or a length that is none."""
    kind, face = _said(form, "kind", "face")
    if kind not in DEFECTS:
        raise ReadError("say what it is first", None, f"known are {', '.join(DEFECTS)}")
    x = sorted(_reach(form, key, "end", board.length, unit) for key in ("from", "to"))
    y = sorted(_reach(form, key, "edge", board.width, unit) for key in ("near", "far"))
    x[1], y[1] = max(x[1], x[0] + LEAST), max(y[1], y[0] + LEAST)
    return Defect(kind, x[0], x[1], y[0], y[1], _face(face))


def _face(words: str) -> BoardFace:
    try:
        return BoardFace(words or "both")
    except ValueError:
        raise ReadError("say where it shows", None, "best, other or both") from None


def _reach(form: FormData, key: str, far: str, limit: float, unit: LengthUnit) -> float:
    words = str(form.get(key, "")).strip()
    if words.lower() == far:
        return limit
    try:
        value = length(words, unit)
    except AmissError as amiss:
        raise ReadError(amiss.message, None, f"such as 12 1/2, 300 mm or {far}") from None
    if value > limit + 1e-6:
        raise ReadError("this lies beyond the board", None, f"the far {far} is written {far}")
    return value


def _said(form: FormData, *names: str) -> list[str]:
    return [str(form.get(name, "")) for name in names]


Refusals = dict[str, tuple[str, Refused]]


def _answer(
    request: Request,
    shelf: Shelf,
    name: str,
    refused: Refusals | None = None,
    status: int = 200,
    sent: str = "{}",
) -> Response:
    try:
        board = board_of(shelf.shop.boards, name)
    except ReadError as error:
        return nothing_written(request, error)
    parts = (
        "rack/_measures.html",
        "rack/_surface.html",
        "rack/_marks.html",
        "rack/_bar.html",
        "rack/_quiet.html",
    )
    view = _board(shelf, board, refused)
    answer = fragments(request, *parts, status=status, **view, bar=shelf.bar)
    answer.headers["HX-Trigger"] = sent
    return answer


def _board(shelf: Shelf, board: Board, refused: Refusals | None = None) -> dict[str, Any]:
    photo = shelf.desk.ledger.photos.get(SCOPE, board.id)
    deeper = exaggeration((board,))
    inches = shelf.shop.unit is LengthUnit.INCHES
    fields = _fields(shelf, board, refused or {})
    return {
        "board": board,
        "drawn": drawn(board, shelf.shop, board.length, deeper, digest(photo) if photo else ""),
        "deeper": deeper,
        "photo": photo,
        "corners": json.dumps(photo.corners) if photo and photo.corners else "",
        "measures": [fields[key] for key in MEASURES],
        "warps": [(measure, fields[measure.word]) for measure in HOW],
        "stations": fields["stations"],
        "others": [fields[key] for key in OTHERS],
        "name_field": fields["board"],
        "stack_field": fields["stack"],
        "stack_choices": [(stack, stack) for stack in headings_of(shelf.text, "boards")],
        "marks": _marks(shelf, board),
        "kinds": DEFECTS,
        "faces": [(face.value, words) for face, words in FACES.items()],
        "inches": inches,
        "step": 6.35 if inches else 5.0,
        "least": LEAST,
        "unit": shelf.shop.unit.value,
    }


def _fields(shelf: Shelf, board: Board, refused: Refusals) -> dict[str, Field]:
    row = table_of(shelf.text, "boards").row(board_path(shelf.text, board.id))
    assert row is not None
    echoes = {key: both(getattr(board, key), shelf.shop) for key in MEASURES}
    warp = board.warp
    echoes |= {m.word: both(value, shelf.shop) for m in HOW if (value := getattr(warp, m.word))}
    return {
        key: Field(
            column=key,
            head=column_named("boards", key).head,
            words=refused[key][0] if key in refused else words,
            was=words,
            echo=echoes.get(key, ""),
            shared=key in row.shared,
            trouble=refused[key][1] if key in refused else None,
        )
        for key, words in row.cells.items()
    }


def _marks(shelf: Shelf, board: Board) -> list[DefectLine]:
    lines = defect_lines(shelf.text, board.id)
    return [
        DefectLine(
            i,
            defect.kind,
            defect.face.value,
            defect_reaches(was),
            defect_told(defect, board, shelf.shop),
            was,
        )
        for i, (defect, was) in enumerate(zip(board.defects, lines, strict=True), 1)
    ]


routes = [
    Route("/rack/board", one),
    Route("/rack/board/cell", set_field, methods=["POST"]),
    Route("/rack/board/defect", draw, methods=["POST"]),
    Route("/rack/board/away", put_away, methods=["POST"]),
    Route("/rack/board/uses", uses),
]
