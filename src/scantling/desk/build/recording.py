"""Parts as they are made: measured, spoiled, boards cut. What it changes is shown first, then kept."""

from __future__ import annotations

from dataclasses import dataclass
from hashlib import sha256

from starlette.datastructures import FormData
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

from scantling.desk.build.board import shared, this_minute, ticks_of
from scantling.desk.build.difference import difference
from scantling.desk.build.parts_view import boards_view, cut_words, part_view, parts_view
from scantling.desk.build.records import Record
from scantling.desk.build.standing import standing_view
from scantling.desk.build.view import build_view
from scantling.desk.desk import Desk, desk_of
from scantling.desk.rendering import fragments, page
from scantling.errors import ReadError, ScantlingError
from scantling.quantity import LengthUnit

AXES = ("wide", "deep", "high")
LONGEST_NAME = 300


@dataclass(frozen=True, slots=True)
class Wish:
    """What a maker wants noted. `act`: "measured", "spoiled" or "cut"; `boards` for the last."""

    act: str
    part: str
    axis: str
    size: str
    done: bool
    boards: tuple[str, ...]

    @staticmethod
    def of(form: FormData) -> Wish:
        """What a form asks for, cut to sane lengths."""
        said = {
            name: " ".join(str(form.get(name, "")).split())[:LONGEST_NAME]
            for name in ("act", "part", "axis", "size")
        }
        boards = tuple(str(board)[:LONGEST_NAME] for board in form.getlist("board"))
        return Wish(**said, done=bool(form.get("done")), boards=boards)


@dataclass(frozen=True, slots=True)
class Edit:
    """A wish as text. `was`: the digest of the record it goes into; `what`: its name in the history."""

    before: str | None
    after: str
    what: str

    @property
    def was(self) -> str:
        return sha256((self.before or "").encode()).hexdigest()[:16]


async def parts(request: Request) -> Response:
    """All parts, to choose the one that is to be noted."""
    desk, slug = _desk(request)
    try:
        lines = await desk.planner.ask(parts_view, desk.asked(slug))
    except ReadError as error:
        return page(request, "build/unplanned.html", trouble=error, **shared(desk, slug))
    return page(
        request, "build/parts.html", lines=lines, history=desk.keeper.history(slug), **shared(desk, slug)
    )


async def part(request: Request) -> Response:
    """One part: its sizes, and what may be noted of it."""
    desk, slug = _desk(request)
    asked, name = desk.asked(slug), request.query_params.get("name", "")
    try:
        shown = await desk.planner.ask(part_view, asked, name)
    except ReadError as error:
        return page(request, "build/unplanned.html", trouble=error, **shared(desk, slug))
    if shown is None:
        raise HTTPException(404, "The piece has no part of that name.")
    return page(
        request,
        "build/part.html",
        part=shown,
        stamp=asked.stamp[:12],
        drafts=desk.ledger.drafts.all(f"/piece/{slug}/build/part"),
        history=desk.keeper.history(slug),
        **shared(desk, slug),
    )


async def boards(request: Request) -> Response:
    """Boards that may be noted as cut; those whose cuts are all ticked stand chosen."""
    desk, slug = _desk(request)
    asked = desk.asked(slug)
    try:
        lines = await desk.planner.ask(boards_view, asked)
        standing = await desk.planner.ask(standing_view, asked, ticks_of(desk, slug), (), this_minute())
    except ReadError as error:
        return page(request, "build/unplanned.html", trouble=error, **shared(desk, slug))
    history = desk.keeper.history(slug)
    return page(
        request,
        "build/boards.html",
        boards=lines,
        ticked=standing.sawn,
        history=history,
        **shared(desk, slug),
    )


async def tried(request: Request) -> Response:
    """What a note would change. Nothing is kept yet."""
    desk, slug = _desk(request)
    wish = Wish.of(await request.form())
    try:
        edit = await _edit(desk, slug, wish)
        changes = await desk.planner.ask(difference, desk.asked(slug), desk.asked(slug, record=edit.after))
    except ReadError as error:
        return fragments(request, "build/_refused.html", trouble=error)
    return fragments(
        request, "build/_tried.html", slug=slug, wish=wish, edit=edit, difference=changes, late=False
    )


