"""The shop file as a page of the rack finds it, and the one way it is written."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from dataclasses import dataclass

from scantling.desk.desk import Desk
from scantling.desk.keeping import SHOP_FILE, FileConflict
from scantling.errors import Conflict, ReadError
from scantling.ledger import digest_of
from scantling.shop import Shop, read_shop_text
from scantling.shop.editing import column_named

SCOPE = "shop"  # of the journal, of photos, and the word told to open pages


@dataclass(frozen=True, slots=True)
class Shelf:
    """The shop file as text and as a shop."""

    desk: Desk
    text: str
    shop: Shop

    @property
    def bar(self) -> Bar:
        return bar_of(self.desk)


@dataclass(frozen=True, slots=True)
class Bar:
    """What every page of the rack shows above all: the next step back and forward.

    `digest` names the text the page was made from; `undo`, `redo`: numbers of the changes, 0 for none.
    """

    digest: str
    undo: int
    undo_words: str
    redo: int
    redo_words: str


@dataclass(frozen=True, slots=True)
class Refused:
    """Why nothing was written: what is wrong, what to write, and for a conflict the words there now."""

    message: str
    remedy: str = ""
    now: str | None = None


def shop_text(desk: Desk) -> str | None:
    """The characters of the shop file; None where there is none. Raises ReadError."""
    return desk.folder.text(SHOP_FILE).text if desk.folder.has(SHOP_FILE) else None


def shelf_of(desk: Desk) -> Shelf:
    """The shop file read. Raises ReadError, also where there is none."""
    text = shop_text(desk)
    if text is None:
        raise ReadError("there is no shop file in this folder yet", None, "begin one")
    return Shelf(desk, text, read_shop_text(text, SHOP_FILE))


def bar_of(desk: Desk) -> Bar:
    """The bar as the journal stands. Raises ReadError."""
    history = desk.keeper.history(SCOPE, 1)
    undo, redo = (steps[0].number if steps else 0 for steps in (history.done, history.undone))
    digest = digest_of(shop_text(desk) or "")
    return Bar(digest, undo, history.undo_words, redo, history.redo_words)


async def written(desk: Desk, what: str, edit: Callable[[str], str]) -> None:
    """Edit the shop file through the keeper, and tell open pages.

    Raises ReadError and Conflict as the edit does, Conflict too if the file changed under it.
    """
    before = shop_text(desk)
    if before is None:
        raise ReadError("there is no shop file in this folder yet", None, "begin one")
    after = edit(before)
    await asyncio.to_thread(desk.keeper.write, SCOPE, what, {SHOP_FILE: (before, after)})
    await desk.hub.tell(SCOPE, "files")


def said_anew(name: str, section: str, column: str, words: str) -> str:
    """What was done to one cell: `bar clamp: how many 9`."""
    head = column_named(section, column).head.lower()
    return f"{name}: {head} {words.strip()}" if words.strip() else f"{name}: {head} emptied"


def refusal(error: ReadError | Conflict) -> Refused:
    """An error as a page tells it."""
    if isinstance(error, FileConflict):
        return Refused("the shop file was changed just now, so nothing was written", "try once more")
    if isinstance(error, Conflict):
        now = f"says “{error.now}”" if error.now else "says nothing"
        return Refused(f"the file {now} here by now, so nothing was written", now=error.now)
    return Refused(error.message, error.remedy)
