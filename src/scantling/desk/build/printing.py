"""Labels for the parts: choose the sheet, get the print."""

from __future__ import annotations

from collections.abc import Mapping

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

from scantling.desk.build.board import shared
from scantling.desk.build.labels import OwnSheet, label_sheets, labels_print
from scantling.desk.desk import desk_of
from scantling.desk.rendering import page
from scantling.errors import ReadError


async def labels(request: Request) -> Response:
    """The sheets to choose from."""
    desk, slug = desk_of(request), request.path_params["slug"]
    desk.piece(slug)
    try:
        sheets = await desk.planner.ask(label_sheets, desk.asked(slug))
    except ReadError as error:
        return page(request, "build/unplanned.html", trouble=error, **shared(desk, slug))
    return page(request, "build/labels.html", sheets=sheets, **shared(desk, slug))


async def labels_file(request: Request) -> Response:
    """The labels as a PDF, made in the worker that does the long work."""
    desk, slug = desk_of(request), request.path_params["slug"]
    desk.piece(slug)
    wanted = request.query_params
    start = wanted.get("start", "1")
    first = int(start) if start.isdecimal() and len(start) < 4 else 1
    try:
        sheet = _own(wanted) if wanted.get("sheet") == "own" else wanted.get("sheet", "")
        pdf = await desk.printer.ask(labels_print, desk.asked(slug), sheet, first)
    except ReadError as error:
        raise HTTPException(400, f"The labels could not be made: {error}.") from None
    name = 'inline; filename="labels.pdf"'
    return Response(pdf, media_type="application/pdf", headers={"content-disposition": name})


def _own(wanted: Mapping[str, str]) -> OwnSheet:
    """The sheet of a maker's own numbers. Raises ReadError for what is no number."""
    names = ("across", "down", "wide", "high", "left", "top", "between", "beneath")
    across, down, *sizes = (_number(wanted.get(name, "")) for name in names)
    return OwnSheet(wanted.get("paper") == "letter", int(across), int(down), *sizes)


def _number(said: str) -> float:
    """A number of millimetres or of labels; nothing said is 0."""
    plain = said.strip().replace(",", ".") or "0"
    if len(plain) > 8 or not plain.replace(".", "", 1).isdecimal() or not plain.isascii():
        raise ReadError(f'"{said[:20]}" is not a number of mm', remedy="write it as in `63.5`")
    return float(plain)