async def keep(request: Request) -> Response:
    """Keep a note that was tried, if the record is still the one it was tried on."""
    desk, slug = _desk(request)
    form = await request.form()
    wish = Wish.of(form)
    try:
        edit = await _edit(desk, slug, wish)
        if form.get("was") != edit.was:
            changes = await desk.planner.ask(
                difference, desk.asked(slug), desk.asked(slug, record=edit.after)
            )
            return fragments(
                request, "build/_tried.html", slug=slug, wish=wish, edit=edit, difference=changes, late=True
            )
        desk.keeper.write(slug, edit.what, {desk.folder.record_file(slug): (edit.before, edit.after)})
    except ScantlingError as error:
        return fragments(request, "build/_refused.html", trouble=error)
    desk.ledger.drafts.clear(f"/piece/{slug}/build/part", _field(wish))
    await _told(desk, slug)
    return fragments(
        request, "build/_kept.html", slug=slug, wish=wish, edit=edit, history=desk.keeper.history(slug)
    )


async def undo(request: Request) -> Response:
    """Take the newest change of the piece's files back."""
    return await _step(request, back=True)


async def redo(request: Request) -> Response:
    """Do again what was taken back."""
    return await _step(request, back=False)


async def _step(request: Request, *, back: bool) -> Response:
    desk, slug = _desk(request)
    form = await request.form()
    said = str(form.get("number", ""))
    number = int(said) if said.isdecimal() and len(said) < 12 else None
    try:
        change = (desk.keeper.undo if back else desk.keeper.redo)(slug, number)
    except ScantlingError as error:
        return fragments(request, "build/_refused.html", trouble=error)
    await _told(desk, slug)
    history = desk.keeper.history(slug)
    return fragments(request, "build/_stepped.html", slug=slug, change=change, is_back=back, history=history)


async def _edit(desk: Desk, slug: str, wish: Wish) -> Edit:
    """The record with a wish written in. Raises ReadError where it cannot be."""
    asked = desk.asked(slug)
    view = await desk.planner.ask(build_view, asked)
    record = Record(asked.record_file, asked.record, view.name)
    match wish.act:
        case "measured":
            return await _measured(desk, slug, wish, record)
        case "spoiled":
            shown = await desk.planner.ask(part_view, asked, wish.part)
            times = (shown.spoiled if shown else 0) + 1
            return Edit(record.text, record.spoiled(wish.part, times), f"{wish.part} is spoiled")
        case "cut":
            entries = await desk.planner.ask(cut_words, asked, wish.boards)
            names = ", ".join(name for name, _ in entries)
            return Edit(record.text, record.boards_cut(entries), f"{names} cut")
        case _:
            raise ReadError("it is not said what is to be noted")


async def _measured(desk: Desk, slug: str, wish: Wish, record: Record) -> Edit:
    shown = await desk.planner.ask(part_view, desk.asked(slug), wish.part)
    if shown is None:
        raise ReadError(f'the piece has no part called "{wish.part}"')
    if wish.axis not in AXES:
        raise ReadError("choose which size was measured")
    unit = LengthUnit.INCHES if shown.inches else LengthUnit.MM
    text = record.measured(wish.part, wish.axis, wish.size, unit, done=wish.done)
    return Edit(record.text, text, f"{wish.part} measured: {wish.axis} {wish.size}")


def _field(wish: Wish) -> str:
    """What the words of a measured size are kept under while they are typed."""
    return f"size {wish.part}"


async def _told(desk: Desk, slug: str) -> None:
    await desk.hub.tell(f"piece:{slug}", f"build:{slug}")


def _desk(request: Request) -> tuple[Desk, str]:
    desk, slug = desk_of(request), request.path_params["slug"]
    desk.piece(slug)
    return desk, slug
