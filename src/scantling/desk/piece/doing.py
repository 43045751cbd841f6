"""In the worker: each act turned over to the editor it belongs to."""

from __future__ import annotations

from functools import partial, singledispatch
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
)
from scantling.desk.piece.additions import added
from scantling.desk.piece.naming_view import range_of, usual_step
from scantling.desk.piece.placing import here_or_there, made_or_asked
from scantling.desk.working.plans import document_of, plan_of, record_of, shop_of
from scantling.errors import ReadError
from scantling.piece.editing.dragging import drag
from scantling.piece.editing.mending import Mending, mend
from scantling.piece.editing.naming import change_words, put_words, told
from scantling.piece.editing.opening import open_kit
from scantling.piece.editing.quantities import quantity_words
from scantling.piece.editing.removing import remove
from scantling.piece.editing.rows import SizeRow, size_path, size_rows
from scantling.piece.editing.setting import Where, choose, keep_option, keep_size, set_words
from scantling.piece.editing.writes import Ask, Refused, Write
from scantling.piece.model import Face
from scantling.piece.resolve import resolve
from scantling.shop import facts_of

if TYPE_CHECKING:
    from scantling.desk.working import Asked

SAME = 1e-6  # of the inside unit
FACES = {face.word: face for face in Face}


def doing(asked: Asked, act: Act) -> Outcome:
    """What an act writes; see `acts.outcome_of`."""
    return _done(act, asked)


@singledispatch
def _done(act: object, asked: Asked) -> Outcome:
    raise TypeError(f"nobody does {act!r} to {asked.file}")


@_done.register(SetWords)
def _(act: SetWords, asked: Asked) -> Outcome:
    document = document_of(asked)

    def made(where: Where) -> Write:
        return set_words(document, act.path, act.was, act.new, where)

    return here_or_there(document, act.path, act.way, made)


@_done.register(Nudge)
def _(act: Nudge, asked: Asked) -> Outcome:
    row = _size_row(asked, act.name)
    value = row.value + act.steps * (row.step or usual_step(row.kind, row.words.unit))
    if not _in_range(row, value):
        return Refused(f"{act.name} goes{range_of(row.words.text).replace(' within', ' from')}")
    new = quantity_words(value, row.kind, row.words.unit) + range_of(act.was)
    return _done(SetWords(row.path, act.was, new, act.way), asked)


@_done.register(Choose)
def _(act: Choose, asked: Asked) -> Outcome:
    document = document_of(asked)

    def made(where: Where) -> Write:
        return choose(document, act.path, act.was, act.option, where)

    return here_or_there(document, act.path, act.way, made)


@_done.register(Keep)
def _(act: Keep, asked: Asked) -> Outcome:
    plan = plan_of(asked)
    found = next((settled for settled in plan.settled if settled.name == act.name), None)
    if found is None:
        raise ReadError(f'nothing was left to find for "{act.name}"')
    size = next((s for s in plan.piece.sizes if s.name == act.name), None)
    if found.value is None or size is None:
        return keep_option(plan.document, act.name, found.text)
    return here_or_there(
        plan.document, size_path(size.name), act.way, partial(keep_size, plan.document, size)
    )


@_done.register(ChangeWords)
def _(act: ChangeWords, asked: Asked) -> Outcome:
    document = document_of(asked)
    file = document.files.get(act.file)
    if file is None or file.of_house:
        raise ReadError(f'"{act.file}" is not changed from here', None, "open the kit first")

    def made(where: Where) -> Write:
        if where is Where.HERE:
            return set_words(document, act.path, act.was, act.new)
        return change_words(file.text, act.file, act.path, act.was, act.new)

    return made_or_asked(document, file, act.path, act.way, made)


@_done.register(Say)
def _(act: Say, asked: Asked) -> Outcome:
    document = document_of(asked)
    text = put_words(document.text, document.file, act.path, act.new)
    return Write(((document.file, text),), f"{told(act.path)}: {act.new}")


@_done.register(Pull)
def _(act: Pull, asked: Asked) -> Outcome:
    if act.face not in FACES:
        raise ReadError("a part has no such face")
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


def _in_range(row: SizeRow, value: float) -> bool:
    low, high = row.low, row.high
    return (low is None or value > low - SAME) and (high is None or value < high + SAME)


def _size_row(asked: Asked, name: str) -> SizeRow:
    """The size as its words stand; nothing is planned for it."""
    document = document_of(asked)
    piece = resolve(document, facts_of(shop_of(asked)), record_of(asked))
    rows = size_rows(document, piece, {})
    found = next((row for row in rows if row.name == name), None)
    if found is None:
        raise ReadError(f'no size is called "{name}"')
    return found
