"""A face of a part grabbed in the picture and pulled: what is written for it, tried before it is offered."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from scantling.errors import ReadError
from scantling.piece.editing.dragging.ends import Answer, Answers, Grab, answers
from scantling.piece.editing.dragging.terms import Stuck
from scantling.piece.editing.effects import joints_lost
from scantling.piece.editing.finding import part_seen, tree_of
from scantling.piece.editing.writes import Ask, Question, Refused, Way, Write, refusal
from scantling.piece.facts import ShopFacts
from scantling.piece.language import Document
from scantling.piece.model import Axis, BuildRecord, Face, Piece
from scantling.piece.resolve.showing import shown
from scantling.piece.resolve.steps import face_inside
from scantling.quantity import MM_PER_INCH, LengthUnit

_SAME = 1e-4  # mm: the face lies where it was asked to
_STEP = {LengthUnit.INCHES: MM_PER_INCH / 16, LengthUnit.MM: 1.0}


def step_of(unit: LengthUnit) -> float:
    """By what a drag goes in a file of that unit: 1/16 in, or 1 mm. [mm]"""
    return _STEP[unit]


def drag(
    document: Document,
    facts: ShopFacts,
    record: BuildRecord,
    settings: Mapping[str, str],
    part: str,
    face: Face,
    by_mm: float,
) -> Write | Ask | Refused:
    """What is written when a face of a part is pulled outward by so much (below zero: pushed in).

    Parameters
    ----------
    settings
        What the plan settled, by name, as `resolve` takes it.
    part, face
        A part by its full name, and a face in the part's own frame (that of the piece, but for tilted parts).
    by_mm
        Snapped to 1/16 in or 1 mm, by the unit of the piece's file.

    Returns
    -------
    A write that moves that face by just that much, with the joints it loses; a question where a name stands
    at that end; or a refusal. Every answer has been tried on the whole piece.
    """
    question = Question.of(document, facts, record, settings)
    step = step_of(document.unit)
    by = round(by_mm / step) * step
    try:
        if abs(by) < step / 2:
            return Refused(f"a drag goes by {shown(step, document.unit)} at least")
        return _dragged(question, part, face, by)
    except Stuck as stuck:
        return Refused(str(stuck), stuck.remedy)
    except ReadError as error:
        return refusal(error)


def _dragged(question: Question, part: str, face: Face, by: float) -> Write | Ask | Refused:
    before = question.piece()
    seen = part_seen(tree_of(question), part)
    measured = _measured(question, part, face.axis)
    if before.part(part).fixed or measured:
        return Refused(f"{part} is cut or measured already", "change its size in the build record")
    found = answers(Grab(question, seen.thing, face_inside(seen.steps, face), by))
    tried = [(answer, _tried(question, before, answer, part, face, by)) for answer in found.answers]
    good = [(answer.name, write) for answer, write in tried if isinstance(write, Write)]
    bad = [write for _, write in tried if isinstance(write, Refused)]
    if not good:
        return bad[0]
    if not found.what:
        return good[0][1]
    return _question(found, good, bad)


def _question(found: Answers, good: list[tuple[str, Write]], bad: list[Refused]) -> Ask:
    closed = found.closed or (bad[0].why if bad else "")
    ways = tuple(Way(name, write) for name, write in good)
    return Ask(f"This end is {found.what}: change it everywhere, or only here?", ways, closed)


def _measured(question: Question, part: str, axis: Axis) -> bool:
    words = sorted(part.split())
    return any(
        sorted(one.part.lower().split()) == words and axis in dict(one.sizes)
        for one in question.record.measured
    )


def _tried(
    question: Question, before: Piece, answer: Answer, part: str, face: Face, by: float
) -> Write | Refused:
    """The write with the joints it loses, if the face then lies just where it was asked to."""
    try:
        after = question.after(answer.write)
    except ReadError as error:
        return refusal(error)
    now = after.part_by_name.get(part)
    if now is None:
        return Refused(f"{part} would be gone")
    was = before.part(part)
    moved = (now.box.face(face) - was.box.face(face)) * face.sign
    if abs(moved - by) > _SAME:
        unit = question.document.unit
        return Refused(
            f"its {face.word} would move by {shown(moved, unit)}, not by {shown(by, unit)}",
            "other parts hold it there: change the words instead",
        )
    whole = abs(now.size(face.axis) - was.size(face.axis)) < _SAME
    what = f"{answer.write.what}; the whole part moves" if whole else answer.write.what
    return replace(answer.write, what=what, lost=joints_lost(before, after))
