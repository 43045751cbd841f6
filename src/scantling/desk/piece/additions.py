"""What is added to a piece, from the fields of a form to the words of the language."""

from __future__ import annotations

from typing import TYPE_CHECKING

from scantling.errors import ReadError
from scantling.piece.editing import adding
from scantling.piece.editing.writes import Write

if TYPE_CHECKING:
    from scantling.desk.piece.acts import Add
    from scantling.piece import Document

SEPARATOR = ","
_LISTS = ("join", "to", "joins", "on")  # keys that may name several parts


def added(document: Document, act: Add) -> Write:
    """The piece with what the form says. Raises ReadError: a name taken, words that cannot be read."""
    said = {key: _value(key, words) for key, words in act.said if words.strip()}
    match act.what:
        case "part" | "kit":
            return adding.add_part(document, _named(act), said)
        case "joint":
            join, to = _names(said.pop("join", "")), _names(said.pop("to", ""))
            return adding.add_joint(document, join, to, str(said.pop("with", "")), said)
        case "hardware":
            return adding.add_hardware(document, _named(act), str(said.pop("kind", "")), said)
        case "work":
            return adding.add_work(document, ("parts", _named(act)), said)
        case "hold":
            return adding.add_hold(document, _named(act), said)
        case "load":
            return adding.add_load(document, said)
        case "size":
            return adding.add_size(document, _named(act), str(said.get("words", "")))
        case "material":
            return adding.add_material(document, _named(act), str(said.get("words", "")))
    raise ReadError(f'"{act.what}" is nothing that can be added')


def _named(act: Add) -> str:
    if not act.name.strip():
        raise ReadError("it needs a name", None, "write a plain word or two")
    return act.name


def _value(key: str, words: str) -> str | tuple[str, ...]:
    return _names(words) if key in _LISTS and SEPARATOR in words else words.strip()


def _names(words: str | tuple[str, ...]) -> tuple[str, ...]:
    if isinstance(words, tuple):
        return words
    return tuple(name for each in words.split(SEPARATOR) if (name := " ".join(each.split())))
