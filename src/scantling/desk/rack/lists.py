"""Sections of the shop file as tables: cells said anew, lines added and taken out, cells pasted."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from starlette.datastructures import FormData
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from scantling.desk.rack.shelf import Refused, Shelf, refusal, said_anew, shelf_of, written
from scantling.desk.rack.showing import (
    HEADS,
    SECTIONS,
    check_column,
    nothing_written,
    shown,
    taken,
    with_shelf,
)
from scantling.desk.rendering import fragments
from scantling.errors import Conflict, ReadError
from scantling.shop import default_shop
from scantling.shop.editing import (
    Column,
    Pasted,
    Row,
    Sort,
    Table,
    add_row,
    as_cells,
    columns_of,
    headings_of,
    paste,
    pasted,
    remove_row,
    set_cell,
    table_of,
)
from scantling.shop.model import MachineKind

MOST_PASTED = 200_000  # characters


@dataclass(frozen=True, slots=True)
class Cell:
    """`key`: its column; `was`: what the file says; `words`: what the field shows; `label`: its full name."""

    key: str
    words: str
    was: str
    label: str
    shared: bool
    trouble: Refused | None = None


@dataclass(frozen=True, slots=True)
class Line:
    """One row as shown. `at`: its number, for its place on the page; `path` as JSON."""

    at: int
    name: str
    path: str
    cells: tuple[Cell, ...]


@with_shelf
async def listed(request: Request, shelf: Shelf) -> Response:
    """A section as a table."""
    return shown(request, shelf, "rack/table.html", **_view(request, shelf, _section(request)))


@with_shelf
async def set_one(request: Request, shelf: Shelf) -> Response:
    """Say one cell anew; the row comes back, or the whole table if the row moved."""
    section, form = _section(request), await request.form()
    path, column, words, was = (
        _path(form, section),
        *(str(form.get(key, "")) for key in ("column", "words", "was")),
    )
    check_column(section, column)
    what = said_anew(path[-1], section, column, words)
    try:
        await written(shelf.desk, what, lambda text: set_cell(text, path, column, words, was))
    except (ReadError, Conflict) as error:
        told = {(path, column): (words, refusal(error))}
        return _row_answer(request, shelf, section, path, told, 422)
    again = shelf_of(shelf.desk)
    moved = table_of(again.text, section).row(path) is None
    answer = _answer(request, again, section) if moved else _row_answer(request, again, section, path)
    answer.headers["HX-Trigger"] = taken(shelf.desk, _page(section), [f"{_name(path)}, {column}"])
    return answer


@with_shelf
async def add_one(request: Request, shelf: Shelf) -> Response:
    """Add a line at the end of the table."""
    section, form = _section(request), await request.form()
    cells = {column.key: str(form.get(column.key, "")) for column in columns_of(section)}
    cells = {key: words for key, words in cells.items() if words.strip()}
    name = " ".join(cells.values())[:60]
    try:
        await written(
            shelf.desk, f"{HEADS[section].lower()}: {name}", lambda t: add_row(t, section, cells)[0]
        )
    except (ReadError, Conflict) as error:
        return nothing_written(request, error)
    answer = _answer(request, shelf_of(shelf.desk), section)
    keys = (column.key for column in columns_of(section))
    answer.headers["HX-Trigger"] = taken(shelf.desk, _page(section), keys)
    return answer


@with_shelf
async def put_away(request: Request, shelf: Shelf) -> Response:
    """Take a line out."""
    section = _section(request)
    path = _path(await request.form(), section)
    try:
        await written(shelf.desk, f"{path[-1]} taken out", lambda text: remove_row(text, path))
    except (ReadError, Conflict) as error:
        return nothing_written(request, error)
    return _answer(request, shelf_of(shelf.desk), section)


@with_shelf
async def look_over(request: Request, shelf: Shelf) -> Response:
    """What pasted cells would write, and every fault at its cell; nothing is written."""
    section = _section(request)
    try:
        cells = await _pasted_words(request)
    except ReadError as error:
        return nothing_written(request, error)
    found = pasted(shelf.text, section, cells)
    view = _looked(found, table_of(shelf.text, section))
    return fragments(request, "rack/_pasted.html", address=_page(section), cells=cells, **view)


def _looked(found: Pasted, there: Table) -> dict[str, Any]:
    heads = {column.key: column.head for column in there.columns}
    return {
        "found": found,
        "rows": list(enumerate(found.rows, 2 if found.headed else 1)),
        "heads": [heads.get(key, "") for key in found.columns],
        "faults": {(fault.row, fault.column): fault for fault in found.faults},
        "told": [fault for fault in found.faults if not fault.column],
        "new": sum(there.says(row) is None for row in found.rows),
    }


@with_shelf
async def write_pasted(request: Request, shelf: Shelf) -> Response:
    """Write pasted cells that have no fault."""
    section = _section(request)
    try:
        cells = await _pasted_words(request)
    except ReadError as error:
        return nothing_written(request, error)
    found = pasted(shelf.text, section, cells)
    if found.faults:
        return await look_over(request)
    lines = f"{len(found.rows)} line{'s' if len(found.rows) != 1 else ''} pasted"
    try:
        await written(
            shelf.desk, f"{HEADS[section].lower()}: {lines}", lambda text: paste(text, section, found.rows)
        )
    except (ReadError, Conflict) as error:
        return nothing_written(request, error)
    answer = _answer(request, shelf_of(shelf.desk), section, "rack/_paste.html")
    answer.headers["HX-Trigger"] = taken(shelf.desk, _page(section), ("pasted",))
    return answer


async def _pasted_words(request: Request) -> str:
    """What was pasted. Raises ReadError for more than is looked at in one go."""
    words = str((await request.form()).get("pasted", ""))
    if len(words) > MOST_PASTED:
        raise ReadError(
            f"more than {MOST_PASTED:,} characters were pasted", None, "paste fewer lines at a time"
        )
    return words


def _page(section: str) -> str:
    return f"/rack/table/{section.replace(' ', '-')}"


def _section(request: Request) -> str:
    section: str = request.path_params["section"].replace("-", " ")
    if section not in (*SECTIONS, "boards"):
        raise HTTPException(404, "The rack has no such table.")
    return section


def _path(form: FormData, section: str) -> tuple[str, ...]:
    try:
        found = json.loads(str(form.get("path", "[]")))
    except (ValueError, RecursionError):
        found = []
    names = found if isinstance(found, list) else []
    if len(names) < 2 or names[0] != section or not all(isinstance(name, str) for name in names):
        raise HTTPException(400)
    return tuple(names)


Told = Mapping[tuple[tuple[str, ...], str], tuple[str, Refused]]


def _answer(request: Request, shelf: Shelf, section: str, *more: str) -> Response:
    parts = ("rack/_table.html", "rack/_bar.html", "rack/_quiet.html", *more)
    return fragments(request, *parts, **_view(request, shelf, section), bar=shelf.bar)


def _row_answer(
    request: Request,
    shelf: Shelf,
    section: str,
    path: tuple[str, ...],
    told: Told | None = None,
    status: int = 200,
) -> Response:
    view = _view(request, shelf, section, told or {})
    wanted = json.dumps(list(path))
    line = next((line for line in view["lines"] if line.path == wanted), None)
    if line is None:
        return nothing_written(request, _gone())
    parts = ("rack/_row.html", "rack/_bar.html", "rack/_quiet.html")
    return fragments(request, *parts, status=status, **view, line=line, bar=shelf.bar)


def _gone() -> Refused:
    return Refused("this line is not in the shop file any more", "load the page again")


def _view(request: Request, shelf: Shelf, section: str, told: Told | None = None) -> dict[str, Any]:
    table = table_of(shelf.text, section)
    everything = request.query_params.get("all") == "1"
    columns = [c for c in table.columns if everything or _is_shown(c, table)]
    return {
        "at": section,
        "section": section,
        "head": HEADS[section],
        "address": _page(section),
        "everything": everything,
        "columns": columns,
        "all_columns": table.columns,
        "asked": [c for c in table.columns if _is_usual(c)],
        "more": [c for c in table.columns if not _is_usual(c)],
        "usual_fittings": _usual_fittings() if section == "hardware" else (),
        "lines": [_line(i, row, columns, told or {}) for i, row in enumerate(table.rows, 1)],
        "hidden": len(table.columns) - len(columns),
        "copied": as_cells(table),
        "headings": headings_of(shelf.text, section),
        "machines": [kind.value for kind in MachineKind],
        "heads": {column.key: column.head for column in table.columns},
        "unit": shelf.shop.unit.value,
        "drafts": shelf.desk.ledger.drafts.all(_page(section)),
        "group": Sort.GROUP,
    }


def _is_shown(column: Column, table: Table) -> bool:
    return _is_usual(column) or any(row.cells[column.key] for row in table.rows)


def _is_usual(column: Column) -> bool:
    usual = ("price", "on hand", "for sale", "kerf", "widest", "shortest", "force", "covers")
    return column.wanted or column.sort in (Sort.NAME, Sort.GROUP) or column.key in usual


@cache
def _usual_fittings() -> tuple[str, ...]:
    """Kinds of fittings that a shop without a file is planned with."""
    return tuple(sorted({item.kind for item in default_shop().hardware}))


def _line(number: int, row: Row, columns: list[Column], told: Told) -> Line:
    name = _name(row.path)
    cells = tuple(_cell(row, column, name, told.get((row.path, column.key))) for column in columns)
    return Line(number, name, json.dumps(list(row.path)), cells)


def _name(path: tuple[str, ...]) -> str:
    return " ".join(path[1:])


def _cell(row: Row, column: Column, name: str, told: tuple[str, Refused] | None) -> Cell:
    was = row.cells[column.key]
    words, trouble = told if told else (was, None)
    label = f"{name}, {column.head.lower()}"
    return Cell(column.key, words, was, label, column.key in row.shared, trouble)


routes = [
    Route("/rack/table/{section}", listed),
    Route("/rack/table/{section}/cell", set_one, methods=["POST"]),
    Route("/rack/table/{section}/row", add_one, methods=["POST"]),
    Route("/rack/table/{section}/away", put_away, methods=["POST"]),
    Route("/rack/table/{section}/paste", look_over, methods=["POST"]),
    Route("/rack/table/{section}/pasted", write_pasted, methods=["POST"]),
]
