"""The tree behind a piece: scopes hold families (one key each), families hold things, things are copied.

A `Thing` is a definition standing in one place: spans are worked out for it alone. Its `Copy`s are
images of it. A `Seen` is a copy as it looks from some scope, with the way of containers that led there.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cached_property

from scantling.errors import Place
from scantling.piece.language.document import Document, MappingNode, Node, Scalar
from scantling.piece.model import Axis
from scantling.piece.resolve.common import Common
from scantling.piece.resolve.steps import Quarter, Steps, along

Token = tuple[str, int | None]  # a word and the number that belongs to it
SIDES: dict[str, tuple[Axis, int]] = {
    "left": (Axis.WIDE, -1),
    "right": (Axis.WIDE, 1),
    "front": (Axis.DEEP, -1),
    "back": (Axis.DEEP, 1),
    "bottom": (Axis.HIGH, -1),
    "top": (Axis.HIGH, 1),
}
PART, GROUP, KIT, SPACE = "part", "group", "kit", "space"
SHAPE_KEYS = ("foot", "head", "taper", "section", "outline")


@dataclass(frozen=True, slots=True)
class Reach:
    """A span worked out: where it begins and ends, and the parts whose faces it ends on."""

    low: float
    high: float
    low_faces: frozenset[Thing] = frozenset()
    high_faces: frozenset[Thing] = frozenset()

    @property
    def size(self) -> float:
        return self.high - self.low

    @property
    def middle(self) -> float:
        return (self.low + self.high) / 2

    def through(self, steps: Steps, axis: Axis) -> Reach:
        """An inside span as seen outside, `axis` being the outside axis."""
        way = along(steps, axis)
        low, high = way.out(self.low), way.out(self.high)
        if way.sign > 0:
            return Reach(low, high, self.low_faces, self.high_faces)
        return Reach(high, low, self.high_faces, self.low_faces)


@dataclass(frozen=True, slots=True)
class Setting:
    """What a use says for one setting of a kit: the words, and where they are to be understood."""

    node: Node
    user: Thing


@dataclass(eq=False)
class Scope:
    """Names that stand together: the piece, a group, or a kit in use.

    `document` is the file whose sizes, choices and materials are meant; a group shares its parent's.
    A closed scope (a kit, a turned group) sees nothing outside but its box.
    """

    common: Common
    document: Document
    node: MappingNode
    parent: Scope | None = None
    owner: Thing | None = None
    closed: bool = False
    facing: Quarter | None = None
    given: dict[str, Setting] = field(default_factory=dict)
    families: dict[str, Family] = field(default_factory=dict)

    @property
    def is_home(self) -> bool:
        """Whether sizes, choices and materials are written at this level."""
        return self.owner is None or self.owner.family.kind == KIT

    @cached_property
    def home(self) -> Scope:
        """The piece or kit this scope belongs to."""
        scope = self
        while not scope.is_home:
            assert scope.parent is not None
            scope = scope.parent
        return scope

    @property
    def steps(self) -> Steps:
        """From this scope's frame to its parent's."""
        return (self.facing,) if self.facing else ()

    @cached_property
    def label(self) -> str:
        """How this scope is called in messages: empty for the piece itself."""
        return self.owner.label if self.owner else ""

    @cached_property
    def used_at(self) -> Place | None:
        """The line of a maker's own file that uses the kit of the house this scope is in, if it is in one."""
        owner = self.home.owner
        if owner is None:
            return None
        outer = owner.scope.used_at
        if outer is not None:
            return outer
        return owner.family.key.place if self.home.document.of_house else None

    def shown_place(self, place: Place) -> Place:
        """A place in this scope's file as a maker is told it: never in a kit of the house."""
        return self.used_at or place


@dataclass(eq=False)
class Family:
    """All that stands under one key. `split_from` names the space whose gaps these are."""

    scope: Scope
    key: Scalar
    name: str
    kind: str
    node: MappingNode
    split_from: Family | None = None

    @cached_property
    def tokens(self) -> tuple[Token, ...]:
        return tokens_of(tuple(self.name.split()))

    @cached_property
    def is_shaped(self) -> bool:
        """Whether its words make it anything but a plain box."""
        return any(key in self.node for key in SHAPE_KEYS)

    def copies(self) -> tuple[Copy, ...]:
        return self.scope.common.workings.expand(self)

    @property
    def things(self) -> Iterator[Thing]:
        seen: dict[int, Thing] = {id(copy.thing): copy.thing for copy in self.copies()}
        return iter(seen.values())


