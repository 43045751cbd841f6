"""A kit opened where it is used: its parts become a group of the same names in the maker's own file."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from scantling.errors import ReadError
from scantling.piece.editing.alike import alike
from scantling.piece.editing.finding import tree_of
from scantling.piece.editing.naming import put_words, told
from scantling.piece.editing.opening.contents import Opened, entries, joints_of, named_of, parts_of
from scantling.piece.editing.opening.words import Reading
from scantling.piece.editing.writes import Question, Refused, Steps, Write, refusal
from scantling.piece.language import Document, MappingNode, Node, SequenceNode, add_item
from scantling.piece.language.edits import child_or_none, end_of
from scantling.piece.language.part_keys import KEYS_OF_A_USE
from scantling.piece.language.tree import read_tree
from scantling.piece.model import Part, Piece
from scantling.piece.resolve.steps import Quarter
from scantling.piece.resolve.tree import KIT, Family, Scope
from scantling.piece.resolve.whole import Worked

_CARRIED = (
    *("piece", "note", "units", "sizes", "choices", "materials"),
    *("parts", "joints", "hardware", "movements"),
)


def open_kit(question: Question, path: Steps) -> Write | Refused:
    """The kit used under `path` (`("parts", "tray")`) pasted as a group with the same names.

    Its settings' words stand in their places, its joint lines come before the maker's, so that theirs still
    win. Refused, with the reason, where parts, joints or movements would not be the very same.
    """
    document = question.document
    try:
        family = _family(tree_of(question), path)
        if family is None:
            return Refused(f'no kit is used as "{told(path)}"')
        reason = _why_not(document, family, path)
        if reason:
            return Refused(reason, "copy what you need by hand")
        text = _written(document, path, _opened(document, family, path))
        what = f"the kit of {told(path)} is opened: its parts stand in this file now"
        write = Write(((document.file, text),), what)
        differs = _difference(question.piece(), question.after(write))
        return Refused(f"the piece would not be the same: {differs}") if differs else write
    except ReadError as error:
        return refusal(error)


def _family(worked: Worked, path: Steps) -> Family | None:
    """The use of a kit by the names that lead to it."""
    scope: Scope | None = worked.root
    family: Family | None = None
    for name in path[1::2]:
        family = scope.families.get(name) if scope else None
        copies = family.copies() if family else ()
        scope = copies[0].thing.contents if copies else None
    return family if family is not None and family.kind == KIT and family.copies() else None


def _why_not(document: Document, family: Family, path: Steps) -> str:
    kit = _inside(family)
    node = child_or_none(document.own, path)
    more = [entry.name for entry in kit.node if entry.name not in _CARRIED]
    if not isinstance(node, MappingNode) or "kit" not in node:
        return f"{told(path)} stands in a followed file"
    if more:
        return f"the kit also holds {', '.join(more)}, which stand in no group"
    moves = entries(kit.node, "movements") or entries(kit.node, "hardware")
    turned = isinstance(kit.facing, Quarter) and moves
    return "it is turned, and moves as seen from its own front" if turned else ""


def _inside(family: Family) -> Scope:
    scope = family.copies()[0].thing.contents
    assert scope is not None
    return scope


def _opened(document: Document, family: Family, path: Steps) -> Opened:
    reading = Reading(_inside(family), document.unit)
    use = " ".join(name for name in path[1:] if name != "parts")
    return Opened(
        tuple(parts_of(reading)),
        tuple(joints_of(replace(reading, prefix=use, own_box=True))),
        tuple(_each(document, family, use, "hardware", "hardware")),
        tuple(_each(document, family, use, "movements", "movement")),
    )


def _each(
    document: Document, family: Family, use: str, section: str, table: str
) -> Iterator[tuple[str, str]]:
    """Fittings or movements, once for each copy of the kit, named by the use as `resolve` names them."""
    outer = use.removesuffix(family.name)
    for copy in family.copies():
        assert copy.thing.contents is not None
        name = f"{outer}{copy.called}"
        reading = Reading(copy.thing.contents, document.unit, prefix=name, own_box=True)
        found = list(named_of(reading, section, table))
        for own, said in found:
            alone = section == "movements" and len(found) == 1
            whole = name if alone else f"{name} {own}"
            if child_or_none(document.root, (section, whole)) is None:
                yield whole, said


def _written(document: Document, path: Steps, opened: Opened) -> str:
    text = _with_group(document, path, opened)
    text = _with_joints(document, text, opened.joints)
    for section, added in (("hardware", opened.hardware), ("movements", opened.movements)):
        for name, said in added:
            text = put_words(text, document.file, (section, name), said)
    return text


def _with_group(document: Document, path: Steps, opened: Opened) -> str:
    """The use's own keys kept as they are, its parts a line each."""
    text, node = document.text, child_or_none(document.own, path)
    assert isinstance(node, MappingNode)
    kept = [
        f"{entry.name}: {text[_start(entry.value) : end_of(entry.value)]}"
        for entry in node
        if entry.name in KEYS_OF_A_USE and entry.name != "kit"
    ]
    parts = [f"{name}: {said}" for name, said in opened.parts]
    around = child_or_none(document.own, path[:-1])
    if isinstance(around, MappingNode) and around.flow:
        inner = ", ".join(parts)
        group = f"{{{', '.join([*kept, f'parts: {{{inner}}}'])}}}"
    else:
        group = _lines(text, around, [*kept, "parts:", *(f"  {part}" for part in parts)])
    start, end = _extent(text, node)
    return text[:start].rstrip(" ") + (" " if group.startswith("{") else "") + group + text[end:]


