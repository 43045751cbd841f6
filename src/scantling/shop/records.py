"""From nodes to checked entries: a line or a mapping becomes a record of phrases, then passes its door.

A line is clauses between commas. The first may be bare (`97 x 7 1/2 x 1`); every other starts with the
word it belongs to (`bow 1/2`). A mapping says the same with keys.
"""

from __future__ import annotations

import difflib
import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import TypeVar, get_origin

from pydantic import ValidationError

from scantling.errors import Place, ReadError
from scantling.piece.language.document import MappingNode, Node, Scalar, SequenceNode, as_scalar
from scantling.quantity.kinds import LengthUnit
from scantling.shop.door import Door
from scantling.shop.phrases import Phrase
from scantling.shop.words import AmissError

Record = dict[str, Phrase | list[Phrase]]
Rewrite = Callable[[Phrase], Mapping[str, Phrase] | None]
D = TypeVar("D", bound=Door)


@dataclass(frozen=True)
class Kind:
    """What one sort of entry may say.

    `bare`: the field a clause without a leading word fills. `rewrite`: clauses with a meaning of their
    own ("4/4 rough"). `gathered`: the field that takes clauses starting with one of `starts`.
    """

    what: str
    door: type[Door]
    example: str
    bare: str = ""
    rewrite: Rewrite | None = None
    gathered: str = ""
    starts: tuple[str, ...] = ()

    @property
    def words(self) -> tuple[str, ...]:
        fields = self.door.model_fields
        return tuple(field.alias or name for name, field in fields.items())


def record_of(node: Node, kind: Kind) -> Record:
    """The phrases of a line or a mapping, by the word they belong to."""
    if isinstance(node, MappingNode):
        return _mapping_record(node)
    return line_record(Phrase.of(as_scalar(node, kind.what)), kind)


def _mapping_record(node: MappingNode) -> Record:
    return {entry.name: _value(entry.value, entry.name) for entry in node}


def _value(node: Node, name: str) -> Phrase | list[Phrase]:
    if isinstance(node, SequenceNode):
        return [Phrase.of(as_scalar(item, name)) for item in node]
    return Phrase.of(as_scalar(node, name))


def line_record(line: Phrase, kind: Kind) -> Record:
    """The clauses of a line, by the word each belongs to."""
    record: Record = {}
    for clause in line.clauses() if line.text else ():
        for word, value in clause_words(clause, kind).items():
            _put(record, word, value, kind)
    return record


def _put(record: Record, word: str, value: Phrase, kind: Kind) -> None:
    if word == kind.gathered:
        gathered = record.setdefault(word, [])
        assert isinstance(gathered, list)
        gathered.append(value)
    elif word in record:
        raise ReadError(f'"{word}" is said twice for {kind.what}', value.place(), "say it once")
    else:
        record[word] = value


def clause_words(clause: Phrase, kind: Kind) -> Mapping[str, Phrase]:
    """What one clause says, by the word each belongs to: `4/4 rough` says two things."""
    if not clause.text:
        raise ReadError("there is nothing between two commas", clause.place(), "take one comma out")
    if kind.rewrite and (rewritten := kind.rewrite(clause)):
        return rewritten
    if _starts_with(clause.text, kind.starts):
        return {kind.gathered: clause}
    if word := _starts_with(clause.text, kind.words):
        return {word: clause.after(len(word))}
    if kind.bare and re.match(r"[\d.½¼¾$€£]", clause.text):
        return {kind.bare: clause}
    unknown = re.match(r"\D*", clause.text)
    word = unknown[0].strip().lower() if unknown and unknown[0].strip() else clause.text
    return {word: clause}


def _starts_with(text: str, words: Iterable[str]) -> str:
    """The longest of `words` that `text` starts with, as a whole word."""
    low = text.lower()
    fitting = [w for w in words if re.match(re.escape(w) + r"(?![\w-])", low)]
    return max(fitting, key=len, default="")


def checked(record: Record, kind: Kind, door: type[D], unit: LengthUnit, place: Place) -> D:
    """The record as its model; a ReadError at the words that will not do."""
    _refuse_lists(record, kind, door, place)
    plain = {word: _plain(value) for word, value in record.items()}
    try:
        return door.model_validate(plain, context=unit)
    except ValidationError as error:
        raise _read_error(error, record, kind, place) from None


def _refuse_lists(record: Record, kind: Kind, door: type[Door], place: Place) -> None:
    """A list only where several things may be said."""
    fields = door.model_fields.items()
    lists = {field.alias or name for name, field in fields if get_origin(field.annotation) is tuple}
    for word, value in record.items():
        if isinstance(value, list) and word in kind.words and word not in lists:
            where = value[0].place() if value else place
            raise ReadError(f'"{word}" wants one thing, not a list', where, f"such as {kind.example}")


def _plain(value: Phrase | list[Phrase]) -> str | tuple[str, ...]:
    return tuple(phrase.text for phrase in value) if isinstance(value, list) else value.text


def _read_error(error: ValidationError, record: Record, kind: Kind, place: Place) -> ReadError:
    first = min(error.errors(), key=lambda found: found["type"] == "missing")  # a slip explains a lack
    word = str(first["loc"][0]) if first["loc"] else ""
    if first["type"] == "missing":
        return ReadError(f'{kind.what} needs "{word}"', place, f"write {kind.example}")
    said = record[word]
    if not said:
        return ReadError(f'"{word}" lists nothing', place, f"such as {kind.example}")
    phrase = said if isinstance(said, Phrase) else said[0]
    if first["type"] == "extra_forbidden":
        return ReadError(f'{kind.what} knows no "{word}"', phrase.place(), nearest(word, _known(kind)))
    amiss = first.get("ctx", {}).get("error")
    if isinstance(amiss, AmissError):
        return ReadError(f"{word}: {amiss.message}", phrase.place(amiss.at), f"such as {kind.example}")
    return ReadError(f'"{phrase.text}" will not do for {word}', phrase.place(), f"such as {kind.example}")


def _known(kind: Kind) -> tuple[str, ...]:
    return tuple(word for word in (*kind.words, *kind.starts) if word not in (kind.bare, kind.gathered))


def nearest(word: str, known: Iterable[str]) -> str:
    """`did you mean ...?`, or all the words known."""
    words = list(known)
    close = difflib.get_close_matches(word, words, n=1, cutoff=0.6)
    return f'did you mean "{close[0]}"?' if close else f"known are {', '.join(words)}"


def named_entries(node: Node, what: str) -> tuple[tuple[Scalar, Node], ...]:
    """The entries of a section, key and value."""
    if not isinstance(node, MappingNode):
        raise ReadError(f"{what} wants `name: ...` entries", node.place)
    return tuple((entry.key, entry.value) for entry in node)
