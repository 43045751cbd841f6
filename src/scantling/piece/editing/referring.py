"""What each phrase of a piece refers to: sizes, choices, materials, parts and their spans, spaces, fittings.

Names are looked up as `resolve` looks them up.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from scantling.piece.editing.finding import key_of, path_of, tree_of
from scantling.piece.editing.phrased import Phrased, phrases_of, words_in
from scantling.piece.editing.writes import Question, Steps
from scantling.piece.language import MappingNode, Scalar
from scantling.piece.language.edits import child_or_none
from scantling.piece.language.phrases import (
    Between,
    EdgeOf,
    FaceOf,
    Is,
    Name,
    OwnSize,
    SameAs,
    SizeOf,
    Target,
)
from scantling.piece.model import Axis
from scantling.piece.resolve import choices, materials, named, names
from scantling.piece.resolve.faces import FACE_OF_WORD
from scantling.piece.resolve.tree import GROUP, KIT, PART, SPACE, Family, Scope, Seen

AXIS_OF_SIZE = {"width": Axis.WIDE, "depth": Axis.DEEP, "height": Axis.HIGH}
AXES = tuple(axis.word for axis in Axis)
_THING, _SIZE, _MATERIAL, _ASKED, _CHOICE, _SETTING = (
    "thing",
    "size",
    "material",
    "asked",
    "choice",
    "setting",
)
_ROLE_OF_KIND = {"name": _THING, "material or its name": _MATERIAL, "setting": _SETTING}
_SECTION_NAMED = {
    ("movements", "after"): "movements",
    ("movements", "rides on"): "movements",
    ("movements", "on"): "hardware",
    ("loads", "in"): "poses",
}


@dataclass(frozen=True, slots=True)
class Reference:
    """One key of the piece and the keys it refers to.

    `scalar` holds the words; None for what is not written: a part made of the first material.
    """

    path: Steps
    scalar: Scalar | None
    to: frozenset[Steps]


def references_of(question: Question) -> tuple[Reference, ...]:
    """Every reference of the piece's own words, those of followed files included. Raises ResolveError."""
    root = tree_of(question).root
    written = [
        Reference(phrase.path, phrase.scalar, frozenset(_Phrase(root, phrase).all()))
        for phrase in phrases_of(question.document)
    ]
    return tuple(one for one in (*written, *_of_first_material(root)) if one.to)


def part_path(path: Steps) -> Steps:
    """The innermost part, group or space that a phrase is written in; () for none."""
    depth = 0
    if path[:1] == ("spaces",):
        depth = 2
    while path[depth : depth + 1] == ("parts",) and len(path) > depth + 1:
        depth += 2
    return path[:depth]


def scope_at(root: Scope, path: Steps) -> Scope:
    """The scope a phrase of the piece is understood in: that of the innermost group it is written in."""
    scope, at = root, 0
    while path[at : at + 1] == ("parts",) and path[at + 2 : at + 3] == ("parts",):
        family = scope.families.get(path[at + 1])
        copies = family.copies() if family else ()
        if not copies or copies[0].thing.contents is None or copies[0].thing.family.kind == KIT:
            break
        scope, at = copies[0].thing.contents, at + 2
    return scope


def _of_first_material(scope: Scope) -> Iterator[Reference]:
    """Parts that do not say what they are of."""
    listed = materials.names(scope.home)
    for family in scope.families.values():
        if family.kind == PART and "of" not in family.node and listed:
            yield Reference(path_of(family), None, frozenset([("materials", listed[0])]))
        yield from _inside(family)


def _inside(family: Family) -> Iterator[Reference]:
    copies = family.copies() if family.kind == GROUP else ()
    if copies and copies[0].thing.contents is not None:
        yield from _of_first_material(copies[0].thing.contents)


