"""Carrying out what an act writes: shown first where it does more than it says, then through the keeper."""

from __future__ import annotations

import asyncio
from dataclasses import dataclass, replace

from scantling.desk.desk import Desk
from scantling.desk.keeping import FileConflict
from scantling.desk.piece.acts import Act, MendIt, OpenKit, Remove, outcome_of
from scantling.desk.piece.answering import Shown, begin_page
from scantling.desk.working import Asked
from scantling.piece.editing.writes import Ask, Refused, Write

SHOWN_FIRST = (MendIt, OpenKit, Remove)  # these always show what they change
TRIES = 3


@dataclass(frozen=True, slots=True)
class ShowFirst:
    """What would be written, to be looked at. `after`: the question with it done."""

    write: Write
    after: Asked


Result = Write | ShowFirst | Ask | Refused


async def carried_out(desk: Desk, slug: str, act: Act, kept: bool) -> Result:
    """Do an act. `kept`: the maker has seen what it changes and wants it.

    One act of a piece after another. One that finds its file changed under it is worked out again: it names
    words, not texts. Raises ReadError for words that cannot be read, Conflict for words that are others by
    now, Cancelled.
    """
    async with desk.kept(Shown).turns[slug]:
        for _ in range(TRIES - 1):
            try:
                return await _tried(desk, slug, act, kept)
            except FileConflict:
                continue
        return await _tried(desk, slug, act, kept)


async def _tried(desk: Desk, slug: str, act: Act, kept: bool) -> Result:
    asked = desk.asked(slug)
    outcome = await desk.planner.ask(outcome_of, asked, act)
    if not isinstance(outcome, Write):
        return outcome
    answered = bool(getattr(act, "way", ""))
    if not (kept or answered) and _is_more_than_said(outcome, act, asked):
        return ShowFirst(outcome, _after(asked, outcome))
    texts = {file: (_as_known(desk, asked, file), text) for file, text in outcome.files}
    if [*texts] == [asked.file]:  # what else is written changes the question itself
        begin_page(desk, slug, _after(asked, outcome))
    await asyncio.to_thread(desk.keeper.write, slug, outcome.what, texts)
    return outcome


def _is_more_than_said(outcome: Write, act: Act, asked: Asked) -> bool:
    elsewhere = any(file != asked.file for file, _ in outcome.files)
    return bool(outcome.lost) or elsewhere or isinstance(act, SHOWN_FIRST)


def _as_known(desk: Desk, asked: Asked, file: str) -> str:
    """The text an act was worked out from."""
    return asked.text if file == asked.file else desk.folder.text(file).text


def _after(asked: Asked, wanted: Write) -> Asked:
    """As if it were written."""
    texts = dict(wanted.files)
    own = texts.pop(asked.file, asked.text)
    return replace(asked, text=own, others=tuple(texts.items()))
