"""What each kit makes, in tables written from the kits' own files for the manual.

Run as `python -m scantling.piece.language.kit_pages` to print them.
"""

from __future__ import annotations

import sys
from collections.abc import Iterable, Iterator

from scantling.piece.language.document import Document, Entry, MappingNode, Node, Scalar
from scantling.piece.language.files import house_kit, house_kit_names

_SPANS = ("wide", "deep", "high")
_MOVES = ("slides", "swings", "lifts", "turns")


def kit_pages() -> str:
    """Every kit of the house: what may be said, which parts it makes and how they move. Markdown."""
    return "\n\n".join(_page(name, house_kit(name)) for name in house_kit_names()) + "\n"


def _page(name: str, kit: Document) -> str:
    lines = [f"### The kit `{name}`", f"{_sentence(_text(kit.root, 'note'))}\n", *_said(kit.root), ""]
    lines += ["| part | of | wide | deep | high |", "|---|---|---|---|---|"]
    lines += [_row(entry) for entry in _entries(kit.root.get("parts"))]
    moves = [_move(entry) for entry in _entries(kit.root.get("movements"))]
    return "\n".join([*lines, *(["", *moves] if moves else [])])


def _sentence(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}."


def _said(root: MappingNode) -> Iterator[str]:
    """The settings a use may give, each with what stands if it says nothing."""
    given = [f"`{e.name}`" for e in _entries(root.get("materials")) if _words(e.value) == "given"]
    yield f"- to be given: {', '.join(given)}"
    kept = [_setting(e) for e in _entries(root.get("materials")) if _words(e.value) != "given"]
    if kept:
        yield f"- materials: {', '.join(kept)}"
    yield f"- sizes: {', '.join(map(_setting, _entries(root.get('sizes'))))}"
    choices = [_setting(entry) for entry in _entries(root.get("choices"))]
    if choices:
        yield f"- choices, the first stands: {', '.join(choices)}"


def _setting(entry: Entry) -> str:
    return f"`{entry.name}: {_words(entry.value)}`"


def _row(entry: Entry) -> str:
    part = entry.value
    assert isinstance(part, MappingNode)
    copies = part.get("copies")
    if isinstance(copies, MappingNode):
        copied = f", a row {_text(copies, 'row')}"
    else:
        copied = f", {_words(copies)}" if copies is not None else ""
    cells = (f"{entry.name}{copied}", *(f"`{_text(part, key)}`" for key in ("of", *_SPANS)))
    return f"| {' | '.join(cells)} |"


def _move(entry: Entry) -> str:
    moves = entry.value
    assert isinstance(moves, MappingNode)
    how = next(f"{way} `{_text(moves, way)}`" for way in _MOVES if way in moves)
    about, when = _text(moves, "about"), _text(moves, "when")
    return f"It {how}{f' about `{about}`' if about else ''}{f' when `{when}`' if when else ''}.  "


def _entries(node: Node | None) -> Iterable[Entry]:
    return node.entries if isinstance(node, MappingNode) else ()


def _text(node: MappingNode, key: str) -> str:
    return _words(node.get(key))


def _words(node: Node | None) -> str:
    return " ".join(node.text.split()) if isinstance(node, Scalar) else ""


def main() -> None:
    """Print the tables."""
    sys.stdout.write(kit_pages())


if __name__ == "__main__":
    main()
