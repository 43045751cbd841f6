"""In the worker: each act turned over to the editor it belongs to."""

from __future__ import annotations

from functools import singledispatch
from typing import TYPE_CHECKING

from scantling.desk.piece.acts import (
    Act,
    Add,
    ChangeWords,
    Choose,
    Keep,
    MendIt,
    Nudge,
    OpenKit,
    Outcome,
    Pull,
    Remove,
    Say,
    SetWords,
    question_of,
    where_of,
)
from scantling.desk.piece.additions import added
from scantling.desk.piece.naming_view import range_of, usual_step
from scantling.desk.working.plans import document_of, plan_of
from scantling.errors import ReadError
from scantling.piece.editing.dragging import drag
from scantling.piece.editing.mending import Mending, mend
from scantling.piece.editing.naming import change_words, put_words, told
from scantling.piece.editing.opening import open_kit
from scantling.piece.editing.quantities import quantity_words
from scantling.piece.editing.removing import remove
from scantling.piece.editing.rows import SizeRow, size_rows
from scantling.piece.editing.setting import choose, keep_option, keep_size, set_words
from scantling.piece.editing.writes import Ask, Write
from scantling.piece.model import Face

if TYPE_CHECKING:
    from scantling.desk.working import Asked

FACES = {face.word: face for face in Face}


def doing(asked: Asked, act: Act) -> Outcome:
    """What an act writes; see `acts.outcome_of`."""
    return _done(act, asked)


@singledispatch
def _done(act: object, asked: Asked) -> Outcome:
    raise TypeError(f"nobody does {act!r} to {asked.file}")


@_done.register(SetWords)
def _(act: SetWords, asked: Asked) -> Outcome:
    return set_words(document_of(asked), act.path, act.was, act.new, where_of(act.everywhere))


@_done.register(Nudge)
def _(act: Nudge, asked: Asked) -> Outcome:
    row = _size_row(asked, act.name)
    step = row.step or usual_step(row.kind, row.words.unit)
    number = quantity_words(row.value + act.steps * step, row.kind, row.words.unit)
    return set_words(document_of(asked), row.path, act.was, number + range_of(act.was))


@_done.register(Choose)
def _(act: Choose, asked: Asked) -> Outcome:
    return choose(document_of(asked), act.path, act.was, act.option, where_of(act.everywhere))


@_done.register(Keep)
def _(act: Keep, asked: Asked) -> Outcome:
    plan = plan_of(asked)
    found = next((settled for settled in plan.settled if settled.name == act.name), None)
    if found is None:
        raise ReadError(f'nothing was left to find for "{act.name}"')
    if found.value is None:
        return keep_option(plan.document, act.name, found.text)
    return keep_size(plan.document, next(s for s in plan.piece.sizes if s.name == act.name))


@_done.register(ChangeWords)
def _(act: ChangeWords, asked: Asked) -> Outcome:
    document = document_of(asked)
    file = document.files.get(act.file)
    if file is None or file.of_house:
        raise ReadError(f'"{act.file}" is not changed from here', None, "open the kit first")
    return change_words(file.text, act.file, act.path, act.was, act.new)


@_done.register(Say)
def _(act: Say, asked: Asked) -> Outcome:
    document = document_of(asked)
    text = put_words(document.text, document.file, act.path, act.new)
    return Write(((document.file, text),), f"{told(act.path)}: {act.new}")


@_done.register(Pull)
def _(act: Pull, asked: Asked) -> Outcome:
    q = question_of(asked)
    outcome = drag(q.document, q.facts, q.record, dict(q.settings), act.part, FACES[act.face], act.by)
    if not (act.way and isinstance(outcome, Ask)):
        return outcome
    chosen = next((way.write for way in outcome.ways if way.name == act.way), None)
    return chosen or outcome


@_done.register(Remove)
def _(act: Remove, asked: Asked) -> Outcome:
    return remove(question_of(asked), act.path)


@_done.register(OpenKit)
def _(act: OpenKit, asked: Asked) -> Outcome:
    return open_kit(question_of(asked), act.path)


@_done.register(MendIt)
def _(act: MendIt, asked: Asked) -> Outcome:
    plan = plan_of(asked)
    if not 0 < act.number <= len(plan.findings):
        raise ReadError("this finding is gone already")
    known = plan.findings[act.number - 1].mend
    if known is None or not known.changes:
        raise ReadError("for this finding no change of words is known that mends it")
    return mend(question_of(asked), [Mending(c.name, c.to, c.place) for c in known.changes])


@_done.register(Add)
def _(act: Add, asked: Asked) -> Outcome:
    return added(document_of(asked), act)


def _size_row(asked: Asked, name: str) -> SizeRow:
    plan = plan_of(asked)
    settled = {found.name: found.text for found in plan.settled}
    rows = size_rows(plan.document, plan.piece, settled)
    found = next((row for row in rows if row.name == name), None)
    if found is None:
        raise ReadError(f'no size is called "{name}"')
    return found