def _lines(text: str, around: Node | None, lines: list[str]) -> str:
    assert around is not None
    newline = "\r\n" if "\r\n" in text else "\n"
    indent = newline + " " * (around.place.character + 1)
    return "".join(f"{indent}{line}" for line in lines)


def _extent(text: str, node: MappingNode) -> tuple[int, int]:
    """The characters a use takes, from after the colon of its key."""
    if node.flow:
        return node.raw
    start = node.entries[0].key.raw[0]
    colon = text.rindex(":", 0, start) + 1
    return colon, end_of(node)


def _start(node: Node) -> int:
    return node.raw[0]


def _with_joints(document: Document, text: str, lines: tuple[str, ...]) -> str:
    there = isinstance(read_tree(text, document.file).get("joints"), SequenceNode)
    if lines and not there:
        return put_words(text, document.file, ("joints",), f"[{', '.join(lines)}]")
    for line in reversed(lines):
        text = add_item(text, document.file, ("joints",), line, first=True)
    return text


def _looks(part: Part) -> tuple[object, ...]:
    """What a part is, whatever the words: its box, its wood, its shape and what is cut into it."""
    wood = part.material
    made = (part.rings, part.shape, part.work, part.built, part.show)
    return (part.box, wood.kind, wood.species, wood.thick, wood.broad, part.grain, *made)


def _difference(before: Piece, after: Piece) -> str:
    """What is not the same; "" where all is."""
    if [part.name for part in before.parts] != [part.name for part in after.parts]:
        return "its parts would go by other names"
    for was, now in zip(before.parts, after.parts, strict=True):
        if not alike(_looks(was), _looks(now)):
            return f"{was.name} would be another"
    joints = [
        {(j.first, j.second): (j.method, j.settings) for j in piece.joints} for piece in (before, after)
    ]
    for pair in {**joints[0], **joints[1]}:
        if not alike(joints[0].get(pair), joints[1].get(pair)):
            return f"the joint of {pair[0]} to {pair[1]} would be another"
    moves = [{m.name: (m.moves, m.motion) for m in piece.movements} for piece in (before, after)]
    same = moves[0].keys() == moves[1].keys() and all(alike(moves[0][m], moves[1][m]) for m in moves[0])
    return "" if same else "its movements would be others"
