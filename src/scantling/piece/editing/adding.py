"""Add to a piece from lists, by name: parts, kits, joints, fittings, work, things held, loads."""

from __future__ import annotations

from collections.abc import Mapping

from scantling.errors import ReadError
from scantling.piece.editing.naming import put_words, quoted, section_before, told
from scantling.piece.editing.writes import Steps, Write
from scantling.piece.language import (
    Document,
    MappingNode,
    SequenceNode,
    add_entry,
    add_item,
    read_tree,
    reread,
)
from scantling.piece.language.document import as_name
from scantling.piece.language.edits import child_or_none

Said = Mapping[str, str | tuple[str, ...]]  # keys and their phrases; a tuple is a list of phrases


def add_part(document: Document, name: str, said: Said, group: Steps = ()) -> Write:
    """A part: `{"of": "case", "wide": "left to right", ...}`, or a kit: `{"kit": "drawer", "in": "opening"}`.

    `group`: the names that lead to the group it is put in. Raises ReadError: a name that is taken, or words
    that cannot be read.
    """
    what = f"{as_name(name)} is added" + (f", a {said['kit']}" if "kit" in said else "")
    return _named(document, (*group, "parts", as_name(name)), said, what)


def add_joint(
    document: Document, join: tuple[str, ...], to: tuple[str, ...], method: str, more: Said
) -> Write:
    """A joint line; `more` holds its other keys (`deep`, `glue`, ...). Raises ReadError."""
    said = {"join": _names(join), "to": _names(to), "with": method, **more}
    return _line(document, "joints", said, f"{', '.join(join)} joined to {', '.join(to)} with {method}")


def add_hardware(document: Document, name: str, kind: str, said: Said) -> Write:
    """A fitting: `said` holds `joins`, `to` or `under`, and what else there is to say. Raises ReadError."""
    return _named(document, ("hardware", as_name(name)), {"kind": kind, **said}, f"{name} is added: {kind}")


def add_work(document: Document, part: Steps, said: Said) -> Write:
    """One item of machining on a part, by the names that lead to it. Raises ReadError."""
    what = f"{told(part)}: {' '.join((*said, *_first(said)))} is added"
    path = (*part, "work")
    return _listed(document, path, _braced(said), what)


def add_hold(document: Document, name: str, said: Said) -> Write:
    """A thing to be held: its sizes, its mass and what it stands on. Raises ReadError."""
    return _named(document, ("holds", as_name(name)), said, f"{as_name(name)} is to be held")


def add_load(document: Document, said: Said) -> Write:
    """A load: `{"rest": "40 lb", "on": "top"}`. Raises ReadError."""
    return _line(document, "loads", said, f"a load is added: {' '.join((*_keys(said)[:1], *_first(said)))}")


def add_size(document: Document, name: str, words: str) -> Write:
    """A named size. Raises ReadError."""
    return _checked(document, ("sizes", as_name(name)), words, f"{as_name(name)} is {words}")


def add_material(document: Document, name: str, words: str) -> Write:
    """A named material. Raises ReadError."""
    return _checked(document, ("materials", as_name(name)), words, f"{as_name(name)} is {words}")


def _names(names: tuple[str, ...]) -> str | tuple[str, ...]:
    return names[0] if len(names) == 1 else names


def _keys(said: Said) -> tuple[str, ...]:
    return tuple(said)


def _first(said: Said) -> tuple[str, ...]:
    value = next(iter(said.values()), "")
    return (value,) if isinstance(value, str) else value


def _braced(said: Said) -> str:
    inner = (f"{key}: {_value(words)}" for key, words in said.items())
    return f"{{{', '.join(inner)}}}"


def _value(words: str | tuple[str, ...]) -> str:
    return quoted(words) if isinstance(words, str) else f"[{', '.join(quoted(one) for one in words)}]"


def _named(document: Document, path: Steps, said: Said, what: str) -> Write:
    return _checked(document, path, _braced(said), what)


def _checked(document: Document, path: Steps, value: str, what: str) -> Write:
    there = child_or_none(document.root, path)
    if there is not None:
        raise ReadError(f'"{path[-1]}" is there already', there.place, "give it another name")
    return _readable(document, put_words(document.text, document.file, path, value), what)


def _line(document: Document, section: str, said: Said, what: str) -> Write:
    return _listed(document, (section,), _braced(said), what)


def _listed(document: Document, path: Steps, value: str, what: str) -> Write:
    """One more item of a list of the piece's own file; the list is begun where there is none."""
    text, file = document.text, document.file
    node = child_or_none(document.own, path)
    if isinstance(node, SequenceNode):
        return _readable(document, add_item(text, file, path, value), what)
    if isinstance(node, MappingNode) and node.flow:
        start, end = node.raw
        return _readable(document, f"{text[:start]}[{text[start:end]}, {value}]{text[end:]}", what)
    if node is not None:
        raise ReadError(f"{told(path)} is no list", node.place, "put `- ` before it in the text")
    if len(path) == 1:
        after = section_before(read_tree(text, file), path[0])
        return _readable(document, add_entry(text, file, (), path[0], f"[{value}]", after), what)
    return _readable(document, put_words(text, file, path, f"[{value}]"), what)


def _readable(document: Document, text: str, what: str) -> Write:
    files = ((document.file, text),)
    reread(document, dict(files))
    return Write(files, what)
