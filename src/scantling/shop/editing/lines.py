"""Where each line of a section stands, what it says word by word, and how one word of it is said anew.

A line is a phrase of clauses or entries with keys; both are read and changed alike.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from scantling.errors import ReadError
from scantling.piece.language.document import MappingNode, Node, Scalar, SequenceNode, as_name
from scantling.piece.language.edits import add_entry, add_item, replace_scalar
from scantling.shop.boards import BOARD, TIMBER
from scantling.shop.editing import clauses as phrase
from scantling.shop.editing.entries import (
    FILE,
    Path,
    entry_at,
    names_of,
    put,
    say,
    take_out,
    take_out_item,
    tree_of,
)
from scantling.shop.fittings import FITTING, SUPPLY
from scantling.shop.floor import CLAMP, MACHINE
from scantling.shop.phrases import Phrase
from scantling.shop.records import Kind, record_of
from scantling.shop.rows import heading, rows
from scantling.shop.sheets import LUMBER, SHEET

KINDS: Mapping[str, Kind] = {
    "boards": BOARD,
    "sheets": SHEET,
    "lumber": LUMBER,
    "for sale": TIMBER,
    "machines": MACHINE,
    "clamps": CLAMP,
    "hardware": FITTING,
    "supplies": SUPPLY,
}
GROUPED = ("boards", "sheets", "lumber", "hardware")


@dataclass(frozen=True, slots=True)
class Line:
    """One entry of a section.

    `path` leads to it, `at` is the line and character of its name; `label` is that name, "" where its
    group's stands for it; `group` is its heading as written. `said`: words it says itself; `shared`: those
    its heading says for it.
    """

    section: str
    path: Path
    at: tuple[int, int]
    group: str
    label: str
    said: Mapping[str, str]
    shared: Mapping[str, str]
    defects: tuple[str, ...] = ()

    @property
    def kind(self) -> Kind:
        return KINDS[self.section]

    def words(self, word: str) -> str | None:
        return self.said.get(word, self.shared.get(word))


def lines_of(text: str, section: str) -> tuple[Line, ...]:
    """Every line of a section in order of writing, none if the section is not there. Raises ReadError."""
    node = tree_of(text).get(section)
    if not isinstance(node, MappingNode):
        return ()
    found: list[Line] = []
    for entry in node:
        if section in GROUPED:
            found.extend(_grouped(section, entry.key, entry.value))
        else:
            found.append(_line(section, (section, entry.name), entry.key, entry.value))
    return tuple(found)


def line_at(text: str, path: Path) -> Line:
    """The line the names lead to. Raises ReadError if it is not there any more."""
    names = names_of(path)
    for line in lines_of(text, names[0]):
        if line.path == names:
            return line
    entry_at(tree_of(text), names)
    raise ReadError(f'"{path[-1]}" is a heading, not a line', tree_of(text).place, "load the page again")


def _grouped(section: str, key: Scalar, value: Node) -> list[Line]:
    own = (section, as_name(key.text))
    name, kind = key.text.strip(), KINDS[section]
    found = []
    for label, node in rows(key, value, name, kind):
        shared = _shared(key, kind)
        if node is value:
            line = _line(section, own, key, node, shared)
            found.append(replace(line, group=name, label=""))
        else:
            line = _line(section, (*own, as_name(label.text)), label.scalar, node, shared)
            found.append(replace(line, group=name))
    return found


def _shared(key: Scalar, kind: Kind) -> dict[str, str]:
    if kind is not BOARD:
        return {}
    record = heading(key, kind)[1]
    return {word: said.text for word, said in record.items() if isinstance(said, Phrase)}


def _line(section: str, path: Path, key: Scalar, node: Node, shared: Mapping[str, str] | None = None) -> Line:
    record = record_of(node, KINDS[section])
    said = {word: value.text for word, value in record.items() if isinstance(value, Phrase)}
    gathered = KINDS[section].gathered
    lists = record.get(gathered, ())
    defects = (lists.text,) if isinstance(lists, Phrase) else tuple(each.text for each in lists)
    said.pop(gathered, None)
    at = (key.place.line, key.place.character)
    return Line(section, path, at, "", key.text.strip(), said, shared or {}, defects)


def with_word(text: str, line: Line, word: str, value: str | None) -> str:
    """`text` with the line saying `value` for `word`; None takes the word out."""
    node = entry_at(tree_of(text), line.path).value
    if isinstance(node, Scalar):
        new = phrase.with_clause(node.text, line.kind, word, value)
        return say(text, line.path, new) if new != node.text else text
    if value is None:
        return take_out(text, (*line.path, word)) if word in line.said else text
    if word in line.said:
        return say(text, (*line.path, word), value or "yes")
    return put(text, (*line.path, word), value or "yes")


def with_defects(text: str, line: Line, defects: tuple[str, ...]) -> str:
    """`text` with just these defects on the line; those that stay are left as they stand."""
    for number in range(len(line.defects), 0, -1):
        if number > len(defects):
            text = without_defect(text, line.path, number)
        elif defects[number - 1] != line.defects[number - 1]:
            text = with_defect(text, line.path, number, defects[number - 1])
    for words in defects[len(line.defects) :]:
        text = with_one_more(text, line.path, words)
    return text


def with_defect(text: str, path: Path, number: int, words: str) -> str:
    """`text` with defect `number`, from 1, said anew."""
    node = entry_at(tree_of(text), path).value
    if isinstance(node, Scalar):
        at = phrase.defects_in(node.text, line_at(text, path).kind)[number - 1]
        return say(text, path, f"{node.text[: at.start]}{words}{node.text[at.stop :]}")
    listed = entry_at(tree_of(text), (*path, "defects")).value
    assert isinstance(listed, SequenceNode)  # `read_shop_text` refuses any other
    return replace_scalar(text, listed.items[number - 1].place, words)


def without_defect(text: str, path: Path, number: int) -> str:
    """`text` without defect `number`, from 1."""
    node = entry_at(tree_of(text), path).value
    if not isinstance(node, Scalar):
        return take_out_item(text, (*path, "defects"), number)
    kind = line_at(text, path).kind
    clauses = phrase.clauses_of(node.text, kind)
    at = phrase.defects_in(node.text, kind)[number - 1]
    return say(text, path, phrase.without_clause(node.text, clauses, clauses.index(at)))


def with_one_more(text: str, path: Path, words: str) -> str:
    """`text` with a defect more at the end of the line."""
    node = entry_at(tree_of(text), path).value
    if isinstance(node, Scalar):
        return say(text, path, phrase.with_defect(node.text, words))
    names = names_of(path)
    if isinstance(node, MappingNode) and "defects" in node:
        return add_item(text, FILE, (*names, "defects"), words)
    return add_entry(text, FILE, names, "defects", f"[{words}]")