class _Phrase:
    """What one phrase refers to, seen from the scope it stands in."""

    def __init__(self, root: Scope, phrase: Phrased) -> None:
        self.root, self.phrase = root, phrase
        self.scope = scope_at(root, phrase.path)
        self.home = self.scope.home
        self.axis = next((axis for axis in Axis if axis.word == phrase.path[-1]), None)

    def all(self) -> Iterator[Steps]:
        path = self.phrase.path
        if path[0] == "poses" and len(path) == 3 and not path[2].isdigit():
            yield ("movements", path[2])
        for name, role, axis in self._names():
            yield from self._named(name, role, axis)
        for tree in words_in(self.phrase.tree):
            match tree:
                case FaceOf(of=None):
                    yield from self._box(self._axis_of(tree.word))
                case SizeOf(of=None) if named.has_size(self.home, tree.word):
                    yield ("sizes", tree.word)
                case SizeOf(of=None):
                    yield from self._box(AXIS_OF_SIZE.get(tree.word))
                case OwnSize(of=None):
                    yield from self._own_material()

    def _names(self) -> Iterator[tuple[Name, str, Axis | None]]:
        """Every name in the phrase, what it is the name of, and the span of it that is meant."""
        told: set[int] = set()
        for name, role, axis in self._told_names():
            told.add(id(name))
            if role:
                yield name, role, axis
        kind = self.phrase.kind
        if kind == "options":
            return
        role = _CHOICE if self.phrase.path[-1] == "with" else _ROLE_OF_KIND.get(kind, _SIZE)
        for tree in words_in(self.phrase.tree):
            if isinstance(tree, Name) and id(tree) not in told:
                yield tree, role, None

    def _told_names(self) -> Iterator[tuple[Name, str, Axis | None]]:
        """Names whose role the words round them tell; no role for an option asked for."""
        for tree in words_in(self.phrase.tree):
            match tree:
                case FaceOf(of=Name() as of) | SizeOf(of=Name() as of):
                    yield of, _THING, self._axis_of(tree.word)
                case Between():
                    yield tree.first, _THING, self.axis
                    yield tree.second, _THING, self.axis
                case SameAs():
                    yield tree.part, _THING, self.axis
                case EdgeOf(of=Name() as of) | Target(of=Name() as of):
                    yield of, _THING, None
                case OwnSize(of=Name() as of):
                    yield of, _MATERIAL, None
                case Is():
                    yield tree.name, _ASKED, None
                    yield tree.option, "", None

    def _axis_of(self, word: str) -> Axis | None:
        """The axis a face or a size lies along; middle, inside and outside lie along that of the span."""
        if word in FACE_OF_WORD:
            return FACE_OF_WORD[word].axis
        if word == "floor":
            return Axis.HIGH
        return AXIS_OF_SIZE.get(word) or (self.axis if word in ("middle", "inside", "outside") else None)

    def _named(self, name: Name, role: str, axis: Axis | None) -> Iterator[Steps]:
        text = name.text
        if role in (_SIZE, _SETTING) and named.has_size(self.home, text):
            yield ("sizes", text)
        if role in (_CHOICE, _ASKED, _SETTING) and choices.is_choice(self.home, text):
            yield ("choices", text)
        if role in (_MATERIAL, _ASKED, _SETTING) and materials.is_material(self.home, text):
            yield ("materials", text)
        if role == _THING:
            yield from self._thing(name, axis)

    def _thing(self, name: Name, axis: Axis | None) -> Iterator[Steps]:
        """A part, a space, a fitting, a held thing, a movement, a pose or a detail."""
        section = self._section()
        for known in (section,) if section else ("holds", "hardware"):
            if child_or_none(self.home.node, (known, name.text)) is not None:
                yield (known, name.text)
                return
        if section in ("", "movements"):  # a movement of a kit goes by the name of its use
            yield from self._standing(name, axis)

    def _section(self) -> str:
        path = self.phrase.path
        if path[-1] == "detail":
            return "details"
        if path[0] == "poses":
            return "movements"
        key = next((word for word in reversed(path) if not word.isdigit()), "")
        return _SECTION_NAMED.get((path[0], key), "")

    def _standing(self, name: Name, axis: Axis | None) -> Iterator[Steps]:
        found = names.look_up(self.scope, name.words, self.phrase.scalar.place_of(name))
        for seen in found.seen:
            yield _span_of(seen, axis)
        if not found.seen:
            yield from (path_of(family) for family in found.families if family.scope.home is self.home)

    def _box(self, axis: Axis | None) -> Iterator[Steps]:
        """What a bare face word depends on: the space stood in, the group's own box, or the whole."""
        if axis is None:
            return
        own = child_or_none(self.root.node, part_path(self.phrase.path))
        said = own.get("in") if isinstance(own, MappingNode) else None
        owner = self.scope.owner
        if said is None and owner is not None and owner.family.kind == GROUP:
            if axis.word in owner.family.node:
                yield (*path_of(owner.family), axis.word)
                return
            said = owner.family.node.get("in")
        if isinstance(said, Scalar):
            yield from self._space(said, axis)
        else:
            yield ("overall", axis.word)

    def _space(self, said: Scalar, axis: Axis) -> Iterator[Steps]:
        words = tuple(said.text.lower().split())
        for seen in names.look_up(self.scope, words, said.place).seen:
            yield (*path_of(seen.thing.family), axis.word)

    def _own_material(self) -> Iterator[Steps]:
        own = child_or_none(self.root.node, part_path(self.phrase.path))
        said = own.get("of") if isinstance(own, MappingNode) else None
        listed = materials.names(self.home)
        name = " ".join(said.text.lower().split()) if isinstance(said, Scalar) else next(iter(listed), "")
        if name in listed:
            yield ("materials", name)


def _span_of(seen: Seen, axis: Axis | None) -> Steps:
    """The key of a thing, or of one of its spans where only that is asked for."""
    key = key_of(seen)
    plain = key.use is None and seen.thing.family.kind in (PART, SPACE)
    return (*key.path, axis.word) if plain and axis is not None else key.path
