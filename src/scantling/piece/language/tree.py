"""Text to a tree of nodes with exact places: YAML with every scalar read as text.

Refused, because they mean more than they show: anchors, aliases, merge keys, tags, a key twice, tabs,
several documents. Bounded in size, depth and number of entries.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from functools import lru_cache

import yaml

from scantling.errors import Place, ReadError
from scantling.piece.language.document import Entry, MappingNode, Node, Scalar, SequenceNode
from scantling.piece.language.runs import runs_of
from scantling.piece.language.slips import empty_value, index_of, lost_gauge, place_of_mark, said_plainly
from scantling.quantity import LengthUnit

MOST_CHARACTERS = 1_000_000
MOST_NODES = 20_000
DEEPEST = 16
LONGEST_SCALAR = 5_000

_HIDDEN = re.compile("[\t\x85\u200b-\u200f\u2028-\u202e\u2060\ufeff]")
_LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
_OPENS = (yaml.MappingStartEvent, yaml.SequenceStartEvent)
_CLOSES = (yaml.MappingEndEvent, yaml.SequenceEndEvent)


@lru_cache(maxsize=64)
def read_tree(text: str, file: str, unit: LengthUnit = LengthUnit.INCHES) -> MappingNode:
    """The entries of a file as a tree.

    `file` is its name in places; `unit` stands for bare numbers unless the file says `units`.
    Raises ReadError, with the place, for anything that cannot be read.
    """
    events = _events(text, file)
    return _Builder(text, file, _unit_said(events, file) or unit, events).whole()


def says_units(root: MappingNode) -> bool:
    """Whether the file says the unit of its bare numbers."""
    return "units" in root


def unit_named(word: str) -> LengthUnit | None:
    """`inches` or `mm`."""
    return next((unit for unit in LengthUnit if unit.value == word.strip().lower()), None)


def _events(text: str, file: str) -> list[yaml.Event]:
    _refuse_unreadable(text, file)
    events: list[yaml.Event] = []
    depth = 0
    try:
        for event in yaml.parse(text, Loader=_LOADER):
            depth += isinstance(event, _OPENS) - isinstance(event, _CLOSES)
            _check_bounds(event, depth, len(events), file)
            _refuse_hidden_meaning(event, file)
            events.append(event)
    except yaml.YAMLError as error:
        raise said_plainly(error, text, file) from None
    return events


def _refuse_unreadable(text: str, file: str) -> None:
    if len(text) > MOST_CHARACTERS:
        raise ReadError(
            f"the file has {len(text):,} characters; at most {MOST_CHARACTERS:,} are read", Place(file, 1, 1)
        )
    if found := _HIDDEN.search(text):
        at = found.start()
        name = "a tab" if found[0] == "\t" else "a character that cannot be seen"
        line, character = text.count("\n", 0, at) + 1, at - text.rfind("\n", 0, at)
        raise ReadError(f"{name} stands here", Place(file, line, character), "use spaces")


def _check_bounds(event: yaml.Event, depth: int, count: int, file: str) -> None:
    if depth > DEEPEST:
        message, remedy = f"entries are nested more than {DEEPEST} deep", "use parts and kits of their own"
    elif count > MOST_NODES:
        message, remedy = f"the file has more than {MOST_NODES:,} entries", "split it into kits"
    elif isinstance(event, yaml.ScalarEvent) and len(event.value) > LONGEST_SCALAR:
        message, remedy = f"these words are more than {LONGEST_SCALAR:,} characters long", ""
    else:
        return
    raise ReadError(message, place_of_mark(event.start_mark, file), remedy)


def _refuse_hidden_meaning(event: yaml.Event, file: str) -> None:
    if isinstance(event, yaml.AliasEvent):
        message, remedy = "`*` begins a hidden repeat here", "write a formula as `2 * size`; use `same as`"
    elif getattr(event, "anchor", None):
        message, remedy = "`&` begins a hidden mark here", "write the words out; use `same as`, `copies`"
    elif getattr(event, "tag", None):
        message, remedy = "`!` begins a hidden type here", "write plain words"
    elif isinstance(event, yaml.ScalarEvent) and event.value == "<<" and not event.style:
        message, remedy = "`<<` would copy entries unseen", "use `follows`, `copies` or a kit"
    else:
        return
    raise ReadError(message, place_of_mark(event.start_mark, file), remedy)


def _unit_said(events: list[yaml.Event], file: str) -> LengthUnit | None:
    depth, expects_value = 0, False
    for event in events:
        if depth == 1 and isinstance(event, yaml.ScalarEvent):
            if expects_value:
                return _unit_or_error(event, file)
            expects_value = event.value.strip().lower() == "units"
        depth += isinstance(event, _OPENS) - isinstance(event, _CLOSES)
    return None


def _unit_or_error(event: yaml.ScalarEvent, file: str) -> LengthUnit:
    unit = unit_named(event.value)
    if unit is None:
        raise ReadError(
            f'"{event.value}" is no unit of this language',
            place_of_mark(event.start_mark, file),
            "write inches or mm",
        )
    return unit


@dataclass
class _Builder:
    """Events to nodes, in one walk."""

    text: str
    file: str
    unit: LengthUnit
    events: list[yaml.Event]
    at: int = field(default=0)

    def whole(self) -> MappingNode:
        starts = [e for e in self.events if isinstance(e, yaml.DocumentStartEvent)]
        if not starts:
            raise ReadError("the file is empty", Place(self.file, 1, 1), "begin with `piece: its name`")
        if len(starts) > 1:
            raise ReadError(
                "a second document begins here",
                self._place(starts[1]),
                "one file holds one piece; take out `---`",
            )
        self.at = self.events.index(starts[0]) + 1
        root = self._node()
        if not isinstance(root, MappingNode):
            raise ReadError(
                "a file is made of `key: phrase` lines", root.place, "begin with `piece: its name`"
            )
        return root

    def _take(self) -> yaml.Event:
        self.at += 1
        return self.events[self.at - 1]

    def _node(self) -> Node:
        event = self._take()
        if isinstance(event, yaml.MappingStartEvent):
            return self._mapping(event)
        if isinstance(event, yaml.SequenceStartEvent):
            return self._sequence(event)
        assert isinstance(event, yaml.ScalarEvent)
        if not event.value and not event.style:
            raise empty_value(self.text, event, self.file)
        return self._scalar(event)

    def _sequence(self, start: yaml.SequenceStartEvent) -> SequenceNode:
        items: list[Node] = []
        while not isinstance(self.events[self.at], yaml.SequenceEndEvent):
            items.append(self._node())
        return SequenceNode(tuple(items), self._place(start), self._raw(start), bool(start.flow_style))

    def _mapping(self, start: yaml.MappingStartEvent) -> MappingNode:
        entries: dict[str, Entry] = {}
        while not isinstance(self.events[self.at], yaml.MappingEndEvent):
            entry = self._entry()
            if earlier := entries.get(entry.name):
                raise ReadError(
                    f"`{entry.name}` is written twice",
                    entry.key.place,
                    f"first in line {earlier.key.place.line}; keep one",
                )
            entries[entry.name] = entry
        return MappingNode(
            tuple(entries.values()), self._place(start), entries, self._raw(start), bool(start.flow_style)
        )

    def _raw(self, start: yaml.CollectionStartEvent) -> tuple[int, int]:
        return index_of(start.start_mark), index_of(self._take().end_mark)

    def _entry(self) -> Entry:
        event = self._take()
        if not isinstance(event, yaml.ScalarEvent):
            raise ReadError("a key must be plain words", self._place(event), "write `key: phrase`")
        if not event.value.strip():
            raise ReadError("a key is wanted before the colon", self._place(event), "write `key: phrase`")
        key = self._scalar(event)
        value = self.events[self.at]
        if isinstance(value, yaml.ScalarEvent) and not value.value and not value.style:
            raise empty_value(self.text, value, self.file, event)
        return Entry(key, self._node())

    def _scalar(self, event: yaml.ScalarEvent) -> Scalar:
        start, end = index_of(event.start_mark), index_of(event.end_mark)
        line, character = self._place(event).line, self._place(event).character
        if self.text[start:end] == event.value:
            place = Place(self.file, line, character, end - start)
            if slip := lost_gauge(self.text, end, place.moved(end - start)):
                raise slip
            return Scalar(event.value, place, self.unit, raw=(start, end))
        if self.text[start + 1 : end - 1] == event.value and "\n" not in event.value:
            place = Place(self.file, line, character + 1, max(1, end - start - 2))
            return Scalar(event.value, place, self.unit, raw=(start, end))
        if event.style in ("|", ">"):
            end = start + len(self.text[start:end].rstrip())
        breaks = runs_of(self.text, start, end, event, line, character)
        first = self.text[start:end].splitlines()[0]
        place = Place(self.file, breaks[0][1], breaks[0][2], max(1, len(first)))
        return Scalar(event.value, place, self.unit, breaks, (start, end))

    def _place(self, event: yaml.Event) -> Place:
        return place_of_mark(event.start_mark, self.file)
