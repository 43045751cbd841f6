"""Carrying out what an act writes: shown first where it does more than it says, then through the keeper."""

from __future__ import annotations

import asyncio
from dataclasses import dataclass, replace

from scantling.desk.desk import Desk
from scantling.desk.piece.acts import Act, MendIt, OpenKit, Remove, outcome_of
from scantling.desk.working import Asked
from scantling.piece.editing.writes import Ask, Refused, Write

SHOWN_FIRST = (MendIt, OpenKit, Remove)  # these always show what they change


@dataclass(frozen=True, slots=True)
class ShowFirst:
    """What would be written, to be looked at. `after`: the question with it done."""

    write: Write
    after: Asked


@dataclass(frozen=True, slots=True)
class Written:
    """What was written; `before`: the question as it was."""

    write: Write
    before: Asked


Result = Written | ShowFirst | Ask | Refused


async def carried_out(desk: Desk, slug: str, act: Act, kept: bool) -> Result:
    """Do an act. `kept`: the maker has seen what it changes and wants it.

    Raises ReadError for words that cannot be read, Conflict for words or files that changed meanwhile.
    """
    asked = desk.asked(slug)
    outcome = await desk.planner.ask(outcome_of, asked, act)
    if not isinstance(outcome, Write):
        return outcome
    if not kept and (outcome.lost or isinstance(act, SHOWN_FIRST)):
        return ShowFirst(outcome, _after(asked, outcome))
    await write(desk, slug, outcome)
    return Written(outcome, asked)


async def write(desk: Desk, slug: str, wanted: Write) -> None:
    """Put the new texts in their files. Raises FileConflict."""
    texts = {file: (desk.folder.text(file).text, text) for file, text in wanted.files}
    await asyncio.to_thread(desk.keeper.write, slug, wanted.what, texts)


def _after(asked: Asked, wanted: Write) -> Asked:
    """As if it were written; only the piece's own file can be tried unwritten."""
    own = dict(wanted.files).get(asked.file)
    return asked if own is None else replace(asked, text=own)
