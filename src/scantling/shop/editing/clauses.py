"""The clauses of one line: `97 x 7 1/2 x 1, bow 3/8, for sale`. Each is changed where it stands."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from scantling.errors import Place
from scantling.piece.language.document import Scalar
from scantling.shop.editing.entries import FILE
from scantling.shop.phrases import Phrase
from scantling.shop.records import Kind, clause_words

BARE_YES = "yes"
_NUMBER = re.compile(r"[\d.½¼¾$€£]")


@dataclass(frozen=True, slots=True)
class Clause:
    """Characters `start` to `stop` of a line; `says`: the words it gives, by what they belong to."""

    start: int
    stop: int
    says: Mapping[str, str]


def clauses_of(line: str, kind: Kind) -> tuple[Clause, ...]:
    """Every clause of a line in order. Raises ReadError."""
    if not line.strip():
        return ()
    phrases = Phrase.of(Scalar(line, Place(FILE, 1, 1))).clauses()
    return tuple(_clause(phrase, kind) for phrase in phrases)


def _clause(phrase: Phrase, kind: Kind) -> Clause:
    says = {word: value.text for word, value in clause_words(phrase, kind).items()}
    return Clause(phrase.offset, phrase.offset + len(phrase.text), says)


def with_clause(line: str, kind: Kind, word: str, value: str | None) -> str:
    """The line saying `value` for `word`, in its old place if it had one; None takes the clause out."""
    clauses = clauses_of(line, kind)
    numbers = [i for i, clause in enumerate(clauses) if word in clause.says]
    if not numbers:
        return line if value is None else _added(line, clauses, kind, written(kind, word, value))
    if value is None:
        return without_clause(line, clauses, numbers[0])
    at = clauses[numbers[0]]
    return f"{line[: at.start]}{written(kind, word, value)}{line[at.stop :]}"


def written(kind: Kind, word: str, value: str) -> str:
    """One clause: bare where the word may be left out, which is before a number."""
    bare = word == kind.bare and _NUMBER.match(value)
    return value if bare else f"{word} {value}".strip()


def with_defect(line: str, words: str) -> str:
    """The line with one more defect at its end."""
    return f"{line.rstrip()}, {words}" if line.strip() else words


def defects_in(line: str, kind: Kind) -> tuple[Clause, ...]:
    """The clauses that tell defects."""
    return tuple(clause for clause in clauses_of(line, kind) if kind.gathered in clause.says)


def without_clause(line: str, clauses: tuple[Clause, ...], number: int) -> str:
    """The line without clause `number`, from 0, and one comma."""
    if len(clauses) == 1:
        return BARE_YES
    if number:
        return line[: clauses[number - 1].stop] + line[clauses[number].stop :]
    return line[: clauses[0].start] + line[clauses[1].start :]


def _added(line: str, clauses: tuple[Clause, ...], kind: Kind, clause: str) -> str:
    """A new clause goes before the defects, which are written last."""
    if not clauses or all(BARE_YES in c.says for c in clauses):
        return clause
    plain = [c for c in clauses if kind.gathered not in c.says or not kind.gathered]
    if not plain:
        return f"{clause}, {line}"
    return f"{line[: plain[-1].stop]}, {clause}{line[plain[-1].stop :]}"