@dataclass(eq=False)
class Thing:
    """One definition in one place. `standing`: the copy of the space it stands in, if it says `in`.

    `number`: its place in a split. `contents`: what a group or a kit holds. `alone`: no other of its family
    stands in another copy of that space, so the space's number says nothing of it.
    """

    family: Family
    standing: Seen | None = None
    number: int | None = None
    contents: Scope | None = None
    copies: tuple[Copy, ...] = ()
    alone: bool = False
    reaches: dict[Axis, Reach] = field(default_factory=dict)  # as far as they are worked out

    @property
    def many_stand(self) -> Seen | None:
        """The copy of the space it stands in, where others of its family stand in other copies."""
        return None if self.alone else self.standing

    @property
    def scope(self) -> Scope:
        return self.family.scope

    @property
    def common(self) -> Common:
        return self.family.scope.common

    @cached_property
    def label(self) -> str:
        """How messages call it: `drawer 3 side`."""
        outer = self.scope.label
        number = self.number
        if number is None and self.many_stand:
            number = self.many_stand.copy.number
        own = f"{self.family.name} {number}" if number is not None else self.family.name
        return f"{outer} {own}" if outer else own

    @cached_property
    def in_row(self) -> bool:
        """Whether it is copied by `row`."""
        copies = self.family.node.get("copies")
        return isinstance(copies, MappingNode) and "row" in copies

    def reach(self, axis: Axis) -> Reach:
        found = self.reaches.get(axis)
        return found if found is not None else self.common.workings.reach(self, axis)


@dataclass(eq=False)
class Copy:
    """One image of a thing: its place words, its number in a row, and the steps from the definition."""

    thing: Thing
    words: tuple[str, ...] = ()
    row_number: int | None = None
    steps: Steps = ()
    mirrored: bool = False

    @property
    def number(self) -> int | None:
        """Its own number, or that of the opening it stands in."""
        if self.row_number is not None:
            return self.row_number
        if self.thing.number is not None:
            return self.thing.number
        standing = self.thing.many_stand
        return standing.copy.number if standing else None

    @cached_property
    def side_words(self) -> tuple[str, ...]:
        standing = self.thing.many_stand
        outer = standing.copy.side_words if standing else ()
        return _in_order((*outer, *self.words))

    @cached_property
    def called(self) -> str:
        """Its name inside its own scope: `left front leg`, `bay 1 shelf 2`."""
        number = f" {self.number}" if self.number is not None else ""
        sides = self.words if self._names_space else self.side_words
        own = " ".join((*sides, self.thing.family.name)) + number
        return f"{self._space_name} {own}" if self._space_name else own

    @property
    def _names_space(self) -> bool:
        own_number = self.row_number is not None or self.thing.number is not None
        standing = self.thing.many_stand
        return own_number and standing is not None and _is_one_of_many(standing.copy)

    @property
    def _space_name(self) -> str:
        standing = self.thing.many_stand
        if standing is None:
            return ""
        return standing.copy.called if self._names_space else standing.copy._space_name


@dataclass(frozen=True, eq=False, slots=True)
class Seen:
    """A copy as seen from a scope: `path` leads from the outermost container to the copy itself.

    `steps` lead from the thing's own frame to the frame of the scope that looks.
    """

    path: tuple[Copy, ...]
    steps: Steps

    @property
    def copy(self) -> Copy:
        return self.path[-1]

    @property
    def thing(self) -> Thing:
        return self.path[-1].thing

    @property
    def name(self) -> str:
        return " ".join(copy.called for copy in self.path)

    @property
    def side_words(self) -> tuple[str, ...]:
        if len(self.path) == 1:  # asked for every name in every span, of parts mostly in no group
            return self.copy.side_words
        return tuple(word for copy in self.path for word in copy.side_words)

    @property
    def mirrored(self) -> bool:
        return sum(copy.mirrored for copy in self.path) % 2 == 1

    def inside(self, container: Copy, facing: Steps) -> Seen:
        """The same copy seen from outside the container it stands in."""
        return Seen((container, *self.path), self.steps + facing + container.steps)

    def after(self, steps: Steps) -> Seen:
        return Seen(self.path, self.steps + steps)


def seen_in_scope(copy: Copy) -> Seen:
    """A copy as its own scope sees it."""
    return Seen((copy,), copy.steps)


def members(scope: Scope) -> Iterator[Seen]:
    """Every copy of every family of a scope, in the order of writing."""
    for family in scope.families.values():
        for copy in family.copies():
            yield seen_in_scope(copy)


def leaves(seen: Seen) -> Iterator[Seen]:
    """The parts in `seen`: itself, or all that a group or kit holds, as seen from the same scope."""
    if seen.thing.family.kind == PART:
        yield seen
    elif seen.thing.contents:
        contents = seen.thing.contents
        for inner in members(contents):
            if inner.thing.family.kind != SPACE:
                for leaf in leaves(inner):
                    yield Seen((*seen.path, *leaf.path), leaf.steps + contents.steps + seen.steps)


def tokens_of(words: tuple[str, ...]) -> tuple[Token, ...]:
    """Words with the numbers that follow them: `bay 1 shelf 2` -> (bay, 1), (shelf, 2)."""
    tokens: list[Token] = []
    for word in words:
        if word.isdigit() and tokens and tokens[-1][1] is None:
            tokens[-1] = (tokens[-1][0], int(word))
        else:
            tokens.append((word, None))
    return tuple(tokens)


def _in_order(words: tuple[str, ...]) -> tuple[str, ...]:
    """Left or right first, then front or back."""
    return tuple(sorted(dict.fromkeys(words), key=lambda word: SIDES[word][0] if word in SIDES else 9))


def _is_one_of_many(copy: Copy) -> bool:
    return len(copy.thing.family.copies()) > 1
