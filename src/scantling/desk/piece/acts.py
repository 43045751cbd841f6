"""What a maker may do on the page of a piece, as plain data; and, in the worker, what it writes.

A path is the names that lead to words: ("sizes", "leg size"). `was` are the words the page showed. `way` is
the answer to what was asked back, by the words of its button; "" where nothing was asked yet.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from scantling.desk.working.plans import document_of, plan_of, record_of, shop_of
from scantling.errors import ReadError
from scantling.piece.editing.writes import Ask, Question, Refused, Write

if TYPE_CHECKING:
    from scantling.desk.working import Asked

Steps = tuple[str, ...]
Outcome = Write | Ask | Refused


@dataclass(frozen=True, slots=True)
class SetWords:
    """New words for a named size, a choice or a material."""

    path: Steps
    was: str
    new: str
    way: str = ""


@dataclass(frozen=True, slots=True)
class Nudge:
    """A named size made greater or less by some steps."""

    name: str
    was: str
    steps: int
    way: str = ""


@dataclass(frozen=True, slots=True)
class Choose:
    """An option of a choice or a material taken."""

    path: Steps
    was: str
    option: str
    way: str = ""


@dataclass(frozen=True, slots=True)
class Keep:
    """What was found for a size or a choice written down in its place."""

    name: str
    way: str = ""


@dataclass(frozen=True, slots=True)
class ChangeWords:
    """New words in one of the piece's files, by their path in that file."""

    file: str
    path: Steps
    was: str
    new: str
    way: str = ""


@dataclass(frozen=True, slots=True)
class Say:
    """Words for a key of a part that says nothing there yet."""

    path: Steps
    new: str


@dataclass(frozen=True, slots=True)
class Pull:
    """A face of a part pulled outward by so much [mm]."""

    part: str
    face: str
    by: float
    way: str = ""


@dataclass(frozen=True, slots=True)
class Remove:
    """An entry taken out."""

    path: Steps


@dataclass(frozen=True, slots=True)
class OpenKit:
    """A kit made into a group of the piece, so that its parts can be changed."""

    path: Steps


@dataclass(frozen=True, slots=True)
class MendIt:
    """The change that mends a finding, by its number in the plan."""

    number: int


@dataclass(frozen=True, slots=True)
class Add:
    """Something new: `what` is part, kit, joint, hardware, work, hold, load, size or material."""

    what: str
    name: str
    said: tuple[tuple[str, str], ...]


Act = SetWords | Nudge | Choose | Keep | ChangeWords | Say | Pull | Remove | OpenKit | MendIt | Add


def question_of(asked: Asked) -> Question:
    """The piece as it stands, for the editors; with what was settled, where it can be planned."""
    from scantling.shop import facts_of

    try:
        settled = {size.name: size.text for size in plan_of(asked).settled}
    except ReadError:
        settled = {}
    return Question.of(document_of(asked), facts_of(shop_of(asked)), record_of(asked), settled)


def outcome_of(asked: Asked, act: Act) -> Outcome:
    """What an act writes. Raises ReadError for words that cannot be read, Conflict for words that changed."""
    from scantling.desk.piece.doing import doing

    return doing(asked, act)
