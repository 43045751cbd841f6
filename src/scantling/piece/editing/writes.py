"""What an edit comes to: new texts of files with a sentence, a question with ready answers, or a refusal."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from scantling.errors import ReadError
from scantling.piece.facts import NO_FACTS, ShopFacts
from scantling.piece.language import Document, reread
from scantling.piece.model import NO_RECORD, BuildRecord, Piece
from scantling.piece.resolve import resolve

Steps = tuple[str, ...]  # names that lead to words in a file; items of a list go by their numbers, from 1


@dataclass(frozen=True, slots=True)
class Write:
    """The whole new text of each file that changes, by the file's name in places.

    `what` says what was changed, in a sentence; `lost` the joints that the piece then has no more; `freed`
    the sizes, choices and materials whose words were changed: nothing settled stands for them any longer.
    """

    files: tuple[tuple[str, str], ...]
    what: str
    lost: tuple[str, ...] = ()
    freed: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Way:
    """One answer to a question: `name` for its button, and what is then written."""

    name: str
    write: Write


@dataclass(frozen=True, slots=True)
class Ask:
    """More than one thing may be meant. `closed` says why an answer one would expect is not there."""

    question: str
    ways: tuple[Way, ...]
    closed: str = ""


@dataclass(frozen=True, slots=True)
class Refused:
    """Nothing is written: why, and what to do instead."""

    why: str
    remedy: str = ""


@dataclass(frozen=True)
class Question:
    """A piece as it stands: its files, the shop's facts, what is measured and what is settled."""

    document: Document
    facts: ShopFacts = NO_FACTS
    record: BuildRecord = NO_RECORD
    settings: tuple[tuple[str, str], ...] = ()

    @staticmethod
    def of(
        document: Document, facts: ShopFacts, record: BuildRecord, settings: Mapping[str, str]
    ) -> Question:
        return Question(document, facts, record, tuple(settings.items()))

    def piece(self) -> Piece:
        """As it stands. Raises ResolveError."""
        return resolve(self.document, self.facts, self.record, dict(self.settings))

    def after(self, write: Write) -> Piece:
        """The piece with a write done. Raises ReadError or ResolveError."""
        settings = {name: words for name, words in self.settings if name not in write.freed}
        return resolve(reread(self.document, dict(write.files)), self.facts, self.record, settings)


def refusal(error: ReadError) -> Refused:
    """What a reading error says, without the place, which is in a text nobody has."""
    chain = f"{', '.join(error.chain)}: " if error.chain else ""
    return Refused(f"{chain}{error.message}", error.remedy)
