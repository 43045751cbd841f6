"""What is asked back before anything is written: which way, really, or whose words."""

from __future__ import annotations

import json
from typing import Any

from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import Response

from scantling.desk.desk import Desk
from scantling.desk.piece.view import page_of
from scantling.desk.piece.writing import ShowFirst
from scantling.desk.rendering import fragments
from scantling.errors import Conflict, ReadError
from scantling.piece.editing.differing import difference
from scantling.piece.editing.writes import Ask, Refused

OPEN = json.dumps({"desk:open": {"id": "asking"}})


def question(request: Request, slug: str, form: FormData, asked: Ask) -> Response:
    """More than one thing may be meant."""
    return _dialog(request, "piece/_question.html", slug=slug, again=_fields(form), asked=asked)


async def shown_first(request: Request, desk: Desk, slug: str, form: FormData, first: ShowFirst) -> Response:
    """What would be written, and what comes of it."""
    texts = {file: desk.folder.text(file).text for file, _ in first.write.files}
    lines = {file: difference(texts[file], text) for file, text in first.write.files}
    after = await desk.planner.ask(page_of, first.after, desk.asked(slug))
    return _dialog(
        request,
        "piece/_difference.html",
        slug=slug,
        again=_fields(form, keep="yes"),
        write=first.write,
        lines=lines,
        view=after.view,
    )


def conflict(request: Request, slug: str, form: FormData, error: Conflict) -> Response:
    """Someone else was there first: both are shown, nothing is written."""
    return _dialog(
        request, "piece/_conflict.html", slug=slug, again=_fields(form, was=error.now), error=error
    )


def step_conflict(request: Request, slug: str, number: int | None, error: Conflict, address: str) -> Response:
    """A file was changed since the step that is to be taken back or done again."""
    return _dialog(
        request,
        "piece/_step_conflict.html",
        slug=slug,
        number=number or "",
        error=error,
        lines=difference(error.now, error.wanted),
        address=address,
    )


def amiss(request: Request, slug: str, field: str, error: ReadError) -> Response:
    """Words that cannot be read: told at their field, which keeps them."""
    return _at_field(request, field, slug=slug, error=error, why="", remedy="")


def refused(request: Request, slug: str, field: str, refusal: Refused) -> Response:
    """Nothing is written, and why."""
    return _at_field(request, field, slug=slug, error=None, why=refusal.why, remedy=refusal.remedy)


def _at_field(request: Request, field: str, **context: Any) -> Response:
    response = fragments(request, "piece/_amiss.html", field=field, **context)
    response.headers["HX-Trigger"] = json.dumps({"desk:amiss": {"field": field}})
    return response


def _dialog(request: Request, template: str, **context: Any) -> Response:
    response = fragments(request, template, **context)
    response.headers["HX-Trigger"] = OPEN
    return response


def _fields(form: FormData, **over: str) -> list[tuple[str, str]]:
    """The fields of the form that asked, to be sent again with the answer."""
    kept = [(key, value) for key, value in form.multi_items() if isinstance(value, str) and key not in over]
    return [*kept, *over.items()]
